import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, test, vi } from 'vitest';
import { analyzeSet } from '../../../analysis/analyzeSet.js';
import { parseTempo } from '../../../analysis/plan/tempo.js';
import { analyzeUnnamed } from '../../../analysis/recognition/analyzeUnnamed.js';
import { type SetReport, setReportSchema } from '../../../analysis/report/setReport.js';
import type { FilmFacts } from '../../../core/media/film.js';
import { decodeTrack } from '../../../core/pose/trackFile.js';

const TRACKS = fileURLToPath(new URL('../../../fixtures/evaluation/tracks/', import.meta.url));
const PLAN = { stages: [{ tempo: parseTempo('3-1-1-0'), reps: null }], restSeconds: null };
const ASKED = { exercise: null, plan: PLAN, side: null, mirrored: false, baselineRangeDegrees: null };

function filmed(scene: string) {
  const track = decodeTrack(readFileSync(`${TRACKS}${scene}.track`));
  const { facts } = JSON.parse(readFileSync(`${TRACKS}${scene}.json`, 'utf8')) as { facts: FilmFacts };
  return { track, facts };
}

const phasesOf = ({ bouts }: SetReport) => bouts.flatMap(({ reps }) => reps.flatMap(({ phases }) => phases));

vi.setConfig({ testTimeout: 60_000 });

describe('a film whose exercise nobody named', () => {
  test('is judged like a named one where the movement is beyond doubt, and says that it was recognised', () => {
    const { track, facts } = filmed('seated-row-advised');
    const { analysis, request } = analyzeUnnamed(track, facts, ASKED);
    const named = analyzeSet(track, facts, { ...request, exerciseChosenBy: 'user' });
    expect(setReportSchema.parse(analysis.report)).toEqual(analysis.report);
    expect(analysis.report.bouts).toEqual(named.report.bouts);
    expect(analysis.report.exercise).toMatchObject({
      id: 'seated-row',
      name: 'Seated row (recognised)',
      chosenBy: 'recognition',
      confirmed: true,
    });
    expect(analysis.report.quality.findings[0]?.code).toBe('exercise-recognised');
  });

  test('is told as bending and straightening without any verdict where it is not', () => {
    const { track, facts } = filmed('curl-advised');
    const { report } = analyzeUnnamed(track, facts, ASKED).analysis;
    expect(setReportSchema.parse(report)).toEqual(report);
    expect(report.exercise).toMatchObject({ id: 'unconfirmed', chosenBy: 'recognition', confirmed: false });
    expect(report.exercise.candidates?.map(({ id }) => id)).toContain('curl');
    expect(report.bouts[0]?.reps).toHaveLength(4);
    expect(report.plan).toBeNull();
    expect(
      phasesOf(report).every(({ verdict, plannedSeconds }) => verdict === null && plannedSeconds === null),
    ).toBe(true);
    expect(report.bouts.every(({ summary }) => summary.deliveredLoweringShare === null)).toBe(true);
    expect(report.headline).toMatch(/^Exercise not confirmed: .*straightening.*bending/);
    const [first] = report.quality.findings;
    expect(first).toMatchObject({ code: 'exercise-unconfirmed', level: 'warning' });
    expect(first?.remedy).toContain(`--exercise ${report.exercise.candidates?.[0]?.id}`);
  });

  test.each(['no-reps-wave', 'no-reps-talk', 'no-reps-fidget'])(
    '%s shows none, and no rep is invented',
    (scene) => {
      const { track, facts } = filmed(scene);
      const { report } = analyzeUnnamed(track, facts, ASKED).analysis;
      expect(report.bouts).toEqual([]);
      expect(report.quality.usable).toBe(false);
      expect(setReportSchema.parse(report)).toEqual(report);
    },
  );
});
