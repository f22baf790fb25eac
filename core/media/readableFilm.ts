import { open, stat } from 'node:fs/promises';
import { Failure } from '../failure.js';

/**
 * Says what keeps a file from being read, before anything else is tried with it.
 *
 * @throws Failure (film): missing, a folder, empty, not allowed.
 */
export async function refuseUnreadable(file: string): Promise<void> {
  try {
    const facts = await stat(file);
    if (facts.isDirectory())
      throw new Failure('film', `"${file}" is a folder, not a film.`, 'Name a film inside it.');
    if (!facts.isFile())
      throw new Failure('film', `"${file}" is not an ordinary file.`, 'Copy the film to this machine first.');
    if (facts.size === 0) throw new Failure('film', `"${file}" is empty.`, 'Copy the film again.');
    await (await open(file, 'r')).close();
  } catch (error) {
    if (error instanceof Failure) throw error;
    const code = error instanceof Error && 'code' in error ? error.code : undefined;
    if (code === 'ENOENT' || code === 'ENOTDIR') {
      throw new Failure('film', `There is no film "${file}".`, 'Check the name.', error);
    }
    if (code === 'EACCES' || code === 'EPERM') {
      throw new Failure(
        'film',
        `"${file}" can't be read: permission denied.`,
        'Check its permissions.',
        error,
      );
    }
    if (typeof code === 'string')
      throw new Failure('film', `"${file}" can't be read (${code}).`, null, error);
    throw error;
  }
}
