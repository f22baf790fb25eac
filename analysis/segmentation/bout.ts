import type { Side } from '../../core/pose/keypoints.js';

export type PhaseKind = 'eccentric' | 'stretched-hold' | 'concentric' | 'contracted-hold';

/** An instant with the half width of its 95 % interval. */
export interface Instant {
  readonly seconds: number;
  readonly uncertaintySeconds: number;
}

/** An angle with the half width of its 95 % interval. */
export interface MeasuredDegrees {
  readonly degrees: number;
  readonly uncertaintyDegrees: number;
}

/** One phase as measured, before any plan is held against it. Times are film (container) seconds. */
export interface MeasuredPhase {
  readonly kind: PhaseKind;
  readonly start: Instant;
  readonly end: Instant;
  /** Half width of the 95 % interval of `end - start` (the two ends share noise, so it is not their sum). */
  readonly uncertaintySeconds: number;
  /** For moves: the angle at each end, in degrees of the driving angle. */
  readonly fromDegrees: number;
  readonly toDegrees: number;
  /** For moves: when the angle passed the middle between its ends. Null for holds. */
  readonly middleSeconds: number | null;
  /** Stalls inside a move: stillness that is not at an end. */
  readonly stalls: readonly {
    readonly startSeconds: number;
    readonly endSeconds: number;
    readonly degrees: number;
  }[];
}

/** One rep as measured: its phases in order of time. */
export interface MeasuredRep {
  readonly side: Side | 'both';
  /** False only when the film's start or end cuts the rep. */
  readonly complete: boolean;
  readonly phases: readonly MeasuredPhase[];
  /** Extremes of the driving angle, or null where the view gives no degrees. */
  readonly stretched: MeasuredDegrees | null;
  readonly contracted: MeasuredDegrees | null;
  /** Excursion of each move, in degrees of the driving angle; null when the move is cut away or gives no degrees. */
  readonly eccentricExcursion: MeasuredDegrees | null;
  readonly concentricExcursion: MeasuredDegrees | null;
  /** Range of the second angle, for exercises whose range shortens with either; null where it was not seen. */
  readonly secondRange?: MeasuredDegrees | null;
  /** Greatest change of the trunk's lean during the concentric, degrees; null where it was not seen. */
  readonly trunkSwingDegrees?: number | null;
  /** Slow stretch inside the concentric between two quicker ones. */
  readonly stickingRegion?: {
    readonly startSeconds: number;
    readonly endSeconds: number;
    readonly degrees: number;
  } | null;
}

/** An unbroken run of reps by one side. */
export interface MeasuredBout {
  readonly side: Side | 'both';
  readonly measuredSides: readonly Side[];
  readonly reps: readonly MeasuredRep[];
}
