import { afterEach, describe, expect, test, vi } from 'vitest';
import { analyzeSet } from '../../../analysis/analyzeSet.js';
import { findExercise } from '../../../analysis/exercises/catalogue.js';
import { type History, withHistory } from '../../../cli/history/file/history.js';
import { readEntries } from '../../../cli/history/sets/readEntries.js';
import { readReport } from '../../../cli/history/sets/readSets.js';
import { saveSet } from '../../../cli/history/sets/saveSet.js';
import { editSet } from '../../../cli/savedSets/editSet.js';
import { decodeTrack, encodeTrack, roundTrack } from '../../../core/pose/trackFile.js';
import { evaluationScenes } from '../../../fixtures/evaluation/sceneList.js';
import { sceneFacts } from '../../../fixtures/lifter/frameTimes.js';
import { USUAL_POSE_NOISE } from '../../../fixtures/lifter/keypointNoise.js';
import { simulatedTrack } from '../../../fixtures/lifter/keypoints.js';
import { inventedSet } from '../history/invented.js';
import { temporaryHistory } from '../history/temporaryHistory.js';

const place = temporaryHistory();
afterEach(() => vi.restoreAllMocks());
vi.setConfig({ testTimeout: 60_000 });

/** A set as the analysis gives it from simulated keypoints, saved with its track. */
function savedSet() {
  const scene = evaluationScenes().find((one) => one.scene.exercise === 'squat' && !one.mirrored)!.scene;
  const track = roundTrack(simulatedTrack(scene, USUAL_POSE_NOISE));
  const film = sceneFacts(scene);
  const request = {
    exercise: findExercise('squat'),
    exerciseChosenBy: 'user' as const,
    side: null,
    mirrored: false,
  };
  const { report } = analyzeSet(track, film, { ...request, plan: null });
  const file = place();
  withHistory(file, 'writing', (history) =>
    saveSet(history, inventedSet({}, { report, track: { film, request, bytes: encodeTrack(track) } })),
  );
  return { file, report, request, film, track: decodeTrack(encodeTrack(track)) };
}

describe('editing a saved set', () => {
  test('another plan scores it anew from its track, exactly as the film would be', async () => {
    vi.spyOn(process.stdout, 'write').mockReturnValue(true);
    const { file, request, film, track } = savedSet();
    await editSet('last', { tempo: '5-0-1-0', reps: '6-8', load: ['16kg'], history: file });
    const load = { value: 16, unit: 'kg' as const };
    const plan = {
      stages: [
        {
          tempo: { eccentric: 5, stretchedHold: 0, concentric: 1, contractedHold: 0 },
          reps: { min: 6, max: 8 },
        },
      ],
      restSeconds: null,
    };
    const expected = analyzeSet(track, film, { ...request, plan, load }).report;
    const read = <Result>(work: (history: History) => Result) => withHistory(file, 'reading', work);
    const { method: _method, ...stored } = read((history) => readReport(history, 1));
    const { method: _expectedMethod, ...wanted } = expected;
    expect(stored).toEqual(JSON.parse(JSON.stringify(wanted)));
    const entry = read((history) => readEntries(history)[0]!);
    expect(entry.details.load).toEqual(load);
    expect(entry.plan).toEqual(plan);
    expect(entry.bouts[0]?.deliveredLoweringShare).toBe(expected.bouts[0]?.summary.deliveredLoweringShare);

    // A rest alone leaves tempo and reps as they were planned.
    await editSet('last', { rest: 90, history: file });
    expect(read((history) => readEntries(history)[0]?.plan)).toEqual({ ...plan, restSeconds: 90 });
  });

  test('load, note and marks change without touching the measurement', async () => {
    vi.spyOn(process.stdout, 'write').mockReturnValue(true);
    const { file, report } = savedSet();
    await editSet('1', { load: ['20kg', '15kg'], note: 'slow', warmUp: true, history: file });
    await editSet('1', { note: '', history: file });
    withHistory(file, 'reading', (history) => {
      expect(readEntries(history)[0]?.details).toEqual({
        lifter: null,
        load: { value: 20, unit: 'kg' },
        stageLoads: [
          { value: 20, unit: 'kg' },
          { value: 15, unit: 'kg' },
        ],
        warmUp: true,
        note: null,
      });
      expect(readReport(history, 1).bouts).toEqual(report.bouts);
    });
  });

  test('a set without its track cannot be scored anew, and says so', async () => {
    const file = place();
    withHistory(file, 'writing', (history) => saveSet(history, inventedSet()));
    await expect(editSet('1', { tempo: '5-0-1-0', history: file })).rejects.toThrow(
      /stored without its pose track/,
    );
  });
});
