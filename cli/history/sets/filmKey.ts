import { hashFilm } from '../../../core/media/hashFilm.js';

/** Under a megabyte is read in all. */
const SAMPLE_BYTES = 256 * 1024;

/** Identifies a film by what is in it, whatever it is called. */
export async function filmKey(file: string): Promise<string> {
  return (await hashFilm(file, SAMPLE_BYTES)).digest('hex');
}
