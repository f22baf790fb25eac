import { stat } from 'node:fs/promises';
import { resolve } from 'node:path';
import { Failure } from '../../core/failure.js';

/**
 * Films are never altered: no output may take the place of one, by whatever name it goes, even with `--force`; nor
 * may two outputs be the same file.
 *
 * @param outputs the paths to write, by the option that names each.
 * @throws Failure (usage).
 */
export async function spareFilms(
  films: readonly string[],
  outputs: Readonly<Record<string, string | undefined>>,
): Promise<void> {
  const places = new Map<string, string>();
  for (const film of films) places.set(await identity(film), film);
  for (const [option, output] of Object.entries(outputs)) {
    if (output === undefined) continue;
    const place = await identity(output);
    const taken = places.get(place);
    if (taken !== undefined) {
      throw new Failure('usage', `${option} would write over "${taken}".`, 'Name another file for it.');
    }
    places.set(place, output);
  }
}

/** The same for every name of a file that exists: links and other spellings lead to one device and number. */
async function identity(path: string): Promise<string> {
  try {
    const { dev, ino } = await stat(path, { bigint: true });
    return `${dev}:${ino}`;
  } catch {
    return resolve(path);
  }
}
