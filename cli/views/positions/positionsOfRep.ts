import type { AngleCurve } from '../../../analysis/analyzeSet.js';
import type { RepReport } from '../../../analysis/report/setReport.js';

export type PositionName = 'contracted' | 'middle' | 'stretched';

/** One moment of a rep worth looking at. */
export interface Position {
  readonly name: PositionName;
  /** Real time, seconds. */
  readonly seconds: number;
  /** The driving angle then; null where the curve has a gap or the view gives no degrees. */
  readonly degrees: number | null;
}

/** The curve's angle at a time, between its points in a straight line; null outside it and in gaps over 0.5 s. */
export function angleAt(curve: AngleCurve, seconds: number): number | null {
  const after = curve.seconds.findIndex((at) => at >= seconds);
  if (after < 0) return null;
  const right = curve.seconds[after]!;
  if (after === 0) return right === seconds ? curve.degrees[0]! : null;
  const left = curve.seconds[after - 1]!;
  if (right - left > 0.5) return null;
  const share = (seconds - left) / (right - left);
  return curve.degrees[after - 1]! * (1 - share) + curve.degrees[after]! * share;
}

/**
 * Both ends of a rep and the middle of its lowering: an end is the middle of its hold, or where the move
 * that leads there stops. Only what the film shows of the rep is returned, in order of time.
 */
export function positionsOfRep(rep: RepReport, curve: AngleCurve | null): readonly Position[] {
  const phase = (kind: RepReport['phases'][number]['kind']) =>
    rep.phases.find((candidate) => candidate.kind === kind && candidate.seconds > 0) ?? null;
  const middleOf = (hold: { startSeconds: number; endSeconds: number } | null) =>
    hold === null ? null : (hold.startSeconds + hold.endSeconds) / 2;
  const eccentric = phase('eccentric');
  const concentric = phase('concentric');
  const times: Readonly<Record<PositionName, number | null>> = {
    contracted:
      middleOf(phase('contracted-hold')) ?? concentric?.endSeconds ?? eccentric?.startSeconds ?? null,
    middle: eccentric === null ? null : middleOfLowering(eccentric),
    stretched: middleOf(phase('stretched-hold')) ?? eccentric?.endSeconds ?? concentric?.startSeconds ?? null,
  };
  return (Object.keys(times) as PositionName[])
    .flatMap((name) => {
      const seconds = times[name];
      return seconds === null
        ? []
        : [{ name, seconds, degrees: curve === null || rep.range === null ? null : angleAt(curve, seconds) }];
    })
    .sort((first, second) => first.seconds - second.seconds);
}

function middleOfLowering(eccentric: RepReport['phases'][number]): number {
  const firstHalf = eccentric.firstHalfSeconds ?? null;
  return eccentric.startSeconds + (firstHalf ?? eccentric.seconds / 2);
}
