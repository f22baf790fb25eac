import type { TimedFrame } from '../media/film.js';
import { InFlight } from './inFlight.js';
import { KEYPOINT_COUNT } from './keypoints.js';
import { padToSquare } from './letterbox.js';
import { DETECTOR_SIZE } from './modelFacts.js';
import type { Look } from './people.js';
import type { PictureSize } from './region.js';
import type { WorkerPool } from './workerPool.js';

/** Time between two looks of the coarse pass: often enough to follow a person, and to see a four-second rep. */
export const LOOK_INTERVAL_SECONDS = 0.5;

/**
 * The coarse pass: who is where, a few times a second.
 *
 * @param frames small pictures of the film, none longer than `DETECTOR_SIZE` on any side.
 * @param picture size of the upright picture the results refer to.
 */
export async function lookAround(
  frames: AsyncIterable<TimedFrame>,
  picture: PictureSize,
  pool: WorkerPool,
  onLook: (done: number, seconds: number) => void,
): Promise<readonly Look[]> {
  const looks: Look[] = [];
  const inFlight = new InFlight(2 * pool.workers + 1);
  let index = 0;
  let done = 0;
  for await (const frame of frames) {
    const at = index++;
    const { seconds } = frame;
    const scaleX = (DETECTOR_SIZE / frame.width) * picture.width;
    const scaleY = (DETECTOR_SIZE / frame.height) * picture.height;
    const square = padToSquare(frame, DETECTOR_SIZE);
    await inFlight.add(async () => {
      const people = await pool.run({ kind: 'look', picture: square });
      looks[at] = { seconds, people: people.map((points) => scaled(points, scaleX, scaleY)) };
      onLook(++done, seconds);
    });
  }
  await inFlight.settle();
  return looks;
}

function scaled(points: Float32Array, scaleX: number, scaleY: number): Float32Array {
  const result = new Float32Array(points);
  for (let keypoint = 0; keypoint < KEYPOINT_COUNT; keypoint++) {
    result[keypoint * 3]! *= scaleX;
    result[keypoint * 3 + 1]! *= scaleY;
  }
  return result;
}
