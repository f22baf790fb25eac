import type { AngleCurve } from '../../../../analysis/analyzeSet.js';
import type { BoutReport, PhaseReport, RepReport } from '../../../../analysis/report/setReport.js';
import type { Side } from '../../../../core/pose/keypoints.js';

const PLANNED = { eccentric: 4, 'stretched-hold': 0, concentric: 1, 'contracted-hold': 1 } as const;
const STRETCHED = 12;

function verdict(kind: PhaseReport['kind'], seconds: number): PhaseReport['verdict'] {
  const tolerance = Math.max(0.3, PLANNED[kind] * 0.15);
  const off = seconds - PLANNED[kind];
  if (Math.abs(off) + 0.08 < tolerance) return 'met';
  if (Math.abs(off) - 0.08 < tolerance) return 'unclear';
  return off < 0 ? 'short' : 'long';
}

function sampleRep(number: number, side: Side, startSeconds: number, tiredness: number): RepReport {
  const lengths = {
    concentric: 0.95 + tiredness * 0.5,
    'contracted-hold': 1.1 - tiredness * 0.5,
    eccentric: 4.2 - tiredness * 1.5 + 0.1 * Math.sin(number * 2),
    'stretched-hold': number % 4 === 3 ? 0.45 : 0,
  } as const;
  let at = startSeconds;
  const phases = (Object.keys(lengths) as PhaseReport['kind'][]).map((kind): PhaseReport => {
    const seconds = lengths[kind];
    const from = at;
    at += seconds;
    const moving = kind === 'eccentric' || kind === 'concentric';
    return {
      kind,
      startSeconds: from,
      endSeconds: at,
      seconds,
      uncertaintySeconds: 0.08,
      plannedSeconds: PLANNED[kind],
      verdict: verdict(kind, seconds),
      ...(moving
        ? {
            firstHalfSeconds: seconds * (0.45 - 0.12 * tiredness),
            secondHalfSeconds: seconds * (0.55 + 0.12 * tiredness),
            stalls: [],
          }
        : {}),
    };
  });
  const degrees = 92 - 17 * tiredness ** 2;
  return {
    number,
    side,
    stage: 1,
    complete: true,
    partial: false,
    failed: false,
    startSeconds,
    endSeconds: at,
    phases,
    range: {
      degrees,
      uncertaintyDegrees: 4,
      stretchedDegrees: STRETCHED,
      contractedDegrees: STRETCHED + degrees,
      ofBaseline: degrees / 92,
      shortened: degrees < 92 * 0.9 - 4,
      shortenedAt: degrees < 92 * 0.9 - 4 ? 'contracted' : null,
    },
    concentricSpeedDegreesPerSecond: degrees / lengths.concentric,
    trunkSwingDegrees: 3 + tiredness * 5,
  };
}

/** Reps that get shorter and quicker; the right side tires less. Seconds and degrees are made up. */
export function sampleBout(side: Side, startSeconds: number, count: number): BoutReport {
  const reps: RepReport[] = [];
  let at = startSeconds;
  for (let number = 1; number <= count; number++) {
    const rep = sampleRep(
      number,
      side,
      at,
      ((number - 1) / Math.max(1, count - 1)) * (side === 'left' ? 1 : 0.7),
    );
    reps.push(rep);
    at = rep.endSeconds;
  }
  const lowering = reps.map((rep) => rep.phases.find((phase) => phase.kind === 'eccentric')!.seconds);
  const planned = PLANNED.eccentric * count;
  const delivered = lowering.reduce((sum, seconds) => sum + Math.min(seconds, PLANNED.eccentric), 0);
  return {
    side,
    measuredSides: [side],
    view: { facing: side, degreesOffSide: 6, uncertaintyDegrees: 5 },
    startSeconds,
    endSeconds: at,
    reps,
    summary: {
      completeReps: count,
      partialReps: 0,
      failedReps: 0,
      timeUnderTensionSeconds: at - startSeconds,
      deliveredLoweringShare: delivered / planned,
      deliveredLoweringSeconds: delivered,
      plannedLoweringSeconds: planned,
      lastControlledRep: side === 'left' ? Math.max(1, count - 3) : null,
      firstShortenedRep: reps.find((rep) => rep.range?.shortened)?.number ?? null,
      concentricSpeedLoss: null,
      baselineRangeDegrees: 92,
    },
  };
}

/** The driving angle at a time, in degrees: still at the ends, cosine moves between them. */
export function sampleAngle(bouts: readonly BoutReport[], seconds: number): number {
  for (const bout of bouts) {
    for (const rep of bout.reps) {
      const top = rep.range!.contractedDegrees;
      for (const phase of rep.phases) {
        if (seconds < phase.startSeconds || seconds >= phase.endSeconds) continue;
        const share = (1 - Math.cos((Math.PI * (seconds - phase.startSeconds)) / phase.seconds)) / 2;
        if (phase.kind === 'concentric') return STRETCHED + (top - STRETCHED) * share;
        if (phase.kind === 'eccentric') return top - (top - STRETCHED) * share;
        return phase.kind === 'contracted-hold' ? top : STRETCHED;
      }
    }
  }
  return STRETCHED;
}

export function sampleCurve(
  bouts: readonly BoutReport[],
  bout: BoutReport,
  framesPerSecond: number,
): AngleCurve {
  const seconds: number[] = [];
  for (let at = bout.startSeconds - 1; at < bout.endSeconds + 1; at += 1 / framesPerSecond) seconds.push(at);
  return {
    side: bout.side,
    seconds,
    degrees: seconds.map((at) => sampleAngle(bouts, at) + Math.sin(at * 9) * 0.6),
    uncertaintyDegrees: seconds.map(() => 3.5),
  };
}
