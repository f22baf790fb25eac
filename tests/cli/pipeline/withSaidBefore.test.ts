import { writeFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, test, vi } from 'vitest';
import type { SetRequest } from '../../../analysis/analyzeSet.js';
import { findExercise } from '../../../analysis/exercises/catalogue.js';
import type { SetReport } from '../../../analysis/report/setReport.js';
import { withHistory } from '../../../cli/history/file/history.js';
import { filmKey } from '../../../cli/history/sets/filmKey.js';
import { readEntries } from '../../../cli/history/sets/readEntries.js';
import { readReport } from '../../../cli/history/sets/readSets.js';
import { NO_DETAILS, type SetToSave } from '../../../cli/history/sets/savedSet.js';
import { saveSet } from '../../../cli/history/sets/saveSet.js';
import type { SetOptions } from '../../../cli/options/setOptions.js';
import { scoreFilm } from '../../../cli/pipeline/analyzeFilm.js';
import { type KeepOptions, keepSet } from '../../../cli/pipeline/keepSet.js';
import { setRequest } from '../../../cli/pipeline/setRequest.js';
import { type SaidOptions, withSaidBefore } from '../../../cli/pipeline/withSaidBefore.js';
import type { FilmFacts } from '../../../core/media/film.js';
import { evaluationScenes } from '../../../fixtures/evaluation/sceneList.js';
import { sceneFacts } from '../../../fixtures/lifter/frameTimes.js';
import { USUAL_POSE_NOISE } from '../../../fixtures/lifter/keypointNoise.js';
import { simulatedTrack } from '../../../fixtures/lifter/keypoints.js';
import { inventedSet, inventedTrack } from '../history/invented.js';
import { temporaryHistory } from '../history/temporaryHistory.js';

vi.setConfig({ testTimeout: 60_000 });
const place = temporaryHistory();

const OPEN: SetRequest = {
  exercise: findExercise('single-arm-row'),
  exerciseChosenBy: 'user',
  plan: null,
  side: null,
  mirrored: false,
  load: null,
  stageLoads: null,
};
const PLANNED = {
  stages: [{ tempo: { eccentric: 2, stretchedHold: 0, concentric: 1, contractedHold: 0 }, reps: null }],
  restSeconds: null,
};
const KILOGRAMS_14 = { value: 14, unit: 'kg' as const };
const TOLD = { ...NO_DETAILS, lifter: 'Robin', load: KILOGRAMS_14, warmUp: true, note: 'easy' };

function noted() {
  const notes: string[] = [];
  return { notes, update: () => {}, stop: () => {}, note: (message: string) => void notes.push(message) };
}

function filmIn(history: string): FilmFacts {
  const file = path.join(path.dirname(history), 'row.mp4');
  writeFileSync(file, 'these bytes stand for a film');
  return { file } as FilmFacts;
}

/** A history with one invented set of a film: planned 4-0-1-1, 3 to 20 reps, and told what `TOLD` says. */
async function savedFilm(over: Partial<SetToSave> = {}) {
  const history = place();
  const film = filmIn(history);
  const track = inventedTrack(new Uint8Array(1), {});
  const request = {
    ...track.request,
    side: 'left' as const,
    mirrored: true,
    tolerance: { seconds: 0.5, share: 0 },
  };
  const set = inventedSet(
    {},
    { filmKey: await filmKey(film.file), details: TOLD, track: { ...track, request }, ...over },
  );
  withHistory(history, 'writing', (open) => saveSet(open, set));
  const ask = async (now: Partial<SetRequest> = {}, options: SaidOptions = {}) => {
    const progress = noted();
    const said = await withSaidBefore(film, { ...OPEN, ...now }, { history, ...options }, progress);
    return { ...said, notes: progress.notes };
  };
  return { ask, plan: set.report.plan, history };
}

describe('a film that was saved before', () => {
  test('is asked as before where nothing else is told, and one line says so', async () => {
    const { ask, plan } = await savedFilm();
    const { request, details, notes } = await ask();
    expect(request).toEqual({
      ...OPEN,
      ...{ plan, side: 'left', mirrored: true, load: KILOGRAMS_14, tolerance: { seconds: 0.5, share: 0 } },
    });
    expect(details).toEqual(TOLD);
    expect(notes).toHaveLength(1);
    expect(notes[0]).toMatch(
      /^As told of set 1 before: the plan, lower for 4 s, .*3 to 20 reps \(another: --tempo/,
    );
    expect(notes[0]).toMatch(
      /none: --without-plan\); the side, left .*; a mirror image .*; the tolerance, 0\.5 s/,
    );
    expect(notes[0]).not.toContain('\n');
  });

  test('is asked what is told now, and the rest as before', async () => {
    const { ask } = await savedFilm();
    const load = { value: 9, unit: 'kg' as const };
    const tolerance = { seconds: 0.2, share: 0 };
    const now = { plan: PLANNED, side: 'both' as const, load, tolerance };
    const { request, details, notes } = await ask(now, { mirrored: false, note: 'hard', lifterName: 'Ann' });
    expect(request).toMatchObject({ ...now, mirrored: false });
    expect(details).toEqual({ ...TOLD, load, note: 'hard', lifter: 'Ann' });
    expect(notes).toEqual([]);
  });

  test('has no plan where the user says so; a rest alone leaves tempo and reps', async () => {
    const { ask, plan } = await savedFilm();
    const without = await ask({}, { withoutPlan: true });
    expect(without.request.plan).toBeNull();
    expect(without.notes.join()).not.toContain('plan');
    expect((await ask({ plan: { stages: [], restSeconds: 90 } })).request.plan).toEqual({
      ...plan,
      restSeconds: 90,
    });
  });

  test('keeps the exercise the user named where it is only recognised now', async () => {
    const { ask } = await savedFilm();
    expect((await ask({ exerciseChosenBy: 'recognition' })).request.exerciseChosenBy).toBe('user');
  });

  test('says nothing for another exercise or a part of the film that does not overlap', async () => {
    const { ask } = await savedFilm({ toSeconds: 20 });
    for (const said of [await ask({ exercise: findExercise('curl') }), await ask({}, { from: 20 })]) {
      expect(said).toMatchObject({ before: false, notes: [], details: NO_DETAILS });
      expect(said.request.plan).toBeNull();
    }
  });

  test('answers for itself without a history, and beside one that is damaged', async () => {
    const { ask, history } = await savedFilm();
    writeFileSync(history, 'shopping list\n'.repeat(200));
    const { request, notes } = await ask();
    expect(request).toEqual(OPEN);
    expect(notes).toEqual([
      expect.stringMatching(
        /^What was told of this film before was not looked up: The history .* is damaged/,
      ),
    ]);
    expect((await ask({}, { history: `${history}.none` })).notes).toEqual([]);
  });
});

test('--without-plan beside a plan is refused', async () => {
  await expect(setRequest({ exercise: 'squat', withoutPlan: true, tempo: '3-0-1-0' })).rejects.toThrow(
    '--without-plan says that there was no plan',
  );
});

test('analyzed again without a plan, a set is scored and saved as it was planned', async () => {
  const scene = evaluationScenes().find((one) => one.scene.exercise === 'squat' && !one.mirrored)!.scene;
  const track = simulatedTrack(scene, USUAL_POSE_NOISE);
  const history = place();
  const film = { ...sceneFacts(scene), file: filmIn(history).file };
  const analyzed = async (asked: SetOptions, keep: KeepOptions = {}): Promise<SetReport> => {
    const options = { ...asked, ...keep, history };
    const request = await setRequest({ exercise: 'squat', ...asked });
    const answer = await scoreFilm({ film, track }, request, options, noted());
    await keepSet(answer, options);
    return answer.analysis.report;
  };
  const saved = () =>
    withHistory(history, 'reading', (open) => ({ report: readReport(open, 1), entries: readEntries(open) }));

  const planned = await analyzed({ tempo: '5-0-1-0', load: ['14kg'] }, { note: 'easy', warmUp: true });
  expect(planned.plan?.stages[0]?.tempo?.eccentric).toBe(5);
  expect(await analyzed({})).toEqual(planned);
  expect(saved().report).toEqual(JSON.parse(JSON.stringify(planned)));
  expect(saved().entries).toMatchObject([
    { plan: planned.plan, details: { load: KILOGRAMS_14, note: 'easy', warmUp: true } },
  ]);
  expect((await analyzed({ withoutPlan: true })).plan).toBeNull();
  expect(saved().report.plan).toBeNull();
  expect(saved().entries[0]?.details.load).toEqual(KILOGRAMS_14);
});
