/** Clocks of phones that were never set start at the beginning of their format's time (1904, 1970, 1980). */
const FIRST_BELIEVABLE_YEAR = 1990;

/**
 * When a film was recorded, in ISO 8601 with its zone, from the film's own tags; null where they do not say.
 *
 * Apple's `com.apple.quicktime.creationdate` carries the local time with its zone; `creation_time` (the movie header
 * of MP4, DateUTC of Matroska) is in UTC (ISO/IEC 14496-12, mvhd). A time without a zone is not used: it could be
 * hours off.
 *
 * @param tags The film's tags by lower-case key.
 */
export function recordedAt(tags: ReadonlyMap<string, string>): string | null {
  for (const key of ['com.apple.quicktime.creationdate', 'creation_time', 'date']) {
    const found = normalized(tags.get(key) ?? '');
    if (found !== null) return found;
  }
  return null;
}

function normalized(text: string): string | null {
  const match = /^(\d{4})-(\d\d)-(\d\d)[T ](\d\d):(\d\d):(\d\d)(?:\.\d+)?(Z|[+-]\d\d:?\d\d)$/.exec(text);
  if (match === null || Number(match[1]) < FIRST_BELIEVABLE_YEAR) return null;
  const zone = match[7] === 'Z' ? 'Z' : match[7]!.replace(/^([+-]\d\d):?(\d\d)$/, '$1:$2');
  const iso = `${match[1]}-${match[2]}-${match[3]}T${match[4]}:${match[5]}:${match[6]}${zone}`;
  return Number.isNaN(Date.parse(iso)) ? null : iso;
}
