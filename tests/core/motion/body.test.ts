import { describe, expect, it } from 'vitest';
import { readBody } from '../../../core/motion/body.js';
import { type JointSamples, jointSamples, meanOfSides } from '../../../core/motion/jointSamples.js';
import { estimateView } from '../../../core/motion/view.js';
import { KEYPOINT_COUNT, KEYPOINT_INDEX } from '../../../core/pose/keypoints.js';
import type { PoseTrack } from '../../../core/pose/track.js';
import { filmed, normalSource, type Pose, STANDING, times } from './stickFigure.js';

const curl = (seconds: number): Pose => ({
  ...STANDING,
  elbowFlexion: 65 - 60 * Math.cos((2 * Math.PI * seconds) / 4),
});
const squat = (seconds: number): Pose => {
  const depth = (1 - Math.cos((2 * Math.PI * seconds) / 4)) / 2;
  return { ...STANDING, kneeFlexion: 100 * depth, hipFlexion: 100 * depth, trunkLean: 30 * depth };
};
const raise = (seconds: number): Pose => ({
  ...STANDING,
  shoulderAbduction: 45 - 40 * Math.cos((2 * Math.PI * seconds) / 4),
});

/** Exchanges left and right of one joint in some frames. */
function flip(track: PoseTrack, joint: string, frames: (frame: number) => boolean): PoseTrack {
  const copies = {
    x: Float32Array.from(track.x),
    y: Float32Array.from(track.y),
    score: Float32Array.from(track.score),
  };
  const left = KEYPOINT_INDEX[`left-${joint}` as keyof typeof KEYPOINT_INDEX];
  const right = KEYPOINT_INDEX[`right-${joint}` as keyof typeof KEYPOINT_INDEX];
  for (let frame = 0; frame < track.seconds.length; frame += 1) {
    if (!frames(frame)) continue;
    for (const values of Object.values(copies)) {
      const [a, b] = [frame * KEYPOINT_COUNT + left, frame * KEYPOINT_COUNT + right];
      [values[a], values[b]] = [values[b]!, values[a]!];
    }
  }
  return { ...track, ...copies };
}

describe('somebody who passes before the lifter', () => {
  const track = filmed(times(8), squat, { azimuthDegrees: 90, torsoPixels: 150 }, { pixels: 1, seed: 5 });
  const seenIn = (scores: Float32Array, frame: number) =>
    readBody({ ...track, score: scores })
      .seen.subarray(frame * KEYPOINT_COUNT, (frame + 1) * KEYPOINT_COUNT)
      .includes(1);
  const scaled = (from: number, to: number, share: number) =>
    track.score.map((score, at) =>
      at >= from * KEYPOINT_COUNT && at < to * KEYPOINT_COUNT ? share * score : score,
    );

  it('leaves nothing of the pose in the frames in which all of it scores less', () => {
    const covered = scaled(100, 115, 0.6);
    expect([99, 100, 114, 115].map((frame) => seenIn(covered, frame))).toEqual([true, false, false, true]);
  });

  it('is not made of a score that is only a little lower, or lower for long', () => {
    expect(seenIn(scaled(100, 115, 0.85), 107)).toBe(true);
    expect(seenIn(scaled(60, 180, 0.6), 120)).toBe(true);
  });
});

describe('left and right labels', () => {
  const track = filmed(times(8), raise, { azimuthDegrees: 180, torsoPixels: 150 }, { pixels: 1, seed: 3 });

  it('leaves a clean track alone', () => {
    const body = readBody(track);
    expect(body.swappedShare).toBe(0);
    expect(body.x).toEqual(track.x);
  });

  it('does not read noise on limbs that lie over each other as flips', () => {
    const side = filmed(times(8), curl, { azimuthDegrees: 90, torsoPixels: 150 }, { pixels: 3, seed: 2 });
    expect(readBody(side).swappedShare).toBe(0);
  });

  it.each(['wrist', 'elbow', 'knee'])('puts flipped %ss back, a joint at a time', (joint) => {
    const flipped = flip(track, joint, (frame) => (frame > 40 && frame < 60) || frame === 100 || frame > 220);
    const body = readBody(flipped);
    expect(body.x).toEqual(track.x);
    expect(body.y).toEqual(track.y);
    expect(body.swappedShare).toBeGreaterThan(0);
  });

  it('puts flipped arms back also where one label took over the other joint before and after', () => {
    // So far from the side that the other arm's elbow is no farther from a shoulder than its own.
    const side = filmed(times(8), curl, { azimuthDegrees: 60, torsoPixels: 150 }, { pixels: 1, seed: 6 });
    const joints = ['elbow', 'wrist'] as const;
    const flipped = joints.reduce(
      (one, joint) => flip(one, joint, (frame) => frame > 40 && frame < 60),
      side,
    );
    for (const joint of joints) {
      const [left, right] = [KEYPOINT_INDEX[`left-${joint}`], KEYPOINT_INDEX[`right-${joint}`]];
      for (const frame of [40, 60]) {
        for (const values of [flipped.x, flipped.y]) {
          values[frame * KEYPOINT_COUNT + left] = values[frame * KEYPOINT_COUNT + right]! + 1;
        }
      }
    }
    const body = readBody(flipped);
    for (const frame of [39, 41, 59, 61]) {
      const at = frame * KEYPOINT_COUNT + KEYPOINT_INDEX['right-elbow'];
      expect(body.x[at]).toBe(side.x[at]);
    }
  });

  it('puts a whole body that flips in a side view back where the arms tell them apart', () => {
    const row = (seconds: number): Pose => ({ ...curl(seconds), shoulderFlexion: 20 });
    const side = filmed(times(8), row, { azimuthDegrees: 60, torsoPixels: 150 }, { pixels: 1, seed: 4 });
    const joints = ['shoulder', 'elbow', 'wrist', 'hip', 'knee', 'ankle'];
    const flipped = joints.reduce(
      (one, joint) => flip(one, joint, (frame) => frame > 50 && frame < 80),
      side,
    );
    expect(readBody(flipped).x).toEqual(side.x);
  });
});

describe('a body taken for its own back', () => {
  const JOINT_NAMES = ['shoulder', 'elbow', 'wrist', 'hip', 'knee', 'ankle'];
  const turnedRound = (one: PoseTrack, frames: (frame: number) => boolean) =>
    JOINT_NAMES.reduce((track, joint) => flip(track, joint, frames), one);

  const RATE = 10;
  const from = (azimuthDegrees: number) =>
    filmed(times(60, RATE), curl, { azimuthDegrees, torsoPixels: 150 }, { pixels: 6, seed: 8 });
  const turnedFor = (track: PoseTrack, seconds: number) =>
    turnedRound(track, (frame) => frame > 5 * RATE && frame <= (5 + seconds) * RATE);

  it('keeps its names throughout where the model turns it round for part of a film', () => {
    expect(readBody(turnedFor(from(45), 6)).x).toEqual(from(45).x);
    expect(readBody(turnedFor(from(135), 20)).x).toEqual(from(135).x);
  });

  it('is a back that is taken for a front, rather than the reverse', () => {
    expect(readBody(turnedFor(from(135), 40)).x).toEqual(from(135).x);
    expect(readBody(turnedFor(from(45), 20)).x).toEqual(turnedRound(from(45), () => true).x);
  });
});

describe('what was seen', () => {
  const track = filmed(times(4), curl, { azimuthDegrees: 90, torsoPixels: 150 }, { pixels: 1, seed: 5 });
  const wrist = KEYPOINT_INDEX['left-wrist'];

  it('marks guesses and points outside the picture', () => {
    const score = Float32Array.from(track.score);
    const x = Float32Array.from(track.x);
    score[10 * KEYPOINT_COUNT + wrist] = 0.1;
    x[20 * KEYPOINT_COUNT + wrist] = -30;
    const { seen } = readBody({ ...track, score, x });
    expect(seen[10 * KEYPOINT_COUNT + wrist]).toBe(0);
    expect(seen[20 * KEYPOINT_COUNT + wrist]).toBe(0);
    expect(seen[30 * KEYPOINT_COUNT + wrist]).toBe(1);
  });

  it('marks a point that jumps away for two frames', () => {
    const x = Float32Array.from(track.x);
    const y = Float32Array.from(track.y);
    for (const frame of [60, 61]) {
      x[frame * KEYPOINT_COUNT + wrist] = track.x[frame * KEYPOINT_COUNT + wrist]! + 60;
      y[frame * KEYPOINT_COUNT + wrist] = track.y[frame * KEYPOINT_COUNT + wrist]! + 50;
    }
    const { seen } = readBody({ ...track, x, y });
    expect(seen[60 * KEYPOINT_COUNT + wrist]).toBe(0);
    expect(seen[61 * KEYPOINT_COUNT + wrist]).toBe(0);
    expect(seen.filter((one) => one === 0).length).toBeLessThan(10);
  });

  it('sees nothing in a film without anyone', () => {
    const empty = readBody({ ...track, score: new Float32Array(track.score.length) });
    expect(empty.torsoPixels).toBe(0);
    expect(Math.max(...empty.seen)).toBe(0);
  });

  it('accepts a track without frames', () => {
    const none = filmed([], curl, { azimuthDegrees: 90, torsoPixels: 150 });
    expect(readBody(none).frames).toBe(0);
  });
});

describe('noise of the keypoints', () => {
  it.each([0.8, 2, 4])('finds %d pixels within a quarter', (pixels) => {
    const track = filmed(times(10), curl, { azimuthDegrees: 90, torsoPixels: 150 }, { pixels, seed: 6 });
    const { standardErrorPixels } = readBody(track);
    const wrist = KEYPOINT_INDEX['left-wrist'];
    const usual = standardErrorPixels[100 * KEYPOINT_COUNT + wrist]!;
    expect(usual).toBeGreaterThan(0.75 * pixels);
    expect(usual).toBeLessThan(1.25 * pixels);
  });
});

describe('a hand-held camera', () => {
  it('adds nothing to the noise of joints against each other', () => {
    const steady = filmed(
      times(10),
      curl,
      { azimuthDegrees: 60, torsoPixels: 150 },
      { pixels: 1.5, seed: 21 },
    );
    const normal = normalSource(22);
    const shaken = { ...steady, x: Float32Array.from(steady.x), y: Float32Array.from(steady.y) };
    for (let frame = 0; frame < steady.seconds.length; frame += 1) {
      const [across, down] = [6 * normal(), 6 * normal()];
      for (let at = frame * KEYPOINT_COUNT; at < (frame + 1) * KEYPOINT_COUNT; at += 1) {
        shaken.x[at] = steady.x[at]! + across;
        shaken.y[at] = steady.y[at]! + down;
      }
    }
    const [still, moved] = [readBody(steady), readBody(shaken)];
    const wrist = 100 * KEYPOINT_COUNT + KEYPOINT_INDEX['left-wrist'];
    expect(moved.standardErrorPixels[wrist]! / still.standardErrorPixels[wrist]!).toBeCloseTo(1, 1);
    const angles = [still, moved].map((body) =>
      jointSamples(body, 'elbow-flexion', 'left', estimateView(body, 0, 10)),
    );
    angles[0]!.values.forEach((value, at) => {
      expect(Math.abs(value - angles[1]!.values[at]!)).toBeLessThan(1.5);
    });
  });
});

describe('mean of both sides', () => {
  it('lies between the sides, nearer to the surer one', () => {
    const samples = (degrees: number, shared: number): JointSamples => ({
      seconds: Float64Array.of(0, 1),
      values: Float64Array.of(degrees, degrees),
      standardErrors: Float64Array.of(1, 1),
      correction: 'flat',
      degreesTrustworthy: true,
      reason: null,
      sharedUncertaintyDegrees: shared,
      seenShare: 1,
      steadiness: 1,
    });
    // Inverse-variance weights: 1 + 4 against 1 + 16 give 17/22 and 5/22.
    const mean = meanOfSides(samples(10, 2 * 1.96), samples(32, 4 * 1.96));
    expect(mean.values[0]).toBeCloseTo((17 * 10 + 5 * 32) / 22, 10);
    expect(mean.standardErrors[0]).toBeCloseTo(Math.hypot(17, 5) / 22, 10);
    const doubtful: JointSamples = {
      ...samples(32, 4),
      degreesTrustworthy: false,
      reason: 'view-too-oblique',
    };
    const withDoubt = meanOfSides(samples(10, 4), doubtful);
    expect(withDoubt.degreesTrustworthy).toBe(false);
    expect(withDoubt.reason).toBe('view-too-oblique');
  });
});

describe('view of the body', () => {
  it.each([
    [90, 'left', 0],
    [-90, 'right', 0],
    [45, 'left', 45],
    [-60, 'right', 30],
    [150, 'back', 60],
    [120, 'left', 30],
    [0, 'front', 90],
    [180, 'back', 90],
  ] as const)('from %d° round the lifter', (azimuthDegrees, facing, off) => {
    const track = filmed(times(8), squat, { azimuthDegrees, torsoPixels: 150 }, { pixels: 1.5, seed: 7 });
    const view = estimateView(readBody(track), 0, 8);
    if (Math.abs(off - 60) > 1) expect(view.facing).toBe(facing);
    expect(Math.abs(view.degreesOffSide - off)).toBeLessThan(Math.max(8, view.uncertaintyDegrees));
    if (off < 40) expect(view.nearSide).toBe(facing);
  });
});

describe('joint angles', () => {
  it('reads a curl from the side to its noise, and calls the far arm hidden', () => {
    const track = filmed(times(8), curl, { azimuthDegrees: 90, torsoPixels: 150 }, { pixels: 1.5, seed: 8 });
    const body = readBody(track);
    const view = estimateView(body, 0, 8);
    const elbow = jointSamples(body, 'elbow-flexion', 'left', view);
    const errors = Array.from(elbow.seconds, (time, at) => elbow.values[at]! - curl(time).elbowFlexion);
    const rootMeanSquare = Math.hypot(...errors) / Math.sqrt(errors.length);
    const stated = Math.hypot(...elbow.standardErrors) / Math.sqrt(errors.length);
    expect(rootMeanSquare).toBeLessThan(3);
    expect(rootMeanSquare / stated).toBeGreaterThan(0.7);
    expect(rootMeanSquare / stated).toBeLessThan(1.3);
    expect(elbow.degreesTrustworthy).toBe(true);
    expect(jointSamples(body, 'elbow-flexion', 'right', view).reason).toBe('far-limb-hidden');
  });

  it('is not biased at full extension: noise may go below 0°', () => {
    const straight = (seconds: number): Pose => ({ ...curl(seconds), elbowFlexion: seconds < 4 ? 0 : 90 });
    const track = filmed(
      times(8),
      straight,
      { azimuthDegrees: 90, torsoPixels: 150 },
      { pixels: 2, seed: 9 },
    );
    const body = readBody(track);
    const elbow = jointSamples(body, 'elbow-flexion', 'left', estimateView(body, 0, 8));
    const early = elbow.values.filter((_, at) => elbow.seconds[at]! < 3.5);
    expect(Math.abs(early.reduce((sum, value) => sum + value, 0) / early.length)).toBeLessThan(1);
  });

  it('signs the shoulder against the trunk: forward positive, behind negative', () => {
    for (const azimuthDegrees of [90, -90]) {
      const side = azimuthDegrees === 90 ? 'left' : 'right';
      for (const shoulderFlexion of [-40, 30, 100, 170]) {
        const pose: Pose = { ...STANDING, shoulderFlexion, kneeFlexion: 20, hipFlexion: 30, trunkLean: 20 };
        const body = readBody(filmed(times(2), () => pose, { azimuthDegrees, torsoPixels: 150 }));
        const samples = jointSamples(body, 'shoulder-flexion', side, estimateView(body, 0, 2));
        expect(samples.values[20]!).toBeCloseTo(shoulderFlexion, 0);
      }
    }
  });

  it('reads abduction from behind', () => {
    const track = filmed(times(8), raise, { azimuthDegrees: 180, torsoPixels: 150 });
    const body = readBody(track);
    const view = estimateView(body, 0, 8);
    for (const side of ['left', 'right'] as const) {
      const samples = jointSamples(body, 'shoulder-abduction', side, view);
      expect(samples.degreesTrustworthy).toBe(true);
      samples.values.forEach((value, at) => {
        expect(Math.abs(value - raise(samples.seconds[at]!).shoulderAbduction)).toBeLessThan(0.5);
      });
    }
  });

  it('puts a leg seen obliquely back whole, with ankles that lie too close to tell', () => {
    const side = filmed(times(8), squat, { azimuthDegrees: 45, torsoPixels: 150 }, { pixels: 1, seed: 7 });
    const [left, right] = [KEYPOINT_INDEX['left-ankle'], KEYPOINT_INDEX['right-ankle']];
    for (let start = 0; start < side.x.length; start += KEYPOINT_COUNT) {
      side.x[start + right] = side.x[start + left]! + 4;
      side.y[start + right] = side.y[start + left]!;
    }
    const flipped = ['hip', 'knee', 'ankle'].reduce(
      (one, joint) => flip(one, joint, (frame) => frame > 40 && frame < 130),
      side,
    );
    expect(readBody(flipped).x).toEqual(side.x);
  });
});
