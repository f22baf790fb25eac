import { KEYPOINT_COUNT, KEYPOINT_INDEX, type Keypoint } from '../../../core/pose/keypoints.js';
import type { PoseTrack } from '../../../core/pose/track.js';
import type { AssEvent, Colour } from './assScript.js';
import { placedShape } from './assScript.js';

export const LEFT_COLOUR: Colour = [140, 201, 224];
export const RIGHT_COLOUR: Colour = [240, 145, 111];
const MIDDLE_COLOUR: Colour = [243, 239, 230];
const JOINT_COLOUR: Colour = [255, 255, 255];
/** Points the model was less sure of than this are not drawn. */
const LEAST_SCORE = 0.25;

type Limb = readonly [Keypoint, Keypoint];

function limbsOf(side: 'left' | 'right'): readonly Limb[] {
  return [
    [`${side}-shoulder`, `${side}-elbow`],
    [`${side}-elbow`, `${side}-wrist`],
    [`${side}-shoulder`, `${side}-hip`],
    [`${side}-hip`, `${side}-knee`],
    [`${side}-knee`, `${side}-ankle`],
  ];
}

const MIDDLE: readonly Limb[] = [
  ['left-shoulder', 'right-shoulder'],
  ['left-hip', 'right-hip'],
];
const HEAD: readonly Keypoint[] = ['nose', 'left-eye', 'right-eye', 'left-ear', 'right-ear'];

interface Point {
  readonly x: number;
  readonly y: number;
}

/** Where the track's pixels go in the picture that is drawn on. */
export interface Placement {
  readonly scale: number;
  readonly left: number;
  readonly top: number;
  /** Width of a limb in pixels of the picture drawn on. */
  readonly thickness: number;
}

/** A line of some width as a shape of four corners. */
function barPath(from: Point, to: Point, thickness: number): string {
  const length = Math.hypot(to.x - from.x, to.y - from.y);
  if (length < 0.5) return '';
  const across = {
    x: (-(to.y - from.y) / length) * (thickness / 2),
    y: ((to.x - from.x) / length) * (thickness / 2),
  };
  const corners = [
    [from.x + across.x, from.y + across.y],
    [to.x + across.x, to.y + across.y],
    [to.x - across.x, to.y - across.y],
    [from.x - across.x, from.y - across.y],
  ].map(([x, y]) => `${x!.toFixed(1)} ${y!.toFixed(1)}`);
  return `m ${corners[0]} l ${corners.slice(1).join(' ')} `;
}

/** A ring as an outer and an inner polygon that run opposite ways round. */
function roundPath(centre: Point, radius: number, inner: number | null): string {
  const polygon = (size: number, direction: 1 | -1) => {
    const corners = Array.from({ length: 16 }, (_, index) => {
      const angle = (direction * index * Math.PI) / 8;
      return `${(centre.x + size * Math.cos(angle)).toFixed(1)} ${(centre.y + size * Math.sin(angle)).toFixed(1)}`;
    });
    return `m ${corners[0]} l ${corners.slice(1).join(' ')} `;
  };
  return polygon(radius, 1) + (inner === null ? '' : polygon(inner, -1));
}

interface ColouredPath {
  readonly colour: Colour;
  readonly path: string;
}

/** The figure of one frame as shapes, one a colour: right side, midline and head, left side, joints. */
export function skeletonPaths(
  track: PoseTrack,
  frame: number,
  placement: Placement,
): readonly ColouredPath[] {
  const { scale, left, top, thickness } = placement;
  const at = (name: Keypoint): Point | null => {
    const index = frame * KEYPOINT_COUNT + KEYPOINT_INDEX[name];
    if (track.score[index]! < LEAST_SCORE) return null;
    return { x: track.x[index]! * scale + left, y: track.y[index]! * scale + top };
  };
  const bars = (limbs: readonly Limb[]) =>
    limbs
      .map(([from, to]) => {
        const [start, end] = [at(from), at(to)];
        return start === null || end === null ? '' : barPath(start, end, thickness);
      })
      .join('');
  const joints = (['left', 'right'] as const)
    .flatMap((side) =>
      ['shoulder', 'elbow', 'wrist', 'hip', 'knee', 'ankle'].map((joint) => `${side}-${joint}` as Keypoint),
    )
    .map(at)
    .map((point) => (point === null ? '' : roundPath(point, thickness * 0.75, null)))
    .join('');
  return [
    { colour: RIGHT_COLOUR, path: bars(limbsOf('right')) },
    {
      colour: MIDDLE_COLOUR,
      path:
        bars(MIDDLE) +
        headPath(
          HEAD.map(at).filter((point) => point !== null),
          thickness,
        ),
    },
    { colour: LEFT_COLOUR, path: bars(limbsOf('left')) },
    { colour: JOINT_COLOUR, path: joints },
  ].filter(({ path }) => path !== '');
}

function headPath(points: readonly Point[], thickness: number): string {
  if (points.length === 0) return '';
  const centre = {
    x: points.reduce((sum, { x }) => sum + x, 0) / points.length,
    y: points.reduce((sum, { y }) => sum + y, 0) / points.length,
  };
  const spread = Math.max(
    thickness * 2.5,
    ...points.map(({ x, y }) => Math.hypot(x - centre.x, y - centre.y)),
  );
  return roundPath(centre, spread * 1.5 + thickness / 2, spread * 1.5 - thickness / 2);
}

/** Longest time one analyzed frame stands for where the next one is late, seconds. */
const LONGEST_FRAME = 0.2;

/** The moving figure over a film: events of every frame of the track. */
export function skeletonEvents(track: PoseTrack, placement: Placement): readonly AssEvent[] {
  return Array.from(track.seconds).flatMap((seconds, frame) => {
    const next = track.seconds[frame + 1] ?? seconds + LONGEST_FRAME;
    const toSeconds = Math.min(next, seconds + LONGEST_FRAME);
    return skeletonPaths(track, frame, placement).map(
      ({ colour, path }, layer): AssEvent => ({
        layer,
        fromSeconds: seconds,
        toSeconds,
        style: 'Shape',
        content: placedShape(path, colour, { border: placement.thickness * 0.25 }),
      }),
    );
  });
}
