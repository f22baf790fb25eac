import { Failure } from '../failure.js';

/** The most that is taken on, so that a film from anywhere can't use up the machine. */
export const FILM_LIMITS = {
  /** Longest side of a stored picture. */
  sidePixels: 16_384,
  /** Pixels of a stored picture: 8K (7680 × 4320) and some. A picture is decoded whole, several at a time. */
  picturePixels: 40_000_000,
  /** Film time looked at in one go; a longer film is fine where `--from` and `--to` name a part of this length. */
  seconds: 7200,
  /** Frames looked at in one go: two hours at 60 a second. The pose track takes about 200 bytes of memory a frame. */
  frames: 432_000,
  /** The largest single piece of memory ffmpeg may ask for: a picture of 8K in ten bits without subsampling. */
  allocationBytes: 512 * 1024 * 1024,
} as const;

/**
 * @param width of the stored picture, pixels.
 * @param height of the stored picture, pixels.
 * @throws Failure (film) for pictures larger than any camera's: damage, or an attack on the memory.
 */
export function refuseHugePictures(file: string, width: number, height: number): void {
  const sound = Math.min(width, height) >= 1 && Math.max(width, height) <= FILM_LIMITS.sidePixels;
  if (sound && width * height <= FILM_LIMITS.picturePixels) return;
  throw new Failure(
    'film',
    `"${file}" claims pictures of ${width} × ${height} pixels, which can't be handled.`,
    `Use a film of at most 8K (${FILM_LIMITS.picturePixels / 1e6} million pixels, ${FILM_LIMITS.sidePixels} on a side).`,
  );
}

/**
 * @param seconds length of the part that is to be looked at, film time.
 * @param frameRate average frames a second, 0 where unknown.
 * @throws Failure (film) where the part is too long to be one set, or holds too many frames.
 */
export function refuseHugePart(file: string, seconds: number, frameRate: number): void {
  const remedy = 'Name the set with --from and --to.';
  if (seconds > FILM_LIMITS.seconds) {
    throw new Failure(
      'film',
      `"${file}" lasts ${(seconds / 3600).toFixed(1)} hours; at most ${FILM_LIMITS.seconds / 3600} are looked at in one go.`,
      remedy,
    );
  }
  if (seconds * frameRate > FILM_LIMITS.frames) {
    throw new Failure(
      'film',
      `"${file}" holds ${Math.round(seconds * frameRate)} frames; at most ${FILM_LIMITS.frames} are looked at in one go.`,
      remedy,
    );
  }
}
