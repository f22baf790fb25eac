import { describe, expect, it } from 'vitest';
import { CURVE_COLUMNS, CURVE_CSV_HEADER, curveCsv } from '../../../../cli/views/tables/curveCsv.js';
import { sampleSet } from '../page/sampleSet.js';

describe('curveCsv', () => {
  const { analysis } = sampleSet({ file: 'row, "left".mp4' });
  const lines = curveCsv(analysis).trimEnd().split('\n');

  it('reads back as the curve it was made from', () => {
    const points = analysis.curves.flatMap((curve) =>
      curve.seconds.map((seconds, index) => ({ seconds, degrees: curve.degrees[index]! })),
    );
    expect(lines).toHaveLength(points.length);
    lines.forEach((line, index) => {
      const rest = line.replace(/^"row, ""left"".mp4",/, 'film,').split(',');
      expect(rest).toHaveLength(CURVE_COLUMNS.length);
      expect(Number(rest[5])).toBeCloseTo(points[index]!.seconds, 3);
      expect(Number(rest[6])).toBeCloseTo(points[index]!.degrees, 2);
    });
  });

  it('names rep and phase where there is one', () => {
    const rep = analysis.report.bouts[0]!.reps[0]!;
    const inside = lines.find((line) => Number(line.split(',').at(-5)) > rep.startSeconds + 0.3)!;
    expect(inside.endsWith(',1,concentric')).toBe(true);
    expect(lines[0]!.endsWith(',,')).toBe(true);
    expect(CURVE_CSV_HEADER.trim().split(',')).toHaveLength(CURVE_COLUMNS.length);
  });
});
