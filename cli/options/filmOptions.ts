import { type Command, Option, type OptionValues } from '@commander-js/extra-typings';
import { ACCELERATORS, type Accelerator } from '../../core/pose/modelFacts.js';
import {
  type PointInFilm,
  parseFilmTime,
  parsePointInFilm,
  parseSpeedFactor,
  parseWorkers,
} from './values.js';

/** Options of every command that looks at a film: what part, whose movement, how carefully, by which ffmpeg. */
export function withFilmOptions<
  // biome-ignore lint/suspicious/noExplicitAny: the bound that the typings of commander set themselves
  Arguments extends any[],
  Options extends OptionValues,
  Globals extends OptionValues,
>(command: Command<Arguments, Options, Globals>) {
  return command
    .option('--from <seconds>', 'look at the film from here on (75.5 or 1:15.5)', parseFilmTime)
    .option('--to <seconds>', 'look at the film up to here', parseFilmTime)
    .option(
      '--speed-factor <number>',
      'how many times too slowly the film is stored (4 for slow motion at a quarter of the speed)',
      parseSpeedFactor,
    )
    .addOption(qualityOption())
    .option(
      '--lifter <x,y@seconds>',
      'who lifts, by a point on them: fractions of the picture (0.5,0.6@5) or pixels (240,310@5)',
      parsePointInFilm,
    )
    .option('--workers <number>', 'processor cores to use (all of them unless given)', parseWorkers)
    .addOption(acceleratorOption())
    .option('--ffmpeg <path>', 'the ffmpeg program to use');
}

/** How carefully a film is looked at. */
export function qualityOption() {
  return new Option('--quality <quality>', 'quick: a rough look; standard; full: every frame')
    .choices(['quick', 'standard', 'full'] as const)
    .default('standard' as const);
}

/** What runs the pose model. */
export function acceleratorOption() {
  return new Option(
    '--accelerator <kind>',
    'what runs the pose model; auto: the graphics adapter where there is one',
  )
    .choices(ACCELERATORS)
    .default('auto' as const);
}

/** The options above, as read. */
export interface FilmOptions {
  readonly from?: number | undefined;
  readonly to?: number | undefined;
  readonly speedFactor?: number | undefined;
  readonly quality: 'quick' | 'standard' | 'full';
  readonly lifter?: PointInFilm | undefined;
  readonly workers?: number | undefined;
  readonly accelerator?: Accelerator | undefined;
  readonly ffmpeg?: string | undefined;
}
