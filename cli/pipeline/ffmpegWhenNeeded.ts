import { type Ffmpeg, locateFfmpeg } from '../../core/media/locateFfmpeg.js';

/**
 * Gives the ffmpeg of this machine, looking for it when it is first asked for: a film whose facts and pose track are
 * kept needs none.
 *
 * @throws Failure (installation) where there is none.
 */
export type FindFfmpeg = () => Promise<Ffmpeg>;

/**
 * One that is named is looked at right away, so that a wrong name never goes unnoticed. What there is to say of the
 * one found is said once, unless `quiet`.
 *
 * @throws Failure (installation) where the one named does not run.
 */
export async function ffmpegWhenNeeded(options: {
  readonly ffmpeg?: string | undefined;
  readonly quiet?: boolean | undefined;
}): Promise<FindFfmpeg> {
  let found: Promise<Ffmpeg> | null = null;
  const find: FindFfmpeg = () => {
    found ??= locateFfmpeg({ explicitPath: options.ffmpeg }).then((ffmpeg) => {
      if (ffmpeg.warning !== null && options.quiet !== true) process.stderr.write(`${ffmpeg.warning}\n`);
      return ffmpeg;
    });
    return found;
  };
  if (options.ffmpeg !== undefined) await find();
  return find;
}
