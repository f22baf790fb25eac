import { writeFileSync } from 'node:fs';
import { beforeAll, describe, expect, test } from 'vitest';
import { findExercise } from '../../../analysis/exercises/catalogue.js';
import type { SetReport } from '../../../analysis/report/setReport.js';
import { withHistory } from '../../../cli/history/file/history.js';
import { readEarlierRanges } from '../../../cli/history/sets/earlierRanges.js';
import { NO_DETAILS, type SetToSave } from '../../../cli/history/sets/savedSet.js';
import { saveSet } from '../../../cli/history/sets/saveSet.js';
import { analyzeWithHistory } from '../../../cli/pipeline/analyzeWithHistory.js';
import { setScreen } from '../../../cli/views/terminal/setScreen.js';
import { PLAIN_STYLE } from '../../../cli/views/terminal/style.js';
import { sceneFacts } from '../../../fixtures/lifter/frameTimes.js';
import { USUAL_POSE_NOISE } from '../../../fixtures/lifter/keypointNoise.js';
import { simulatedTrack } from '../../../fixtures/lifter/keypoints.js';
import { stagingOf } from '../../../fixtures/lifter/postures/stagings.js';
import { scene } from '../../../fixtures/lifter/sceneDefaults.js';
import { inventedSet } from '../history/invented.js';
import { temporaryHistory } from '../history/temporaryHistory.js';

const place = temporaryHistory();
const squat = findExercise('squat');
const { stretched, contracted } = stagingOf('squat');
const question = {
  exercise: squat,
  exerciseChosenBy: 'user',
  plan: null,
  side: null,
  mirrored: false,
} as const;

/** Squats of which each goes so far down, as a share of the whole way. */
function filmed(depths: readonly number[], seed: number, day: string) {
  const made = scene({
    name: 'squat',
    seed,
    exercise: 'squat',
    timeline: [
      {
        kind: 'bout',
        side: 'both',
        settleSeconds: 1.2,
        afterSeconds: 1.2,
        reps: depths.map((depth) => ({
          seconds: { eccentric: 1.5, stretchedHold: 0.6, concentric: 1, contractedHold: 0.8 },
          stretchedDegrees: contracted + depth * (stretched - contracted),
          contractedDegrees: contracted,
          profile: 'constant-with-ramps',
        })),
      },
    ],
  });
  return {
    track: simulatedTrack(made, USUAL_POSE_NOISE),
    film: { ...sceneFacts(made), file: `squat ${day}.mp4`, recordedAt: `2026-03-${day}T18:00:00Z` },
  };
}

const notes: string[] = [];
const progress = { update: () => {}, stop: () => {}, note: (message: string) => void notes.push(message) };
const ANALYSES_MILLISECONDS = 90_000;

async function analyzed({ track, film }: ReturnType<typeof filmed>, file: string): Promise<SetReport> {
  return (await analyzeWithHistory(track, film, question, { history: file }, progress)).report;
}

function save(file: string, report: SetReport, day: string, over: Partial<SetToSave> = {}): void {
  const recordedAt = `2026-03-${day}T18:00:00Z`;
  withHistory(file, 'writing', (history) =>
    saveSet(history, inventedSet({ film: `squat ${day}.mp4`, recordedAt }, { report, ...over })),
  );
}

const codesOf = (report: SetReport) => report.quality.findings.map((one) => one.code);

describe('a set of fewer than three reps', () => {
  const short = filmed([1, 0.75], 16, '16');
  let whole: SetReport;
  beforeAll(async () => {
    whole = await analyzed(filmed([1, 1, 1], 2, '02'), place());
  }, ANALYSES_MILLISECONDS);

  test(
    'is held against the lifter’s own earlier sets, and the report says so',
    async () => {
      const file = place();
      save(file, whole, '02');
      save(file, whole, '09');
      const report = await analyzed(short, file);
      const { summary, reps } = report.bouts[0]!;
      expect(summary.baselineEarlierSets).toBe(2);
      expect(reps.map((rep) => rep.range?.shortened)).toEqual([false, true]);
      expect(reps[1]!.range?.ofBaseline).toBeCloseTo(0.75, 1);
      expect(codesOf(report)).toContain('baseline-from-earlier-sets');
      expect(codesOf(report)).not.toContain('too-few-reps-for-baseline');
      const screen = setScreen(report, squat.words, PLAIN_STYLE);
      expect(screen).toMatch(/Range of your earlier sets \(2\) \d+°; shortened from rep 2/);
      expect(screen).toMatch(/% below your\s+earlier sets/);
      expect(screen).toContain('▼ in Range: shorter than your earlier sets');
      expect(screen).not.toContain('first reps');

      // Its baseline is theirs: it adds nothing to the next one. Earlier films do not see later ones, nor Ann Kim's.
      save(file, report, '16');
      const found = (before: string, lifter: string | null = null) =>
        withHistory(file, 'reading', (history) =>
          readEarlierRanges(history, { exerciseId: 'squat', lifter, before: `2026-03-${before}T00:00:00Z` }),
        ).length;
      expect(found('20')).toBe(2);
      expect(found('05')).toBe(1);
      expect(found('01')).toBe(0);
      expect(found('20', 'Ann')).toBe(0);
    },
    ANALYSES_MILLISECONDS,
  );

  test(
    'cannot tell without earlier sets; warm-ups, invented sets and other exercises are none',
    async () => {
      const file = place();
      save(file, whole, '02', { details: { ...NO_DETAILS, warmUp: true } });
      save(file, whole, '03', { invented: true });
      save(file, { ...whole, exercise: { ...whole.exercise, id: 'split-squat' } }, '04');
      const alone = await analyzed(short, file);
      expect(alone.bouts[0]?.summary.baselineRangeDegrees).toBeNull();
      expect(alone.bouts[0]?.reps.map((rep) => rep.range?.ofBaseline)).toEqual([null, null]);
      expect(codesOf(alone)).toContain('too-few-reps-for-baseline');
    },
    ANALYSES_MILLISECONDS,
  );

  test(
    'answers for itself where the history is damaged, and says that it did not look',
    async () => {
      const file = place();
      writeFileSync(file, 'shopping list\n'.repeat(200));
      expect((await analyzed(short, file)).quality.usable).toBe(true);
      expect(notes).toEqual([
        expect.stringMatching(/^Earlier sets were not looked at: The history .* is damaged/),
      ]);
    },
    ANALYSES_MILLISECONDS,
  );
});
