import { randomBytes } from 'node:crypto';
import { rmSync } from 'node:fs';
import { link, lstat, open, rename, rm, stat } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';
import { Failure } from '../failure.js';
import { onEarlyExit } from './cleanUp.js';

export interface WriteOptions {
  /** Replace a file that is already there. */
  readonly force?: boolean;
}

/**
 * Writes a whole file: first under another name in the same folder, then renamed, so that a reader never sees half
 * of it and a failed run leaves nothing.
 *
 * @throws Failure of kind `usage` where the file exists (without `force`), is a folder, or can't be written.
 */
export async function writeAside(
  file: string,
  content: string | Uint8Array,
  options: WriteOptions = {},
): Promise<void> {
  await produceAside(file, options, async (temporaryFile) => {
    const handle = await open(temporaryFile, 'wx');
    try {
      await handle.writeFile(content);
      await handle.sync();
    } finally {
      await handle.close();
    }
  });
}

/**
 * Like {@link writeAside} for a file that something else writes (ffmpeg): `produce` is given the temporary name,
 * which ends as `file` does so that programs that go by the ending choose the same format.
 */
export async function produceAside<Result>(
  file: string,
  options: WriteOptions,
  produce: (temporaryFile: string) => Promise<Result>,
): Promise<Result> {
  await refuseUnlessWritable(file, options);
  const temporaryFile = join(dirname(file), `.${randomBytes(6).toString('hex')}.part.${basename(file)}`);
  const forget = onEarlyExit(() => rmSync(temporaryFile, { force: true }));
  try {
    const result = await produce(temporaryFile);
    await moveIntoPlace(temporaryFile, file, options);
    return result;
  } catch (error) {
    throw asFailure(error, file);
  } finally {
    await rm(temporaryFile, { force: true }).catch(() => undefined);
    forget();
  }
}

/**
 * Says early, before long work, that an output can't be written.
 *
 * @throws Failure of kind `usage`.
 */
export async function refuseUnlessWritable(file: string, options: WriteOptions = {}): Promise<void> {
  const folder = await lstatOrNull(dirname(file), file, true);
  if (folder === null) {
    throw new Failure(
      'usage',
      `Can't write "${file}": the folder "${dirname(file)}" does not exist.`,
      'Make the folder first or name another place.',
    );
  }
  const existing = await lstatOrNull(file, file, false);
  if (existing === null) return;
  if (existing.isDirectory()) {
    throw new Failure('usage', `Can't write "${file}": it is a folder.`, 'Name a file inside it.');
  }
  if (options.force !== true) {
    throw new Failure(
      'usage',
      `"${file}" already exists and is left as it is.`,
      'Name another file, or add --force to replace it.',
    );
  }
}

async function lstatOrNull(path: string, file: string, follow: boolean) {
  try {
    return await (follow ? stat(path) : lstat(path));
  } catch (error) {
    if (codeOf(error) === 'ENOENT') return null;
    throw asFailure(error, file);
  }
}

/** A link fails where the name was taken meanwhile, so that two runs at once can't overwrite one another. */
async function moveIntoPlace(temporaryFile: string, file: string, options: WriteOptions): Promise<void> {
  if (options.force === true) {
    await rename(temporaryFile, file);
    return;
  }
  try {
    await link(temporaryFile, file);
  } catch (error) {
    if (codeOf(error) === 'EEXIST') {
      throw new Failure(
        'usage',
        `"${file}" already exists and is left as it is.`,
        'Name another file, or add --force to replace it.',
      );
    }
    // Some file systems (FAT, some network shares) have no links.
    await rename(temporaryFile, file);
  }
}

const REASONS: Readonly<Record<string, string>> = {
  EACCES: 'permission denied',
  EPERM: 'permission denied',
  EROFS: 'the file system is read-only',
  ENOSPC: 'the disk is full',
  EDQUOT: 'the disk quota is used up',
  ENOTDIR: 'a part of the path is not a folder',
  ENAMETOOLONG: 'the name is too long',
  EISDIR: 'it is a folder',
  ENOENT: 'the folder does not exist',
  ELOOP: 'the path leads round in a circle',
  EFBIG: 'the file would be too large',
};

function asFailure(error: unknown, file: string): unknown {
  const reason = REASONS[codeOf(error) ?? ''];
  if (error instanceof Failure || reason === undefined) return error;
  return new Failure(
    'usage',
    `Can't write "${file}": ${reason}.`,
    'Name another place or free some room.',
    error,
  );
}

function codeOf(error: unknown): string | undefined {
  if (!(error instanceof Error) || !('code' in error)) return undefined;
  return typeof error.code === 'string' ? error.code : undefined;
}
