/** Seconds, `'X'` for explosive (as fast as the load allows), or null for not prescribed. */
export type PlannedSeconds = number | 'X' | null;

/** The trade's four digits: eccentric, stretched hold, concentric, contracted hold. */
export interface Tempo {
  readonly eccentric: PlannedSeconds;
  readonly stretchedHold: PlannedSeconds;
  readonly concentric: PlannedSeconds;
  readonly contractedHold: PlannedSeconds;
}

export interface RepRange {
  readonly min: number;
  readonly max: number;
}

/** A part of a planned set with its own tempo and rep count. */
export interface Stage {
  readonly tempo: Tempo | null;
  readonly reps: RepRange | null;
  /** True where the plan wants reps of part of the range. */
  readonly partials?: boolean | undefined;
}

export interface Plan {
  readonly stages: readonly Stage[];
  readonly restSeconds: number | null;
}
