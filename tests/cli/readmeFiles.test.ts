import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parseCustomExercises } from '../../analysis/exercises/customExercises.js';
import { HISTORY_COLUMNS } from '../../cli/views/history/historyCsv.js';
import { CURVE_COLUMNS } from '../../cli/views/tables/curveCsv.js';
import { REP_COLUMNS } from '../../cli/views/tables/repsCsv.js';
import { JOINT_ANGLES } from '../../core/motion/jointAngle.js';

const readme = readFileSync(new URL('../../README.md', import.meta.url), 'utf8');
const blocks = [...readme.matchAll(/^```yaml\n([\s\S]*?)^```/gm)].map((block) => block[1]!);

describe('the files that the README describes', () => {
  it('are read: exercises of one’s own', () => {
    const exercises = blocks.filter((block) => block.includes('workingRange'));
    expect(exercises).toHaveLength(1);
    const read = parseCustomExercises(exercises[0]!, 'exercises.yaml');
    expect(read.map(({ id }) => id)).toEqual(['towel-row', 'ring-curl']);
    expect(read[0]!.drivingAngle).toBe('elbow-flexion');
    for (const angle of JOINT_ANGLES) expect(readme).toContain(`\`${angle}\``);
  });

  it('are written: every column of the tables is described', () => {
    const described = (name: string) => readme.includes(`\`${name}\``);
    for (const name of [...CURVE_COLUMNS, ...HISTORY_COLUMNS]) expect(described(name), name).toBe(true);
    for (const { name } of REP_COLUMNS) {
      const phase = /^(stretched_hold|concentric|contracted_hold)_(?!speed)/.exec(name)?.[1];
      expect(described(phase === undefined ? name : `${phase}_…`), name).toBe(true);
    }
  });
});
