import { beforeAll, describe, expect, it } from 'vitest';
import { locateFfmpeg } from '../../core/media/locateFfmpeg.js';
import { readScene } from '../../fixtures/evaluation/renderedRun.js';
import type { SceneResult } from '../../fixtures/evaluation/sceneResult.js';
import { analyzed } from '../../fixtures/evaluation/simulatedRun.js';
import { absoluteError, mean, STATISTICS } from '../../fixtures/evaluation/statistics.js';
import { QUICK_SCENES } from '../../fixtures/scenes/quickScenes.js';

/**
 * The quick part of the evaluation: two films rendered, encoded, decoded and read by the pose model, once for all
 * checks here. The truth is the plan of the scenes, which the program never sees.
 */
const results: SceneResult[] = [];
beforeAll(async () => {
  const ffmpeg = await locateFfmpeg();
  for (const one of QUICK_SCENES) {
    const { track, facts } = await readScene(one.scene, ffmpeg, { quality: 'full', workers: 1 });
    results.push(analyzed(one, track, facts));
  }
}, 240_000);

describe('two short rendered films', () => {
  it('have every rep counted, on the right side, and none made up', () => {
    expect(results.map(({ fault }) => fault)).toEqual([null, null]);
    expect(results.map(({ trueReps, missed, invented }) => [trueReps, missed, invented])).toEqual([
      [2, 0, 0],
      [2, 0, 0],
    ]);
    expect(STATISTICS.sidesRight(results)).toBe(1);
  });

  it('have lowerings, lifts and holds near their plan', () => {
    const moves = results.flatMap((result) => result.moves);
    expect(moves).toHaveLength(8);
    // Half the frame rate that is advised: twice the error that is asked of films in the advised view.
    expect(mean(moves.map(absoluteError))).toBeLessThan(0.14);
    expect(Math.max(...moves.map(absoluteError))).toBeLessThan(0.4);
    expect(STATISTICS.holdsFound(results)).toBeGreaterThan(0.7);
  });

  it('have ranges in degrees, near their plan', () => {
    expect(STATISTICS.degreesGiven(results)).toBe(1);
    expect(STATISTICS.rangeRootMeanSquare(results)).toBeLessThan(15);
  });

  // MoveNet on films of real people gives 0.4 to 0.85 (seen on the photos and films that were tried).
  it('are people to the pose model, as real ones are', () => {
    for (const { confidence } of results) {
      expect(confidence).toBeGreaterThan(0.4);
      expect(confidence).toBeLessThan(0.85);
    }
  });
});
