import { afterAll, beforeAll, describe, expect, test, vi } from 'vitest';
import { readFilmFacts } from '../../../core/media/filmFacts.js';
import { streamFrames } from '../../../core/media/frames.js';
import {
  type FilmFolder,
  H264,
  isRunning,
  openFilmFolder,
  readFrames,
  standIn,
  testPicture,
} from './makeFilm.js';

/** Other test files may keep both cores busy. */
vi.setConfig({ testTimeout: 60_000 });

let films: FilmFolder;
beforeAll(async () => {
  films = await openFilmFolder();
});
afterAll(() => films.remove());

const facts = (file: string) => readFilmFacts(file, films.ffmpeg);

describe('a film of variable rate', () => {
  // REFERENCES 1.10: 30 frames at 1/30 s, then 30 at 1/20 s; decoding to a fixed rate gives 74 frames for 60.
  const variable = () =>
    films.make(
      'variable.mp4',
      ...testPicture('160x90', 30, 2),
      ...[
        '-vf',
        "settb=1/600,setpts='if(lt(N,30),N/30,1+(N-30)/20)/TB'",
        '-enc_time_base',
        '1:600',
        '-video_track_timescale',
        '600',
      ],
      ...films.ffmpeg.passthroughArguments,
      ...H264,
    );

  test('gives each frame once, with its own time', async () => {
    const film = await facts(await variable());
    const frames = await readFrames(film, films.ffmpeg);
    expect(frames).toHaveLength(60);
    frames.forEach((frame, index) => {
      const expected = index < 30 ? index / 30 : 1 + (index - 30) / 20;
      expect(frame.seconds).toBeCloseTo(expected, 2);
      expect(Math.abs(frame.seconds - expected)).toBeLessThanOrEqual(1 / 600);
    });
    expect(film.variableFrameRate).toBe(true);
    expect(film.frameRate).toBeCloseTo(59 / (1 + 29 / 20), 1);
  });
});

describe('seeking', () => {
  test.each([
    ['mp4', ['-bf', '2', '-g', '50', '-c:v', 'libx264', '-preset', 'veryfast']],
    ['mkv', ['-bf', '2', '-g', '50', '-c:v', 'libx264', '-preset', 'veryfast']],
    ['webm', ['-c:v', 'libvpx', '-deadline', 'realtime', '-cpu-used', '8', '-g', '40']],
    ['avi', ['-c:v', 'mpeg4', '-g', '30']],
    ['ts', ['-c:v', 'libx264', '-preset', 'veryfast', '-g', '30']],
  ])('%s gives the same frames as reading from the start', async (ending, encoder) => {
    const film = await facts(await films.make(`seek.${ending}`, ...testPicture('160x90', 25, 6), ...encoder));
    const all = await readFrames(film, films.ffmpeg);
    const part = await readFrames(film, films.ffmpeg, { fromSeconds: 4.02, toSeconds: 5.2 });
    const expected = all.filter((frame) => frame.seconds >= 4.02 && frame.seconds < 5.2);
    expect(expected.length).toBeGreaterThan(25);
    expect(part.map((frame) => frame.sum)).toEqual(expected.map((frame) => frame.sum));
    part.forEach((frame, index) => {
      expect(frame.seconds).toBeCloseTo(expected[index]!.seconds, 6);
    });
  });
});

describe('a sparse pass', () => {
  test('keeps the first frame of every stretch', async () => {
    const film = await facts(await films.make('sparse.mp4', ...testPicture('160x90', 30, 2), ...H264));
    const times = (await readFrames(film, films.ffmpeg, { oneEverySeconds: 0.2 })).map((f) => f.seconds);
    expect(times).toHaveLength(10);
    times.forEach((time, index) => {
      expect(time).toBeCloseTo(index * 0.2, 4);
    });
  });

  test('keeps the same pictures where an edit list hides the first ones', async () => {
    const whole = await films.make('whole.mp4', ...testPicture('160x90', 30, 2), ...H264);
    const trimmed = await films.make('trimmed.mov', '-ss', '0.3', '-i', whole, '-c', 'copy');
    const film = await facts(trimmed);
    expect(film.firstStoredSeconds).toBeCloseTo(-0.3, 2);
    const every = { oneEverySeconds: 0.5 };
    const shown = await readFrames(film, films.ffmpeg, every);
    const all = await readFrames(await facts(whole), films.ffmpeg, every);
    // The very first picture comes in any case.
    expect(shown[0]!.seconds).toBeCloseTo(0, 6);
    expect(shown.slice(1).map(({ sum }) => sum)).toEqual(all.slice(1).map(({ sum }) => sum));
  });
});

describe('ffmpeg is ended', () => {
  const longFilm = async () => facts(await films.make('long.mp4', ...testPicture('640x360', 30, 8), ...H264));
  const large = { width: 640, height: 360 };

  test('when the loop is left early', async () => {
    const { ffmpeg, processId } = await standIn(films);
    let count = 0;
    for await (const frame of streamFrames(await longFilm(), ffmpeg, large)) {
      expect(frame.pixels).toHaveLength(640 * 360 * 3);
      expect(isRunning(await processId())).toBe(true);
      count += 1;
      if (count === 3) break;
    }
    expect(count).toBe(3);
    expect(isRunning(await processId())).toBe(false);
  });

  test('when the loop throws', async () => {
    const { ffmpeg, processId } = await standIn(films);
    const failing = async () => {
      for await (const _ of streamFrames(await longFilm(), ffmpeg, large)) throw new RangeError('fault');
    };
    await expect(failing()).rejects.toThrow(RangeError);
    expect(isRunning(await processId())).toBe(false);
  });

  test('when the user interrupts, even while frames are awaited', async () => {
    const { ffmpeg, processId } = await standIn(films, 'exec sleep 30');
    const controller = new AbortController();
    const reading = readFrames(await longFilm(), ffmpeg, { ...large, signal: controller.signal });
    const rejection = expect(reading).rejects.toMatchObject({ kind: 'interrupted' });
    await processId();
    controller.abort();
    await rejection;
    expect(isRunning(await processId())).toBe(false);
  });

  test('when it gives nothing for the time allowed', async () => {
    const { ffmpeg, processId } = await standIn(films, 'exec sleep 30');
    const reading = readFrames(await longFilm(), ffmpeg, { ...large, stallSeconds: 2 });
    await expect(reading).rejects.toMatchObject({
      kind: 'film',
      message: expect.stringContaining('gave nothing'),
    });
    expect(isRunning(await processId())).toBe(false);
  });

  test('but not because its reader is slow', async () => {
    let count = 0;
    const options = { ...large, stallSeconds: 3 };
    for await (const _ of streamFrames(await longFilm(), films.ffmpeg, options)) {
      if (count === 5) await new Promise((settle) => setTimeout(settle, 3500));
      count += 1;
    }
    expect(count).toBe(240);
  });

  test('and when someone else ends it, that is no shorter film', async () => {
    const { ffmpeg, processId } = await standIn(films);
    const reading = async () => {
      let count = 0;
      for await (const _ of streamFrames(await longFilm(), ffmpeg, large)) {
        count += 1;
        if (count === 2) process.kill(await processId(), 'SIGKILL');
      }
    };
    await expect(reading()).rejects.toMatchObject({
      kind: 'film',
      message: expect.stringContaining('ended from outside'),
    });
  });
});

test('a slow reader gets every frame, also those still in the pipe when ffmpeg has gone', async () => {
  const film = await facts(await films.make('slow.mp4', ...testPicture('320x240', 10, 2), ...H264));
  // Whether ffmpeg is gone while the pipe is full is a matter of milliseconds: several paces, several runs.
  for (const pauseMilliseconds of [15, 20, 25, 30, 30, 30]) {
    let count = 0;
    for await (const frame of streamFrames(film, films.ffmpeg, { width: 320, height: 240 })) {
      expect(frame.width).toBe(320);
      count += 1;
      await new Promise((settle) => setTimeout(settle, pauseMilliseconds));
    }
    expect(count).toBe(20);
  }
});
