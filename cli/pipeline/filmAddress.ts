import { dirname, relative, resolve, sep } from 'node:path';
import { pathToFileURL } from 'node:url';

/** A film's address as seen from a page, so that both can be moved together; percent-encoded. */
export function filmAddress(page: string, film: string): string {
  const path = relative(dirname(resolve(page)), resolve(film));
  // On another drive there is no way from one to the other.
  if (resolve(path) === path) return pathToFileURL(path).href;
  return path.split(sep).map(encodeURIComponent).join('/');
}
