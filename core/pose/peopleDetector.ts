import { tensor3d } from '@tensorflow/tfjs-core';
import poseDetection from '@tensorflow-models/pose-detection';
import { KEYPOINT_COUNT } from './keypoints.js';
import { DETECTOR_SIZE } from './modelFacts.js';
import { networkHandler, startBackend } from './network.js';

/** Several people at once in one small picture. */
export interface PeopleDetector {
  /**
   * @param picture red, green, blue, one byte each, `DETECTOR_SIZE` square, row by row.
   * @returns for each person 17 × 3 values: x and y as fractions of the square, then the score.
   */
  detect(picture: Uint8Array): Promise<Float32Array[]>;
}

/** Loads MoveNet MultiPose, which finds up to six people, without tracking or smoothing of its own. */
export async function loadPeopleDetector(): Promise<PeopleDetector> {
  await startBackend();
  const detector = await poseDetection.createDetector(poseDetection.SupportedModels.MoveNet, {
    modelType: poseDetection.movenet.modelType.MULTIPOSE_LIGHTNING,
    modelUrl: await networkHandler('movenet-multipose'),
    enableSmoothing: false,
    enableTracking: false,
    multiPoseMaxDimension: DETECTOR_SIZE,
    minPoseScore: 0.2,
  });
  // One for all pictures: the backend takes a copy, and four bytes a colour for each picture would pile up as garbage.
  const colours = new Int32Array(DETECTOR_SIZE * DETECTOR_SIZE * 3);
  return {
    async detect(picture) {
      colours.set(picture);
      const input = tensor3d(colours, [DETECTOR_SIZE, DETECTOR_SIZE, 3], 'int32');
      const poses = await detector.estimatePoses(input);
      input.dispose();
      return poses.map((pose) => {
        const points = new Float32Array(KEYPOINT_COUNT * 3);
        pose.keypoints.forEach((keypoint, index) => {
          points[index * 3] = keypoint.x / DETECTOR_SIZE;
          points[index * 3 + 1] = keypoint.y / DETECTOR_SIZE;
          points[index * 3 + 2] = keypoint.score ?? 0;
        });
        return points;
      });
    },
  };
}
