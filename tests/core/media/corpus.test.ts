import { afterAll, beforeAll, expect, test, vi } from 'vitest';
import { readFilmFacts } from '../../../core/media/filmFacts.js';
import { frameDifferences, type GreyFrame, greyFrames } from '../../../fixtures/corpus/compareFrames.js';
import { VARIANTS } from '../../../fixtures/corpus/corpusVariants.js';
import { encodersOf, makePlainFilm, makeVariant } from '../../../fixtures/corpus/makeVariant.js';
import { type FilmFolder, openFilmFolder } from './makeFilm.js';

/** Other test files may keep both cores busy. */
vi.setConfig({ testTimeout: 60_000 });

const RENDERED = 'fixtures/films/goblet-squats.mp4';
/** From where the lifter stands still into the first lowering. */
const SECONDS = 1.9;

let films: FilmFolder;
let plainFile: string;
let plain: readonly GreyFrame[];
let encoders: ReadonlySet<string>;
beforeAll(async () => {
  films = await openFilmFolder();
  encoders = await encodersOf(films.ffmpeg.path);
  plainFile = await makePlainFilm(films.ffmpeg.path, RENDERED, films.folder, SECONDS);
  plain = await greyFrames(await readFilmFacts(plainFile, films.ffmpeg), films.ffmpeg);
});
afterAll(() => films.remove());

// The reps themselves, measured in each of these films, by `npm run corpus`: fixtures/corpus/results.md.
test.each(VARIANTS)('$name: the same pictures at the same times', async (variant) => {
  const { encoder } = variant;
  if (encoder !== undefined && !encoders.has(encoder)) return;
  const file = await makeVariant(films.ffmpeg.path, plainFile, films.folder, variant);
  const film = await readFilmFacts(file, films.ffmpeg);
  const frames = await greyFrames(film, films.ffmpeg);
  expect(frameDifferences(plain, film, frames, variant.differs)).toEqual([]);
});

test('a wrong clock, a turned picture and a wrong fact are found', async () => {
  const film = await readFilmFacts(plainFile, films.ffmpeg);
  const found = (frames: readonly GreyFrame[], differs = {}) =>
    frameDifferences(plain, film, frames, differs).join();
  expect(found(plain)).toBe('');
  expect(found(plain.map((frame) => ({ ...frame, seconds: frame.seconds + 0.1 })))).toContain('another time');
  expect(found(plain.map((frame) => ({ ...frame, pixels: frame.pixels.toReversed() })))).toContain(
    'levels off',
  );
  expect(found(plain.slice(0, 20))).toContain('20 frames, not 57');
  expect(found(plain, { facts: { codec: 'hevc' } })).toContain('codec is h264, not hevc');
  expect(found(plain, { slowMotionFactor: 4 })).toContain('slow-motion factor 1, not 4');
});
