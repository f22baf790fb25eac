import { findExercise } from '../../analysis/exercises/catalogue.js';
import type { Exercise } from '../../analysis/exercises/exercise.js';
import { pacingCues } from '../../analysis/plan/pacingCues.js';
import { pacingSound, waveFile } from '../../analysis/plan/pacingSound.js';
import type { Stage } from '../../analysis/plan/plan.js';
import { parseReps, parseStage } from '../../analysis/plan/stage.js';
import { parseTempo } from '../../analysis/plan/tempo.js';
import { describeTempo } from '../../analysis/plan/tempoWords.js';
import { Failure } from '../../core/failure.js';
import { writeAside } from '../../core/media/writeAside.js';
import { knownExercises } from '../exercises/knownExercises.js';

/** Samples a second: what every player takes; a sample is 0.02 ms. */
const SAMPLE_RATE = 44_100;
const LEAD_IN_SECONDS = 4;

export interface PaceOptions {
  readonly exercise?: string | undefined;
  readonly reps?: string | undefined;
  readonly stage?: readonly string[] | undefined;
  readonly start?: 'stretched' | 'contracted' | undefined;
  readonly output: string;
  readonly force?: true | undefined;
}

/**
 * Writes the pacing track of a set and says what is on it.
 *
 * @returns one line for the user.
 * @throws Failure (usage) where tempo, reps or exercise can't be read, or the file can't be written.
 */
export async function writePacingTrack(tempo: string | undefined, options: PaceOptions): Promise<string> {
  const stages = stagesOf(tempo, options);
  const exercise =
    options.exercise === undefined ? null : findExercise(options.exercise, await knownExercises());
  const cues = pacingCues(stages, {
    start: options.start ?? exercise?.defaultStart ?? 'contracted',
    leadInSeconds: LEAD_IN_SECONDS,
  });
  const sound = pacingSound(cues, SAMPLE_RATE);
  await writeAside(options.output, waveFile(sound, SAMPLE_RATE), { force: options.force === true });
  return `${options.output}: ${LEAD_IN_SECONDS} s count-in, then ${inWords(stages, exercise)}; ${(sound.length / SAMPLE_RATE).toFixed(1)} s in all. Stop when you can't keep up: the track sets a pace, not a goal. Near failure, set the safeties or have a spotter.`;
}

function stagesOf(tempo: string | undefined, { reps, stage }: PaceOptions): readonly Stage[] {
  if (stage !== undefined && (tempo !== undefined || reps !== undefined)) {
    throw new Failure(
      'usage',
      'The plan is stated twice.',
      'Give a tempo with --reps, or --stage for each part.',
    );
  }
  if (stage !== undefined) {
    const stages = stage.map(parseStage);
    if (stages.some((one) => one.reps === null)) {
      throw new Failure(
        'usage',
        'A stage says no reps, so the track has no end.',
        'Write --stage 5-0-1-1:8.',
      );
    }
    return stages;
  }
  if (tempo === undefined || reps === undefined) {
    throw new Failure(
      'usage',
      'Which tempo, and how many reps?',
      'For example: tempofilm pace 4-0-1-1 --reps 8 -o pace.wav',
    );
  }
  return [{ tempo: parseTempo(tempo), reps: parseReps(reps) }];
}

function inWords(stages: readonly Stage[], exercise: Exercise | null): string {
  const words = exercise?.words ?? PLAIN_WORDS;
  return stages
    .map(
      (stage) => `${stage.reps!.max} × ${stage.tempo === null ? 'free' : describeTempo(stage.tempo, words)}`,
    )
    .join(', then ');
}

const PLAIN_WORDS: Exercise['words'] = {
  eccentric: 'lowering',
  concentric: 'lift',
  stretchedHold: 'pause',
  contractedHold: 'hold',
};
