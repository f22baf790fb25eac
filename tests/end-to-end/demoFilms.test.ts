import { join } from 'node:path';
import { describe, expect, it, vi } from 'vitest';
import { type SetReport, setReportSchema } from '../../analysis/report/setReport.js';
import { matchReps } from '../../fixtures/evaluation/matchReps.js';
import { sceneTruth } from '../../fixtures/lifter/truth.js';
import { DEMO_SCENES } from '../../fixtures/scenes/demoScenes.js';
import { PROJECT, runCommand } from './command.js';
import { runInProcess } from './runInProcess.js';
import { homeWithSharedTracks } from './temporaryHome.js';

vi.setConfig({ testTimeout: 240_000 });

const home = homeWithSharedTracks();

async function reportOf(run: typeof runCommand, name: string, ...parameters: string[]): Promise<SetReport> {
  const film = join(PROJECT, 'fixtures/films', `${name}.mp4`);
  // One worker: other test files keep the second core busy, and starting more takes time of its own.
  const ask = ['analyze', film, ...parameters, '--workers', '1', '--format', 'json', '--no-save'];
  const outcome = await run(ask, { home });
  expect(outcome.code).toBe(0);
  return setReportSchema.parse(JSON.parse(outcome.output));
}

/** The bar for the demo films: eccentric and concentric times within 0.15 s of the truth on average. */
const MEAN_ERROR_SECONDS = 0.15;

describe.each(DEMO_SCENES.map((scene) => [scene.name, scene] as const))('%s', (name, scene) => {
  it('gives every rep, on the right side, with its times', async () => {
    const report = await reportOf(runCommand, name, '--exercise', scene.exercise);
    const truth = sceneTruth(scene);
    const { pairs, missed, invented } = matchReps(truth, report);
    expect({ missed: missed.length, invented: invented.length }).toEqual({ missed: 0, invented: 0 });
    expect(report.bouts.map(({ side, reps }) => [side, reps.length])).toEqual(
      truth.bouts.map(({ side, reps }) => [side, reps.length]),
    );
    const errors = pairs.flatMap((pair) =>
      (['eccentric', 'concentric'] as const).map((kind) => {
        const lengthOf = ({
          phases,
        }: {
          phases: readonly { kind: string; startSeconds: number; endSeconds: number }[];
        }) =>
          phases
            .filter((phase) => phase.kind === kind)
            .reduce((sum, { startSeconds, endSeconds }) => sum + endSeconds - startSeconds, 0);
        return Math.abs(lengthOf(pair.truth) - lengthOf(pair.report));
      }),
    );
    expect(errors.reduce((sum, error) => sum + error, 0) / errors.length).toBeLessThanOrEqual(
      MEAN_ERROR_SECONDS,
    );
  });
});

describe('the same film again', () => {
  it('is answered from what was kept, with another plan', async () => {
    const { name, exercise } = DEMO_SCENES[0]!;
    const plan = ['--tempo', '3-0-1-1', '--reps', '4'];
    const unplanned = await reportOf(runInProcess, name, '--exercise', exercise);
    const planned = await reportOf(runInProcess, name, '--exercise', exercise, ...plan);
    expect(planned.bouts.map(({ startSeconds }) => startSeconds)).toEqual(
      unplanned.bouts.map(({ startSeconds }) => startSeconds),
    );
    expect(unplanned.plan).toBeNull();
    expect(planned.plan?.stages).toHaveLength(1);
    expect(planned.bouts[0]?.reps[0]?.phases.some(({ verdict }) => verdict !== null)).toBe(true);
  });
});
