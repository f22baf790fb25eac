import type { AngleCurve, SetAnalysis } from '../../../analysis/analyzeSet.js';
import type { BoutReport, PhaseReport, RepReport, SetReport } from '../../../analysis/report/setReport.js';
import type { FilmFacts } from '../../../core/media/film.js';
import { KEYPOINT_COUNT, KEYPOINT_INDEX, type Keypoint, type Side } from '../../../core/pose/keypoints.js';
import type { PoseTrack } from '../../../core/pose/track.js';

/**
 * An invented set for the tests of the views: single-arm rows, left then right, planned 4-0-1-1. Its
 * numbers are made up; only their shape matters here.
 */
export interface SampleSet {
  readonly analysis: SetAnalysis;
  readonly track: PoseTrack;
  readonly film: FilmFacts;
}

interface SampleOptions {
  readonly repsPerSide?: number;
  readonly file?: string;
  readonly framesPerSecond?: number;
}

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

function sampleBout(side: Side, startSeconds: number, count: number): BoutReport {
  const reps: RepReport[] = [];
  let at = startSeconds;
  for (let number = 1; number <= count; number++) {
    const rep = sampleRep(number, side, at, ((number - 1) / (count - 1)) * (side === 'left' ? 1 : 0.7));
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
function angleAt(bouts: readonly BoutReport[], seconds: number): number {
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

function curveOf(bouts: readonly BoutReport[], bout: BoutReport, framesPerSecond: number): AngleCurve {
  const seconds: number[] = [];
  for (let at = bout.startSeconds - 1; at < bout.endSeconds + 1; at += 1 / framesPerSecond) seconds.push(at);
  return {
    side: bout.side,
    seconds,
    degrees: seconds.map((at) => angleAt(bouts, at) + Math.sin(at * 9) * 0.6),
    uncertaintyDegrees: seconds.map(() => 3.5),
  };
}

const LIMB = 0.17;

/** A bent-over lifter from the side, the working elbow at the given flexion; fractions of the picture height. */
function posture(side: Side, flexionDegrees: number): Readonly<Partial<Record<Keypoint, [number, number]>>> {
  const far: Side = side === 'left' ? 'right' : 'left';
  const shoulder: [number, number] = [0.5, 0.42];
  const upper = (flexionDegrees * 0.85 * Math.PI) / 180;
  const elbow: [number, number] = [
    shoulder[0] - Math.sin(upper) * LIMB,
    shoulder[1] + Math.cos(upper) * LIMB,
  ];
  const fore = upper - (flexionDegrees * Math.PI) / 180;
  const wrist: [number, number] = [elbow[0] - Math.sin(fore) * LIMB, elbow[1] + Math.cos(fore) * LIMB];
  return {
    nose: [0.6, 0.4],
    [`${side}-ear`]: [0.575, 0.375],
    [`${side}-eye`]: [0.6, 0.38],
    [`${side}-shoulder`]: shoulder,
    [`${far}-shoulder`]: [0.505, 0.435],
    [`${far}-elbow`]: [0.56, 0.56],
    [`${far}-wrist`]: [0.575, 0.69],
    [`${side}-elbow`]: elbow,
    [`${side}-wrist`]: wrist,
    [`${side}-hip`]: [0.24, 0.5],
    [`${far}-hip`]: [0.245, 0.505],
    [`${side}-knee`]: [0.3, 0.71],
    [`${far}-knee`]: [0.4, 0.7],
    [`${side}-ankle`]: [0.24, 0.92],
    [`${far}-ankle`]: [0.26, 0.9],
  } as Partial<Record<Keypoint, [number, number]>>;
}

function sampleTrack(bouts: readonly BoutReport[], duration: number, framesPerSecond: number): PoseTrack {
  const frames = Math.floor(duration * framesPerSecond);
  const seconds = Float64Array.from({ length: frames }, (_, frame) => frame / framesPerSecond);
  const x = new Float32Array(frames * KEYPOINT_COUNT);
  const y = new Float32Array(frames * KEYPOINT_COUNT);
  const score = new Float32Array(frames * KEYPOINT_COUNT);
  const width = 480;
  const height = 640;
  seconds.forEach((at, frame) => {
    const bout = bouts.find((candidate) => at < candidate.endSeconds + 4) ?? bouts.at(-1)!;
    for (const [name, [px, py]] of Object.entries(posture(bout.side as Side, angleAt(bouts, at)))) {
      const index = frame * KEYPOINT_COUNT + KEYPOINT_INDEX[name as Keypoint];
      x[index] = px * height;
      y[index] = py * height;
      score[index] = 0.8;
    }
  });
  return {
    model: 'movenet-thunder',
    quality: 'standard',
    width,
    height,
    framesInFilm: frames,
    seconds,
    x,
    y,
    score,
    people: { medianCount: 1, lifterDoubtful: false },
  };
}

export function sampleSet(options: SampleOptions = {}): SampleSet {
  const { repsPerSide = 8, file = 'row.mp4', framesPerSecond = 30 } = options;
  const left = sampleBout('left', 3.1, repsPerSide);
  const right = sampleBout('right', left.endSeconds + 14.2, repsPerSide);
  const bouts = [left, right];
  const durationSeconds = right.endSeconds + 4;
  const report: SetReport = {
    schema: 'tempofilm.set/1',
    film: {
      file,
      recordedAt: '2026-03-02T18:04:11Z',
      durationSeconds,
      width: 480,
      height: 640,
      frameRate: framesPerSecond,
      variableFrameRate: false,
      slowMotionFactor: 1,
      rotationDegrees: 0,
      mirrored: false,
      framesInFilm: Math.floor(durationSeconds * framesPerSecond),
      framesAnalyzed: Math.floor(durationSeconds * framesPerSecond),
    },
    pose: { model: 'movenet-thunder', quality: 'standard', meanConfidence: 0.71 },
    exercise: {
      id: 'single-arm-row',
      name: 'Single-arm row',
      drivingAngle: 'elbow-flexion',
      chosenBy: 'user',
    },
    plan: {
      stages: [
        {
          tempo: { eccentric: 4, stretchedHold: 0, concentric: 1, contractedHold: 1 },
          reps: { min: 8, max: 10 },
        },
      ],
      restSeconds: 90,
    },
    bouts,
    rests: [
      {
        kind: 'side-change',
        startSeconds: left.endSeconds,
        endSeconds: right.startSeconds,
        seconds: right.startSeconds - left.endSeconds,
        plannedSeconds: null,
      },
    ],
    symmetry: {
      firstSide: 'left',
      measures: [
        {
          measure: 'range',
          unit: 'degrees',
          left: 87.2,
          right: 89.6,
          difference: -2.4,
          interval: [-7.1, 2.3],
          ratio: 0.97,
          different: false,
        },
        {
          measure: 'eccentric-seconds',
          unit: 'seconds',
          left: 3.42,
          right: 3.71,
          difference: -0.29,
          interval: [-0.52, -0.06],
          ratio: 0.92,
          different: true,
        },
        {
          measure: 'concentric-seconds',
          unit: 'seconds',
          left: 1.2,
          right: 1.13,
          difference: 0.07,
          interval: [-0.05, 0.19],
          ratio: 1.06,
          different: false,
        },
        {
          measure: 'reps',
          unit: 'reps',
          left: repsPerSide,
          right: repsPerSide,
          difference: 0,
          interval: [0, 0],
          ratio: 1,
          different: false,
        },
      ],
      sentence:
        'The left lowered 0.3 s quicker than the right; no difference in range this camera could see.',
    },
    quality: {
      usable: true,
      findings: [
        {
          code: 'far-arm-hidden',
          level: 'note',
          message: 'The far arm is behind the body, so only the near arm is reported.',
          remedy: 'Film from 20 to 30° in front to see both arms.',
        },
        {
          code: 'few-frames',
          level: 'warning',
          message: 'The film has 15 frames a second for 4 s of the first bout, which widens the ± there.',
          remedy: 'Film in better light: a phone drops frames when it is dark.',
        },
      ],
    },
    headline:
      'Delivered 27 of 32 planned lowering seconds on the left; the last controlled rep was rep 5, and range shortened from rep 7 (13 % below the first reps).',
    method: {
      programVersion: '0.1.0',
      stillness:
        'A moving phase lasts while the speed of the movement is above 10 % of that phase’s own mean speed.',
      cautions: ['Pain, dizziness or chest discomfort: stop.', 'This is not medical advice.'],
    },
    load: { value: 20, unit: 'kg' },
  };
  return {
    analysis: { report, curves: bouts.map((bout) => curveOf(bouts, bout, framesPerSecond)) },
    track: sampleTrack(bouts, durationSeconds, framesPerSecond),
    film: {
      file,
      recordedAt: report.film.recordedAt,
      durationSeconds,
      width: 480,
      height: 640,
      frameRate: framesPerSecond,
      variableFrameRate: false,
      slowMotionFactor: 1,
      rotationDegrees: 0,
      flipped: false,
      highDynamicRange: false,
      codec: 'avc',
    },
  };
}
