import { median } from 'simple-statistics';
import type { FilmFacts } from '../../core/media/film.js';
import { bodyOfLooks } from '../../core/motion/bodyOfLooks.js';
import type { View } from '../../core/motion/view.js';
import { estimateView } from '../../core/motion/view.js';
import type { Look } from '../../core/pose/people.js';
import type { Exercise } from '../exercises/exercise.js';
import type { Finding } from '../report/setReport.js';
import { checkFindings } from './checkFindings.js';
import { type ExerciseAnswer, exerciseAnswer } from './exerciseAnswer.js';

/** What a film can be asked, before any long analysis. */
export interface FilmCheck {
  readonly schema: 'tempofilm.check/1';
  readonly film: Pick<
    FilmFacts,
    'file' | 'durationSeconds' | 'width' | 'height' | 'frameRate' | 'variableFrameRate' | 'slowMotionFactor'
  >;
  /** Where the camera stands to the lifter; null where nobody was seen. */
  readonly view: Pick<View, 'facing' | 'degreesOffSide'> | null;
  /** People seen at once, median over the pictures looked at. */
  readonly people: number;
  /** Whether the film can answer for any exercise at all. */
  readonly usable: boolean;
  readonly findings: readonly Finding[];
  readonly exercises: readonly ExerciseAnswer[];
  readonly headline: string;
}

/**
 * Judges from a few pictures whether a film can answer, for which exercises, and what to change.
 *
 * @param looks who was seen in pictures spread over the film.
 * @param brightness mean brightness of each of these pictures, 0 to 255.
 */
export function checkFilm(
  film: FilmFacts,
  looks: readonly Look[],
  brightness: readonly number[],
  exercises: readonly Exercise[],
): FilmCheck {
  const body = bodyOfLooks(looks, film);
  const view =
    body.frames === 0 ? null : estimateView(body, body.seconds[0]!, body.seconds[body.frames - 1]!);
  const people = looks.length === 0 ? 0 : Math.round(median(looks.map((look) => look.people.length)));
  const findings = checkFindings({ film, body, view, people, looks: looks.length, brightness });
  const answers = exercises.map((exercise) => exerciseAnswer(exercise, body, view));
  const usable =
    findings.every((finding) => finding.level !== 'problem') && answers.some(({ answer }) => answer !== 'no');
  const { file, durationSeconds, width, height, frameRate, variableFrameRate, slowMotionFactor } = film;
  return {
    schema: 'tempofilm.check/1',
    film: { file, durationSeconds, width, height, frameRate, variableFrameRate, slowMotionFactor },
    view: view && { facing: view.facing, degreesOffSide: view.degreesOffSide },
    people,
    usable,
    findings,
    exercises: answers,
    headline: headline(usable, view, answers),
  };
}

const FROM: Record<View['facing'], string> = {
  left: 'from the left',
  right: 'from the right',
  front: 'from the front',
  back: 'from behind',
};

function headline(usable: boolean, view: View | null, answers: readonly ExerciseAnswer[]): string {
  if (!usable || view === null) return 'Cannot tell: this film can not answer as it is.';
  const [only] = answers;
  if (only !== undefined && answers.length === 1) {
    if (only.answer === 'yes') return `This film can answer for the ${only.name.toLowerCase()}.`;
    const limits = only.reason === null ? '' : `: ${only.reason}`;
    return `This film can answer only in part for the ${only.name.toLowerCase()}${limits}.`;
  }
  const count = answers.filter(({ answer }) => answer === 'yes').length;
  return `The lifter is seen ${FROM[view.facing]}; this film can answer for ${count} of ${answers.length} exercises.`;
}
