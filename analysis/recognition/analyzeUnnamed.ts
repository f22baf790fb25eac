import type { FilmFacts } from '../../core/media/film.js';
import { readBody } from '../../core/motion/body.js';
import { inRealTime, unmirrored } from '../../core/motion/realTime.js';
import type { PoseTrack } from '../../core/pose/track.js';
import { analyzeSet, type SetAnalysis, type SetRequest } from '../analyzeSet.js';
import { CATALOGUE, findExercise } from '../exercises/catalogue.js';
import type { Exercise } from '../exercises/exercise.js';
import type { Finding, SetReport } from '../report/setReport.js';
import { provisional } from './provisional.js';
import { type Recognition, recognize } from './recognize.js';
import { unjudged } from './unjudged.js';

/** The question to a film whose exercise nobody named. */
export interface UnnamedRequest extends Omit<SetRequest, 'exercise' | 'exerciseChosenBy'> {
  readonly exercise: null;
}

export interface UnnamedAnalysis {
  readonly analysis: SetAnalysis;
  /** The question with the exercise that was found. */
  readonly request: SetRequest;
}

/** How many of the likeliest exercises a report names. */
const NAMED_CANDIDATES = 3;
/** Less likely ones are not worth naming. */
const LEAST_CONFIDENCE = 0.03;

/**
 * Analyzes a set after recognising its exercise from the movement.
 *
 * Where the movement is that of one exercise beyond doubt, the set is judged as if it had been named. Else its times
 * are told as bending and straightening, without plan or verdict, until somebody names the exercise. Where nothing is
 * recognised the report is not usable.
 */
export function analyzeUnnamed(track: PoseTrack, film: FilmFacts, asked: UnnamedRequest): UnnamedAnalysis {
  const body = readBody(inRealTime(asked.mirrored ? unmirrored(track) : track, film.slowMotionFactor));
  const recognition = recognize(body);
  const [first] = recognition.candidates;
  if (first === undefined) return unrecognised(track, film, asked);
  const likeliest = findExercise(first.id);
  const exercise = recognition.certain ? likeliest : provisional(likeliest);
  const plan = recognition.certain ? asked.plan : null;
  const request: SetRequest = { ...asked, exercise, exerciseChosenBy: 'recognition', plan };
  const analysis = analyzeSet(track, film, request);
  const report = recognition.certain
    ? recognised(analysis.report, recognition)
    : unconfirmed(analysis.report, recognition, asked.plan !== null);
  return { analysis: { ...analysis, report }, request };
}

function recognised(report: SetReport, recognition: Recognition): SetReport {
  const { name } = findExercise(recognition.candidates[0]!.id);
  const note: Finding = {
    code: 'exercise-recognised',
    level: 'note',
    message: `Nobody named the exercise; the movement is that of the ${name.toLowerCase()}.`,
    remedy: 'If that is wrong, name it with --exercise.',
  };
  return withRecognition(report, recognition, true, report.quality.usable ? [note] : []);
}

function unconfirmed(report: SetReport, recognition: Recognition, planned: boolean): SetReport {
  const names = candidatesOf(recognition).map(({ name }) => `the ${name.toLowerCase()}`);
  const [first, ...others] = candidatesOf(recognition);
  const more = others.length === 0 ? '' : ` (or ${others.map(({ id }) => id).join(' or ')})`;
  const finding: Finding = {
    code: 'exercise-unconfirmed',
    level: 'warning',
    message: `It is not sure which exercise this is: it looks most like ${names.join(', then ')}. Times are told without a verdict${planned ? ', and the plan is not applied' : ''}.`,
    remedy: `Name it: --exercise ${first!.id}${more}.`,
  };
  const times = unjudged(report);
  const headline = times.quality.usable
    ? `Exercise not confirmed: ${times.headline.charAt(0).toLowerCase()}${times.headline.slice(1)}`
    : times.headline;
  return withRecognition({ ...times, headline }, recognition, false, [finding]);
}

function withRecognition(
  report: SetReport,
  recognition: Recognition,
  confirmed: boolean,
  findings: readonly Finding[],
): SetReport {
  return {
    ...report,
    exercise: { ...report.exercise, confirmed, candidates: [...candidatesOf(recognition)] },
    quality: { ...report.quality, findings: [...findings, ...report.quality.findings] },
  };
}

function candidatesOf({ candidates }: Recognition) {
  return candidates
    .filter(({ confidence }, index) => index === 0 || confidence >= LEAST_CONFIDENCE)
    .slice(0, NAMED_CANDIDATES)
    .map(({ id, confidence }) => ({ id, name: findExercise(id).name, confidence }));
}

/** Nothing goes to and fro as in an exercise: there is nothing to time. */
function unrecognised(track: PoseTrack, film: FilmFacts, asked: UnnamedRequest): UnnamedAnalysis {
  const exercise: Exercise = { ...provisional(CATALOGUE[0]!), name: 'Unconfirmed exercise' };
  const request: SetRequest = { ...asked, exercise, exerciseChosenBy: 'recognition', plan: null };
  const analysis = analyzeSet(track, film, request);
  const nobody = analysis.report.quality.findings.find(({ code }) => code === 'no-lifter');
  const reason: Finding = nobody ?? {
    code: 'exercise-not-recognised',
    level: 'problem',
    message: 'Cannot tell: no movement of an exercise was recognised in this film.',
    remedy: 'Name the exercise with --exercise; `tempofilm exercises` lists them.',
  };
  const report: SetReport = {
    ...analysis.report,
    exercise: { ...analysis.report.exercise, confirmed: false, candidates: [] },
    bouts: [],
    rests: [],
    symmetry: null,
    quality: { usable: false, findings: [reason] },
    headline: reason.message,
  };
  return { analysis: { report, curves: [] }, request };
}
