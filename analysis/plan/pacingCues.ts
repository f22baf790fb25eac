import type { RangeEnd } from '../exercises/exercise.js';
import type { PhaseKind } from '../segmentation/bout.js';
import type { PlannedSeconds, Stage, Tempo } from './plan.js';

/** A moment of a pacing track. */
export interface PacingCue {
  readonly seconds: number;
  /** `ready`: the count-in; `phase`: a phase begins; `count`: a whole second inside a phase; `end`: the set is over. */
  readonly kind: 'ready' | 'phase' | 'count' | 'end';
  /** The phase that begins or goes on; null for `ready` and `end`. */
  readonly phase: PhaseKind | null;
  /** Number of the rep, from 1, through all stages; 0 before the first. */
  readonly rep: number;
}

export interface PacingOptions {
  /** Where a rep begins: at the stretched end the lift comes first, at the contracted end the lowering. */
  readonly start: RangeEnd;
  /** Seconds of count-in before the first move; whole. */
  readonly leadInSeconds: number;
}

/** How long a move is given that the plan leaves free, or wants as fast as the load allows. */
const FREE_MOVE_SECONDS = 2;
const EXPLOSIVE_MOVE_SECONDS = 1;

const FROM_STRETCHED = ['concentric', 'contracted-hold', 'eccentric', 'stretched-hold'] as const;
const FROM_CONTRACTED = ['eccentric', 'stretched-hold', 'concentric', 'contracted-hold'] as const;

/**
 * The cues of a set done exactly as planned: count-in, every phase, every whole second inside a phase, and the end.
 * The most reps of a stage's range are paced, so that the lifter stops rather than the track; the hold after the
 * last move is left out, since a bout ends with its last move.
 *
 * @param stages each with a tempo and reps.
 * @returns in order of time; the first count-in at 0 s.
 */
export function pacingCues(stages: readonly Stage[], options: PacingOptions): readonly PacingCue[] {
  const cues: PacingCue[] = [];
  for (let second = 0; second < options.leadInSeconds; second++) {
    cues.push({ seconds: second, kind: 'ready', phase: null, rep: 0 });
  }
  const order = options.start === 'stretched' ? FROM_STRETCHED : FROM_CONTRACTED;
  const reps = stages.flatMap((stage) => Array.from({ length: stage.reps?.max ?? 1 }, () => stage.tempo));
  let clock = options.leadInSeconds;
  for (const [index, tempo] of reps.entries()) {
    for (const phase of order) {
      const lastHold = index === reps.length - 1 && phase === order[3];
      const length = lastHold ? 0 : secondsOf(phase, tempo);
      if (length === 0) continue;
      cues.push({ seconds: clock, kind: 'phase', phase, rep: index + 1 });
      for (let second = 1; second < length; second++) {
        cues.push({ seconds: clock + second, kind: 'count', phase, rep: index + 1 });
      }
      clock += length;
    }
  }
  return [...cues, { seconds: clock, kind: 'end', phase: null, rep: reps.length }];
}

function secondsOf(phase: PhaseKind, tempo: Tempo | null): number {
  switch (phase) {
    case 'eccentric':
      return moveSeconds(tempo?.eccentric ?? null);
    case 'concentric':
      return moveSeconds(tempo?.concentric ?? null);
    case 'stretched-hold':
      return holdSeconds(tempo?.stretchedHold ?? null);
    case 'contracted-hold':
      return holdSeconds(tempo?.contractedHold ?? null);
  }
}

function moveSeconds(planned: PlannedSeconds): number {
  if (planned === null) return FREE_MOVE_SECONDS;
  return planned === 'X' ? EXPLOSIVE_MOVE_SECONDS : planned;
}

function holdSeconds(planned: PlannedSeconds): number {
  return typeof planned === 'number' ? planned : 0;
}
