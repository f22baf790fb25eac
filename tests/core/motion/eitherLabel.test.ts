import { describe, expect, it } from 'vitest';
import type { Body } from '../../../core/motion/body.js';
import { byEitherLabel } from '../../../core/motion/eitherLabel.js';
import { KEYPOINT_COUNT, KEYPOINT_INDEX } from '../../../core/pose/keypoints.js';

const FRAMES = 30;
const TORSO = 100;
const NEAR = KEYPOINT_INDEX['right-ankle'];
const FAR = KEYPOINT_INDEX['left-ankle'];
/** Where the lifter's near foot stands, and the foot of somebody behind. */
const FOOT = 200;
const ELSEWHERE = 120;

interface Label {
  readonly place: number;
  readonly seen?: boolean;
}

/** A body whose ankles' labels lie as told, frame by frame. */
function body(labels: (frame: number) => { readonly near: Label; readonly far: Label }): Body {
  const length = FRAMES * KEYPOINT_COUNT;
  const made = {
    frames: FRAMES,
    seconds: Float64Array.from({ length: FRAMES }, (_, frame) => frame / 30),
    x: new Float32Array(length),
    y: new Float32Array(length),
    score: new Float32Array(length),
    seen: new Uint8Array(length),
    standardErrorPixels: new Float32Array(length).fill(1),
    torsoPixels: TORSO,
  } as unknown as Body;
  for (let frame = 0; frame < FRAMES; frame++) {
    const { near, far } = labels(frame);
    for (const [keypoint, { place, seen = true }] of [
      [NEAR, near],
      [FAR, far],
    ] as const) {
      made.x[frame * KEYPOINT_COUNT + keypoint] = place;
      made.seen[frame * KEYPOINT_COUNT + keypoint] = seen ? 1 : 0;
    }
  }
  return made;
}

const nearPlaces = ({ x, seen }: Body) =>
  Array.from({ length: FRAMES }, (_, frame) => {
    const at = frame * KEYPOINT_COUNT + NEAR;
    return seen[at] === 1 ? x[at] : null;
  });

describe('the near limb by either label', () => {
  it('is followed where only the far label stays on it and its own was lost', () => {
    const lost = body((frame) => ({
      near: { place: frame < 10 ? FOOT : ELSEWHERE, seen: frame < 10 },
      far: { place: frame < 10 ? ELSEWHERE : FOOT + 5 },
    }));
    expect(nearPlaces(byEitherLabel(lost, 'right'))).toEqual([
      ...new Array(10).fill(FOOT),
      ...new Array(20).fill(FOOT + 5),
    ]);
  });

  it('is followed where its own label jumps to somebody behind', () => {
    const jumps = body((frame) => ({
      near: { place: frame < 10 || frame >= 20 ? FOOT : ELSEWHERE },
      far: { place: frame < 10 || frame >= 20 ? ELSEWHERE : FOOT },
    }));
    expect(nearPlaces(byEitherLabel(jumps, 'right'))).toEqual(new Array(FRAMES).fill(FOOT));
  });

  it('is not seen where its label jumps away and no other stays: two labels elsewhere tell nothing', () => {
    const gone = body((frame) => ({
      near: { place: frame === 12 ? ELSEWHERE : FOOT },
      far: { place: ELSEWHERE },
    }));
    const places = nearPlaces(byEitherLabel(gone, 'right'));
    expect(places[12]).toBeNull();
    expect(places.filter((place) => place === FOOT)).toHaveLength(FRAMES - 1);
  });

  it('never takes the far limb for itself where that is a limb of its own', () => {
    const apart = body((frame) => ({
      near: { place: FOOT, seen: frame < 10 },
      far: { place: ELSEWHERE },
    }));
    expect(nearPlaces(byEitherLabel(apart, 'right')).slice(10)).toEqual(new Array(20).fill(null));
  });

  it('leaves the body as it was, and both limbs alone that are seen where they were', () => {
    const plain = body((frame) => ({ near: { place: FOOT + frame }, far: { place: ELSEWHERE - frame } }));
    const before = plain.x.slice();
    expect(byEitherLabel(plain, 'right').x).toEqual(before);
    expect(plain.x).toEqual(before);
  });
});
