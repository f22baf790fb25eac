import { appendFileSync, copyFileSync, mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, expect, test, vi } from 'vitest';
import { openTrackCache } from '../../core/pose/trackCache.js';
import { trackKey } from '../../core/pose/trackKey.js';
import { USUAL_POSE_NOISE } from '../../fixtures/lifter/keypointNoise.js';
import { simulatedTrack } from '../../fixtures/lifter/keypoints.js';
import { QUICK_SCENES } from '../../fixtures/scenes/quickScenes.js';
import { PROJECT, runCommand } from './command.js';
import { runInProcess } from './runInProcess.js';
import { temporaryHome } from './temporaryHome.js';

vi.setConfig({ testTimeout: 180_000 });

const DEMO = join(PROJECT, 'fixtures/films/goblet-squats.mp4');
const TRACK = simulatedTrack(QUICK_SCENES[0]!.scene, USUAL_POSE_NOISE);
const home = temporaryHome();
/** Two machines with three films each. */
const MACHINES = ['one', 'two'].map((name) => ({
  home: join(home, name),
  films: [1, 2, 3].map((number) => join(home, name, `film-${number}.mp4`)),
}));

beforeAll(async () => {
  for (const { home: machine, films } of MACHINES) {
    mkdirSync(machine);
    const cache = openTrackCache(join(machine, 'cache'));
    for (const film of films) {
      copyFileSync(DEMO, film);
      // An empty box of its own at the end makes each a film of its own (ISO/IEC 14496-12, "free").
      const box = Buffer.from(`\0\0\0\0free${film}`);
      box.writeUInt32BE(box.length);
      appendFileSync(film, box);
      // Measured earlier, so that this test is about the processes and not about the pose model.
      await cache.write(await trackKey(film, { quality: 'standard' }), TRACK);
    }
  }
});

test('processes side by side answer each its own film and share one history; histories merge', async () => {
  const ask = ['--exercise', 'squat', '--format', 'json', '--workers', '1', '--quiet'];
  const outcomes = await Promise.all(
    MACHINES.flatMap(({ home: machine, films }) =>
      films.map((film) => runCommand(['analyze', film, ...ask], { home: machine })),
    ),
  );
  const films = MACHINES.flatMap((machine) => machine.films);
  expect(outcomes.map(({ code, errors }) => [code, errors])).toEqual(films.map(() => [0, '']));
  expect(outcomes.map(({ output }) => JSON.parse(output).film.file)).toEqual(films);
  const [first, ...others] = outcomes.map(({ output }) => JSON.parse(output).bouts);
  for (const bouts of others) expect(bouts).toEqual(first);

  const club = join(home, 'club.sqlite');
  for (const { home: machine } of MACHINES) {
    const sets = join(machine, 'sets.jsonl');
    expect((await runInProcess(['export', '--output', sets], { home: machine })).code).toBe(0);
    // Twice, as a job that is run again would: nothing may be there twice.
    for (let time = 0; time < 2; time++) {
      expect((await runInProcess(['import', sets, '--history', club], { home })).code).toBe(0);
    }
  }
  const listed = await runInProcess(['history', '--history', club, '--format', 'json'], { home });
  const named = JSON.parse(listed.output).sets.map((set: { film: { file: string } }) => set.film.file);
  expect(named.toSorted()).toEqual(films.toSorted());
});
