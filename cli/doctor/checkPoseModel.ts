import { Failure } from '../../core/failure.js';
import { hasNativeRuntime } from '../../core/pose/nativeModel.js';
import { loadPoseModel } from '../../core/pose/poseModel.js';
import { readWeightFile, WEIGHT_FILES } from '../../core/pose/weights.js';
import type { Check } from './check.js';

/** Reads every file that inference needs and compares its SHA-256 with the one this version was built for. */
export async function checkWeights(): Promise<Check[]> {
  const checks = await Promise.all(
    Object.entries(WEIGHT_FILES).map(([file, hash]) => checkWeightFile(file, hash)),
  );
  const faulty = checks.filter(({ state }) => state !== 'ok');
  if (faulty.length > 0) return faulty;
  const detail = `${checks.length} files, every SHA-256 as it should be`;
  return [{ name: 'Pose model', state: 'ok', detail, remedy: null }];
}

async function checkWeightFile(file: string, hash: string): Promise<Check> {
  return asCheck('Pose model', async () => {
    await readWeightFile(file);
    return `${file} ${hash.slice(0, 12)}`;
  });
}

/** Measures one made-up picture, which shows that the model really runs here and how fast. */
export async function checkInference(): Promise<Check> {
  return asCheck('Inference', async () => {
    const model = await loadPoseModel('movenet-thunder', { native: true });
    const gray = new Uint8Array(model.size * model.size * 3).fill(128);
    await model.infer(gray);
    const start = performance.now();
    const points = await model.infer(gray);
    const milliseconds = Math.round(performance.now() - start);
    if (points.some((value) => !Number.isFinite(value))) throw new Error('the pose model gives no numbers');
    const runtime = (await hasNativeRuntime()) ? 'native' : 'WebAssembly (four times slower than native)';
    return `${model.name} runs ${runtime}, ${milliseconds} ms a frame on one core`;
  });
}

async function asCheck(name: string, look: () => Promise<string>): Promise<Check> {
  try {
    return { name, state: 'ok', detail: await look(), remedy: null };
  } catch (thrown) {
    if (!(thrown instanceof Failure)) throw thrown;
    return { name, state: 'missing', detail: thrown.message, remedy: thrown.remedy };
  }
}
