import type { JointAngle } from '../../core/motion/jointAngle.js';

/** The end of the working range at which the working muscle is long, or short. */
export type RangeEnd = 'stretched' | 'contracted';

/** What can be told about an exercise from seventeen body points. */
type Visibility = 'yes' | 'partly' | 'poorly';

/** Where the camera may stand to the lifter. */
type AdvisedView = 'side' | 'front' | 'rear' | 'oblique';

/** Words for a move of a joint of which nobody knows yet whether the muscle shortens or lengthens in it. */
type DirectionWord = 'bending' | 'straightening' | 'raising' | 'sinking';

/** One exercise of the catalogue: plain data, so that users can add their own from a file. */
export interface Exercise {
  /** Lower-case words joined by hyphens. */
  readonly id: string;
  readonly name: string;
  /** `one-…`: one limb at a time, left and right are told apart; `two-…`: both together. */
  readonly limbs: 'one-arm' | 'two-arms' | 'one-leg' | 'two-legs';
  /** The joint angle that times it. */
  readonly drivingAngle: JointAngle;
  /** Another angle that moves with it and is worth knowing; null where none is. */
  readonly secondAngle: JointAngle | null;
  /** The end at which a rep usually begins; the film decides. */
  readonly defaultStart: RangeEnd;
  /**
   * What the rest of the body does in every rep, beside the joint, on the way from the contracted to the stretched end.
   * A movement of the joint without it (walking, a heel pulled to the seat, hands that talk) is no rep.
   */
  readonly companion?:
    | 'hips-sink'
    | 'shoulders-sink'
    | 'elbows-sink'
    | 'wrists-sink'
    | 'wrists-rise'
    | 'trunk-leans';
  /** How the body is held in every rep; like movements of the joint in another posture are no reps of this exercise. */
  readonly held?: 'trunk-leaning' | 'thighs-level' | 'elbows-overhead' | 'hands-overhead-when-straight';
  /** `raises`: the concentric makes the driving angle larger. */
  readonly concentric: 'raises' | 'lowers';
  /** Usual working range of the driving angle in degrees (common practice, no source), [least, most] at each end. */
  readonly workingRangeDegrees: {
    readonly stretched: readonly [number, number];
    readonly contracted: readonly [number, number];
  };
  /** The least excursion of a usual rep, degrees, where one entry spans kinds with different ends; else it follows from the range. */
  readonly usualExcursionDegrees?: number;
  /** The same of the second angle; null where there is none. */
  readonly secondRangeDegrees: {
    readonly stretched: readonly [number, number];
    readonly contracted: readonly [number, number];
  } | null;
  readonly advisedViews: readonly AdvisedView[];
  /** One or two plain sentences: where to put the phone. */
  readonly filming: string;
  readonly visibility: Visibility;
  /** What may be hidden or misread, in one sentence; null where nothing is. */
  readonly caveat: string | null;
  /** Whether range counts as shortened when the second angle alone shortens. */
  readonly secondAngleCountsForRange: boolean;
  /** Whether the contracted end is loaded, so that a hold there is a squeeze. */
  readonly contractedEndLoaded: boolean;
  /** Whether the stretched end is loaded, so that a pause there is no rest. */
  readonly stretchedEndLoaded: boolean;
  /** Words for the phases on screen. */
  readonly words: {
    readonly eccentric: 'lowering' | 'return' | DirectionWord;
    readonly concentric: 'lift' | 'pull' | 'press' | DirectionWord;
    readonly stretchedHold: string;
    readonly contractedHold: string;
  };
}
