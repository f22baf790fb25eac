import { stat } from 'node:fs/promises';
import type { FilmFacts } from '../../core/media/film.js';
import type { RecordedAt } from '../history/sets/savedSet.js';

/** The film's own tag; a copied or trimmed film may have none, and then the file's date is the best guess. */
export async function recordedAtOf(film: FilmFacts): Promise<RecordedAt> {
  if (film.recordedAt !== null) return { instant: new Date(film.recordedAt).toISOString(), source: 'film' };
  return { instant: (await stat(film.file)).mtime.toISOString(), source: 'file' };
}
