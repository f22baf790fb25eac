import { KEYPOINT_COUNT } from './keypoints.js';
import { SEEN_SCORE } from './people.js';
import { trunkLength } from './trunkLength.js';
import type { InferenceJob, InferenceResult } from './workerMessages.js';
import { startWorkerPool, type WorkerPool } from './workerPool.js';

/** The farthest that the same keypoint may lie from where the processor finds it, in shares of the trunk's length. */
export const LARGEST_DIFFERENCE = 0.01;
/** Keypoints that must be seen for a picture to count as a lifter. */
const FEWEST_SEEN = 8;

/**
 * A pool whose answers are held against the processor's until a picture that shows a lifter agreed: a graphics driver
 * that computes wrongly tells nobody. The first, second, fourth, eighth … picture is compared.
 *
 * Answers that differ by more than `LARGEST_DIFFERENCE` reject their job.
 *
 * @param reference answers of the processor; by default one thread, which ends when it is no longer asked.
 */
export function verifiedPool(pool: WorkerPool, reference: WorkerPool = startWorkerPool(1)): WorkerPool {
  let pictures = 0;
  let open = 0;
  let agreed = false;

  const compared = async (job: InferenceJob): Promise<InferenceResult> => {
    open += 1;
    try {
      const [answer, expected] = await Promise.all([pool.run(job), reference.run(job)]);
      const difference = largestDifference(answer[0]!, expected[0]!);
      if (difference !== null && difference > LARGEST_DIFFERENCE) {
        throw new Error(`its keypoints lie ${(100 * difference).toFixed(1)} % of the trunk off`);
      }
      agreed ||= difference !== null;
      return answer;
    } finally {
      open -= 1;
      if (agreed && open === 0) await reference.close();
    }
  };

  return {
    ...pool,
    run(job) {
      const compares = job.kind === 'measure' && !agreed && isPowerOfTwo(++pictures);
      return compares ? compared(job) : pool.run(job);
    },
    async close() {
      await Promise.all([pool.close(), reference.close()]);
    },
  };
}

function isPowerOfTwo(count: number): boolean {
  return Number.isInteger(Math.log2(count));
}

/**
 * How far two readings of one picture differ at most, in shares of the trunk's length, over the keypoints that both
 * see; null where too few are seen to tell.
 */
export function largestDifference(one: Float32Array, other: Float32Array): number | null {
  const trunk = trunkLength(other);
  let seen = 0;
  let largest = 0;
  for (let keypoint = 0; keypoint < KEYPOINT_COUNT; keypoint++) {
    const at = keypoint * 3;
    if (one[at + 2]! < SEEN_SCORE || other[at + 2]! < SEEN_SCORE) continue;
    seen += 1;
    largest = Math.max(largest, Math.hypot(one[at]! - other[at]!, one[at + 1]! - other[at + 1]!));
  }
  return seen < FEWEST_SEEN || trunk === 0 ? null : largest / trunk;
}
