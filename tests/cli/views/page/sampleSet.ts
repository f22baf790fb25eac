import type { SetAnalysis } from '../../../../analysis/analyzeSet.js';
import type { SetReport } from '../../../../analysis/report/setReport.js';
import type { FilmFacts } from '../../../../core/media/film.js';
import type { PoseTrack } from '../../../../core/pose/track.js';
import { sampleBout, sampleCurve } from './sampleBouts.js';
import { sampleSymmetry } from './sampleSymmetry.js';
import { sampleTrack } from './sampleTrack.js';

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

export function sampleSet(options: SampleOptions = {}): SampleSet {
  const { repsPerSide = 8, file = 'row.mp4', framesPerSecond = 30 } = options;
  const left = sampleBout('left', 3.1, repsPerSide);
  const right = sampleBout('right', left.endSeconds + 14.2, repsPerSide);
  const bouts = [left, right];
  const durationSeconds = right.endSeconds + 4;
  const facts = {
    file,
    recordedAt: '2026-03-02T18:04:11Z',
    durationSeconds,
    width: 480,
    height: 640,
    frameRate: framesPerSecond,
    variableFrameRate: false,
    slowMotionFactor: 1,
    rotationDegrees: 0 as const,
  };
  const report: SetReport = {
    schema: 'tempofilm.set/1',
    film: {
      ...facts,
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
    symmetry: sampleSymmetry(repsPerSide),
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
    analysis: { report, curves: bouts.map((bout) => sampleCurve(bouts, bout, framesPerSecond)) },
    track: sampleTrack(bouts, durationSeconds, framesPerSecond),
    film: {
      ...facts,
      flipped: false,
      highDynamicRange: false,
      codec: 'avc',
    },
  };
}
