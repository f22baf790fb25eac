import { findExercise } from '../../../analysis/exercises/catalogue.js';
import type { BoutReport, PhaseReport, RepReport, SetReport } from '../../../analysis/report/setReport.js';
import { NO_DETAILS, type SavedTrack, type SetToSave } from '../../../cli/history/sets/savedSet.js';

/** Invented sets for tests of the history: the figures are ours, not measured. */
export interface InventedSet {
  readonly film?: string;
  readonly exercise?: { readonly id: string; readonly name: string };
  readonly recordedAt?: string;
  readonly side?: BoutReport['side'];
  readonly facing?: BoutReport['view']['facing'];
  readonly eccentricSeconds?: readonly number[];
  readonly rangeDegrees?: readonly number[];
  readonly uncertaintySeconds?: number;
  readonly uncertaintyDegrees?: number;
  readonly plannedEccentricSeconds?: number | null;
}

export function inventedReport(set: InventedSet = {}): SetReport {
  const eccentrics = set.eccentricSeconds ?? [4, 3.9, 3.8];
  const planned = set.plannedEccentricSeconds === undefined ? 4 : set.plannedEccentricSeconds;
  const side = set.side ?? 'left';
  const reps = eccentrics.map((seconds, index) => inventedRep(set, side, index, seconds, planned));
  const delivered = eccentrics.reduce((sum, seconds) => sum + Math.min(seconds, planned ?? 0), 0);
  return {
    schema: 'tempofilm.set/1',
    film: {
      file: set.film ?? 'row.mp4',
      recordedAt: set.recordedAt ?? '2026-03-02T18:04:11Z',
      durationSeconds: 60,
      width: 480,
      height: 640,
      frameRate: 30,
      variableFrameRate: false,
      slowMotionFactor: 1,
      rotationDegrees: 0,
      mirrored: false,
      framesInFilm: 1800,
      framesAnalyzed: 1000,
    },
    pose: { model: 'movenet-thunder', quality: 'standard', meanConfidence: 0.7 },
    exercise: {
      ...(set.exercise ?? { id: 'single-arm-row', name: 'Single-arm row' }),
      drivingAngle: 'elbow-flexion',
      chosenBy: 'user',
    },
    plan:
      planned === null
        ? null
        : {
            stages: [
              {
                tempo: { eccentric: planned, stretchedHold: 0, concentric: 1, contractedHold: 1 },
                reps: { min: 3, max: 20 },
              },
            ],
            restSeconds: null,
          },
    bouts: [
      {
        side,
        measuredSides: side === 'both' ? ['left'] : [side],
        view: { facing: set.facing ?? 'left', degreesOffSide: 5 },
        startSeconds: 3,
        endSeconds: reps.at(-1)?.endSeconds ?? 3,
        reps,
        summary: {
          completeReps: reps.length,
          partialReps: 0,
          failedReps: 0,
          timeUnderTensionSeconds: reps.reduce((sum, rep) => sum + rep.endSeconds - rep.startSeconds, 0),
          deliveredLoweringShare: planned === null ? null : delivered / (planned * eccentrics.length),
          lastControlledRep: null,
          firstShortenedRep: null,
          concentricSpeedLoss: null,
        },
      },
    ],
    rests: [],
    symmetry: null,
    quality: { usable: true, findings: [] },
    headline: `An invented set of ${eccentrics.length} reps.`,
  };
}

function inventedRep(
  set: InventedSet,
  side: RepReport['side'],
  index: number,
  eccentricSeconds: number,
  planned: number | null,
): RepReport {
  const start = 3 + index * 8;
  const turn = start + 1;
  const end = turn + eccentricSeconds;
  const phase = (
    kind: PhaseReport['kind'],
    from: number,
    to: number,
    wanted: number | null,
  ): PhaseReport => ({
    kind,
    startSeconds: from,
    endSeconds: to,
    seconds: to - from,
    uncertaintySeconds: set.uncertaintySeconds ?? 0.05,
    plannedSeconds: wanted,
    verdict: null,
  });
  const degrees = set.rangeDegrees?.[index] ?? 90;
  return {
    number: index + 1,
    side,
    stage: 1,
    complete: true,
    partial: false,
    failed: false,
    startSeconds: start,
    endSeconds: end,
    phases: [
      phase('concentric', start, turn, planned === null ? null : 1),
      phase('eccentric', turn, end, planned),
    ],
    range: {
      degrees,
      uncertaintyDegrees: set.uncertaintyDegrees ?? 4,
      stretchedDegrees: 10,
      contractedDegrees: 10 + degrees,
      ofBaseline: 1,
      shortened: false,
      shortenedAt: null,
    },
    concentricSpeedDegreesPerSecond: degrees,
  };
}

export function inventedSet(set: InventedSet = {}, over: Partial<SetToSave> = {}): SetToSave {
  const report = inventedReport(set);
  return {
    filmKey: `key of ${report.film.file}`,
    fromSeconds: null,
    toSeconds: null,
    recordedAt: { instant: new Date(report.film.recordedAt!).toISOString(), source: 'film' },
    report,
    details: NO_DETAILS,
    amendments: [],
    invented: false,
    track: null,
    ...over,
  };
}

/** A stored track whose bytes hold nothing: for tests that only keep and move it. */
export function inventedTrack(bytes: Uint8Array, laterFields: object = {}): SavedTrack {
  return {
    film: { width: 480, file: 'row.mp4', durationSeconds: 60 } as SavedTrack['film'],
    request: {
      ...laterFields,
      exercise: findExercise('single-arm-row'),
      exerciseChosenBy: 'user',
      side: null,
      mirrored: false,
    },
    bytes,
  };
}
