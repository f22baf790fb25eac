import type { PhaseReport, RepReport, SetReport } from '../../../analysis/report/setReport.js';

/** Reports written by hand for the views; every figure in them is invented. */

const TEMPO = { eccentric: 4, stretchedHold: 0, concentric: 1, contractedHold: 1 } as const;

function phase(
  kind: PhaseReport['kind'],
  startSeconds: number,
  seconds: number,
  plannedSeconds: PhaseReport['plannedSeconds'],
  verdict: PhaseReport['verdict'],
): PhaseReport {
  const uncertaintySeconds = seconds === 0 ? 0 : 0.06;
  return {
    kind,
    startSeconds,
    endSeconds: startSeconds + seconds,
    seconds,
    uncertaintySeconds,
    plannedSeconds,
    verdict,
  };
}

/** One row: pull, squeeze, lowering, no hold below. */
function row(
  number: number,
  side: 'left' | 'right',
  startSeconds: number,
  lowering: readonly [number, PhaseReport['verdict']],
  squeeze: readonly [number, PhaseReport['verdict']],
  degrees: number,
): RepReport {
  const pulled = startSeconds + 1.1;
  const lowered = pulled + squeeze[0];
  const endSeconds = lowered + lowering[0];
  const ofBaseline = degrees / 92;
  return {
    number,
    side,
    stage: 1,
    complete: true,
    partial: false,
    failed: false,
    startSeconds,
    endSeconds,
    phases: [
      phase('concentric', startSeconds, 1.1, 1, 'met'),
      phase('contracted-hold', pulled, squeeze[0], 1, squeeze[1]),
      phase('eccentric', lowered, lowering[0], 4, lowering[1]),
      phase('stretched-hold', endSeconds, 0, 0, 'met'),
    ],
    range: {
      degrees,
      uncertaintyDegrees: 3.4,
      stretchedDegrees: 12,
      contractedDegrees: 12 + degrees,
      ofBaseline,
      shortened: ofBaseline < 0.88,
      shortenedAt: ofBaseline < 0.88 ? 'contracted' : null,
    },
    concentricSpeedDegreesPerSecond: degrees / 1.1,
  };
}

const FILM: SetReport['film'] = {
  file: 'row.mp4',
  recordedAt: '2026-03-02T18:04:11Z',
  durationSeconds: 62.4,
  width: 480,
  height: 640,
  frameRate: 29.97,
  variableFrameRate: false,
  slowMotionFactor: 1,
  rotationDegrees: 0,
  mirrored: false,
  framesInFilm: 1870,
  framesAnalyzed: 1012,
};

/** Single-arm rows, left then right, planned 4-0-1-1, tiring at the end. */
export const ROW_REPORT: SetReport = {
  schema: 'tempofilm.set/1',
  film: FILM,
  pose: { model: 'movenet-thunder', quality: 'standard', meanConfidence: 0.71 },
  exercise: { id: 'single-arm-row', name: 'Single-arm row', drivingAngle: 'elbow-flexion', chosenBy: 'user' },
  plan: { stages: [{ tempo: TEMPO, reps: { min: 5, max: 6 } }], restSeconds: null },
  bouts: [
    {
      side: 'left',
      measuredSides: ['left'],
      view: { facing: 'left', degreesOffSide: 8 },
      startSeconds: 3.1,
      endSeconds: 33.4,
      reps: [
        row(1, 'left', 3.1, [4.2, 'met'], [1.0, 'met'], 92),
        row(2, 'left', 9.4, [4.1, 'met'], [0.9, 'met'], 93),
        row(3, 'left', 15.5, [3.9, 'met'], [0.8, 'unclear'], 91),
        row(4, 'left', 21.3, [3.4, 'unclear'], [0.5, 'short'], 85),
        row(5, 'left', 26.3, [2.8, 'short'], [0.4, 'short'], 79),
        { ...row(6, 'left', 30.6, [1.9, 'short'], [0, 'short'], 51), partial: true },
      ],
      summary: {
        completeReps: 5,
        partialReps: 1,
        failedReps: 0,
        timeUnderTensionSeconds: 30.3,
        deliveredLoweringShare: 0.905,
        deliveredLoweringSeconds: 18.1,
        plannedLoweringSeconds: 20,
        lastControlledRep: 4,
        firstShortenedRep: 5,
        concentricSpeedLoss: null,
        baselineRangeDegrees: 92,
      },
    },
    {
      side: 'right',
      measuredSides: ['right'],
      view: { facing: 'right', degreesOffSide: 14 },
      startSeconds: 45.6,
      endSeconds: 58.0,
      reps: [
        row(1, 'right', 45.6, [4.3, 'met'], [1.0, 'met'], 95),
        row(2, 'right', 52, [3.9, 'met'], [1.0, 'met'], 94),
      ],
      summary: {
        completeReps: 2,
        partialReps: 0,
        failedReps: 0,
        timeUnderTensionSeconds: 12.4,
        deliveredLoweringShare: 0.99,
        deliveredLoweringSeconds: 7.9,
        plannedLoweringSeconds: 8,
        lastControlledRep: null,
        firstShortenedRep: null,
        concentricSpeedLoss: null,
        baselineRangeDegrees: null,
      },
    },
  ],
  rests: [{ kind: 'side-change', startSeconds: 33.4, endSeconds: 45.6, seconds: 12.2, plannedSeconds: null }],
  symmetry: {
    firstSide: 'left',
    measures: [
      {
        measure: 'range',
        unit: 'degrees',
        left: 91.2,
        right: 94.5,
        difference: -3.3,
        interval: [-9.1, 2.5],
        ratio: 0.97,
        different: false,
      },
      {
        measure: 'eccentric-seconds',
        unit: 'seconds',
        left: 3.7,
        right: 4.1,
        difference: -0.42,
        interval: [-0.8, -0.05],
        ratio: 0.9,
        different: true,
      },
      {
        measure: 'reps',
        unit: 'reps',
        left: 5,
        right: 2,
        difference: 3,
        interval: [3, 3],
        ratio: 2.5,
        different: true,
      },
    ],
    sentence: 'Left lowered 0.4 s quicker than right; in range, no difference this camera could see.',
  },
  quality: {
    usable: true,
    findings: [
      {
        code: 'far-arm-hidden',
        level: 'note',
        message: 'The far arm is hidden behind the body, so only the near arm was measured.',
        remedy: 'Turn round for the other arm, or film 20 to 30° from the front to see both.',
      },
      {
        code: 'view-oblique',
        level: 'warning',
        message: 'The camera stood 14° off square to the right side, which widens the ± of the range.',
        remedy: 'Put the phone level with the hip, square to the side.',
      },
    ],
  },
  headline:
    'Left delivered 18 of 20 planned lowering seconds and shortened from rep 5; right delivered 8 of 8, two reps of five.',
};

/** Slow lateral raises, then quick ones: two stages, every hold judged, times beyond ten seconds. */
export const WIDE_REPORT: SetReport = {
  ...ROW_REPORT,
  exercise: {
    id: 'lateral-raise',
    name: 'Lateral raise',
    drivingAngle: 'shoulder-abduction',
    chosenBy: 'user',
  },
  plan: {
    stages: [
      {
        tempo: { eccentric: 12, stretchedHold: 1, concentric: 1, contractedHold: 2 },
        reps: { min: 1, max: 2 },
      },
      {
        tempo: { eccentric: 1, stretchedHold: 0, concentric: 'X', contractedHold: null },
        reps: { min: 1, max: 1 },
      },
    ],
    restSeconds: 90,
  },
  bouts: [
    {
      ...ROW_REPORT.bouts[0]!,
      side: 'both',
      view: { facing: 'front', degreesOffSide: 88 },
      reps: [1, 2, 3].map((number) => ({
        ...row(number, 'left', 60 + number * 16, [11.3, 'unclear'], [1.6, 'unclear'], 70),
        stage: number === 3 ? 2 : 1,
        phases: [
          phase('concentric', 60 + number * 16, 1.2, 1, 'unclear'),
          phase('contracted-hold', 61.2 + number * 16, 1.6, 2, 'unclear'),
          phase('eccentric', 62.8 + number * 16, 11.3, 12, 'unclear'),
          phase('stretched-hold', 74.1 + number * 16, 0.6, 1, 'unclear'),
        ],
      })),
    },
  ],
  rests: [{ kind: 'rest', startSeconds: 120, endSeconds: 195, seconds: 75, plannedSeconds: 90 }],
  symmetry: null,
};

/** A film that could not answer. */
export const UNUSABLE_REPORT: SetReport = {
  ...ROW_REPORT,
  plan: null,
  bouts: [],
  rests: [],
  symmetry: null,
  quality: {
    usable: false,
    findings: [
      {
        code: 'no-lifter',
        level: 'problem',
        message: 'Nobody could be seen in this film.',
        remedy: 'Stand the phone so that the whole body stays in the picture, with light from the front.',
      },
    ],
  },
  headline: 'Cannot tell: nobody could be seen in this film.',
};
