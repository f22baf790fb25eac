import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, test, vi } from 'vitest';
import { extractFrame } from '../../../core/media/extractFrame.js';
import { readFilmFacts } from '../../../core/media/filmFacts.js';
import { transcodeFilm } from '../../../core/media/transcodeFilm.js';
import { type PictureToWrite, writeFilm } from '../../../core/media/writeFilm.js';
import { type FilmFolder, H264, openFilmFolder, readFrames, testPicture } from './makeFilm.js';

vi.setConfig({ testTimeout: 60_000 });

let films: FilmFolder;
beforeAll(async () => {
  films = await openFilmFolder();
});
afterAll(() => films.remove());

const WIDTH = 64;
const HEIGHT = 36;

/** Grey pictures that grow brighter, all drawn into one buffer. */
async function* brighter(times: readonly number[]): AsyncGenerator<PictureToWrite> {
  const pixels = new Uint8Array(WIDTH * HEIGHT * 3);
  for (const [index, seconds] of times.entries()) {
    pixels.fill(20 + index * 8);
    yield { seconds, pixels };
  }
}

describe('writing a film', () => {
  test('at an even rate, its pictures and times come back', async () => {
    const file = films.path('even.mp4');
    const times = Array.from({ length: 20 }, (_, index) => index / 25);
    await writeFilm(file, films.ffmpeg, {
      width: WIDTH,
      height: HEIGHT,
      frames: brighter(times),
      frameRate: 25,
      metadata: { 'com.android.capture.fps': '100' },
    });
    const film = await readFilmFacts(file, films.ffmpeg);
    expect(film).toMatchObject({ width: WIDTH, height: HEIGHT, variableFrameRate: false, codec: 'h264' });
    expect(film.slowMotionFactor).toBeCloseTo(4, 2);
    const frames = await readFrames(film, films.ffmpeg, { width: WIDTH, height: HEIGHT });
    expect(frames).toHaveLength(20);
    for (const [index, frame] of frames.entries()) {
      expect(frame.seconds).toBeCloseTo(times[index]!, 4);
      expect(Math.abs(frame.pixels[0]! - (20 + index * 8))).toBeLessThanOrEqual(3);
    }
  });

  test('of variable rate, each picture keeps its own time', async () => {
    const file = films.path('variable.mp4');
    const times = [0, 0.03, 0.07, 0.1, 0.25, 0.26, 0.4, 0.6, 0.61];
    await writeFilm(file, films.ffmpeg, {
      width: WIDTH,
      height: HEIGHT,
      frames: brighter(times),
      frameRate: 30,
      variable: true,
      metadata: { title: 'Garage', 'com.android.capture.fps': '30' },
    });
    const film = await readFilmFacts(file, films.ffmpeg);
    const frames = await readFrames(film, films.ffmpeg, { width: WIDTH, height: HEIGHT });
    expect(frames.map((frame) => Math.round(frame.seconds * 1000) / 1000)).toEqual(times);
    expect(film.variableFrameRate).toBe(true);
  });

  test('refuses to overwrite, and replaces with force', async () => {
    const file = await films.make('taken.mp4', ...testPicture(), ...H264);
    const film = { width: WIDTH, height: HEIGHT, frameRate: 25 };
    await expect(writeFilm(file, films.ffmpeg, { ...film, frames: brighter([0]) })).rejects.toMatchObject({
      kind: 'usage',
      message: expect.stringContaining('already exists'),
    });
    await writeFilm(file, films.ffmpeg, { ...film, frames: brighter([0, 0.04]), force: true });
    expect((await readFilmFacts(file, films.ffmpeg)).width).toBe(WIDTH);
  });

  test('that fails in the middle leaves nothing', async () => {
    const file = films.path('broken.mp4');
    async function* failing() {
      yield* brighter([0, 0.04]);
      throw new RangeError('the maker of the pictures failed');
    }
    const before = readdirSync(films.folder);
    await expect(
      writeFilm(file, films.ffmpeg, { width: WIDTH, height: HEIGHT, frameRate: 25, frames: failing() }),
    ).rejects.toThrow('the maker of the pictures failed');
    expect(existsSync(file)).toBe(false);
    expect(readdirSync(films.folder)).toEqual(before);
  });
});

describe('copying a film with something drawn over it', () => {
  test('keeps every frame and its time', async () => {
    const from = await films.make('source.mp4', ...testPicture('160x90', 30, 1), ...H264);
    const to = films.path('copy.mp4');
    const seen: number[] = [];
    await transcodeFilm(from, to, films.ffmpeg, {
      videoFilter: 'drawbox=x=0:y=0:w=40:h=40:color=red:t=fill',
      sound: false,
      size: { width: 80, height: 44 },
      onProgress: (seconds) => seen.push(seconds),
    });
    const film = await readFilmFacts(to, films.ffmpeg);
    expect(film).toMatchObject({ width: 80, height: 44 });
    const frames = await readFrames(film, films.ffmpeg, { width: 80, height: 44 });
    expect(frames).toHaveLength(30);
    const [red, green, blue] = frames[5]!.pixels;
    expect(red).toBeGreaterThan(200);
    expect(green! + blue!).toBeLessThan(80);
    expect(seen.length).toBeGreaterThan(0);
  });
});

test('the number of cores does not decide how a film is encoded', async () => {
  const file = films.path('encoded.mp4');
  await writeFilm(file, films.ffmpeg, {
    width: WIDTH,
    height: HEIGHT,
    frames: brighter([0, 0.1]),
    frameRate: 10,
  });
  // x264 notes its settings in the stream.
  expect(readFileSync(file, 'latin1')).toMatch(/ threads=3 /);
});

test('a single picture is the one a player shows at that time', async () => {
  const file = films.path('pictures.mp4');
  await writeFilm(file, films.ffmpeg, {
    width: WIDTH,
    height: HEIGHT,
    frames: brighter(Array.from({ length: 25 }, (_, index) => index / 10)),
    frameRate: 10,
  });
  const film = await readFilmFacts(file, films.ffmpeg);
  for (const [seconds, expected] of [
    [0, 0],
    [1.25, 12],
    [1.3, 13],
    [99, 24],
  ] as const) {
    const picture = await extractFrame(film, films.ffmpeg, seconds, { width: WIDTH, height: HEIGHT });
    expect(picture.seconds).toBeCloseTo(expected / 10, 4);
  }
});
