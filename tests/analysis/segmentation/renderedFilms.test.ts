import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { FilmFacts } from '../../../core/media/film.js';
import type { PoseTrack } from '../../../core/pose/track.js';
import { decodeTrack } from '../../../core/pose/trackFile.js';
import { evaluationScenes } from '../../../fixtures/evaluation/sceneList.js';
import type { SceneResult } from '../../../fixtures/evaluation/sceneResult.js';
import { analyzed } from '../../../fixtures/evaluation/simulatedRun.js';
import { slicedTrack } from '../../slicedTrack.js';

const TRACKS = new URL('../../../fixtures/evaluation/tracks/', import.meta.url);

/** Against the exact truth of a rendered film, from what the pose model saw in it. */
function measured(scene: string, seen = (track: PoseTrack) => track) {
  const one = evaluationScenes().find(({ scene: { name } }) => name === scene)!;
  const stored = (ending: string) => readFileSync(new URL(`${scene}.${ending}`, TRACKS));
  const { facts } = JSON.parse(stored('json').toString()) as { readonly facts: FilmFacts };
  return analyzed(one, seen(decodeTrack(stored('track'))), facts);
}

describe('films with other people in the picture', () => {
  it.each(['squat-in-step-neighbour', 'squat-passer-by', 'squat-standing-bystander'])(
    '%s: every rep of the lifter is counted once, and timed by the lifter',
    (scene) => {
      const { trueReps, missed, invented, countExact, moves } = measured(scene);
      expect({ missed, invented, countExact }).toEqual({ missed: 0, invented: 0, countExact: true });
      expect(moves).toHaveLength(2 * trueReps);
      // The bar of moves is 95 % within 0.2 s; of these few every one keeps to one and a half times that.
      for (const { truth, measured: seconds } of moves) expect(Math.abs(seconds - truth)).toBeLessThan(0.3);
    },
  );
});

describe('the last rep of a film', () => {
  it('is a lift that was not made, not one cut by the film, where the film goes on after it', () => {
    expect(measured('curl-failed-last-rep').countExact).toBe(true);
  });

  it('is cut where the film ends in the middle of it', () => {
    expect(measured('curl-cut-at-the-end').countExact).toBe(true);
  });
});

describe('a film that begins a little later', () => {
  it.each(['squat-advised', 'curl-advised', 'deadlift-advised'])(
    '%s: a few still frames before the first rep decide nothing',
    (scene) => {
      const secondsOf = ({ moves }: SceneResult) =>
        new Map(moves.map(({ truth, measured: seconds }) => [truth, seconds]));
      const whole = secondsOf(measured(scene));
      for (const seconds of [0.1, 0.2, 0.3]) {
        const later = secondsOf(measured(scene, (track) => slicedTrack(track, seconds)));
        for (const [truth, expected] of whole)
          expect(Math.abs(later.get(truth)! - expected)).toBeLessThan(0.015);
      }
    },
  );
});
