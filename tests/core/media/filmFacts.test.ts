import { mkdir, readFile, writeFile } from 'node:fs/promises';
import { afterAll, beforeAll, describe, expect, test, vi } from 'vitest';
import { readFilmFacts } from '../../../core/media/filmFacts.js';
import { type FilmFolder, H264, openFilmFolder, readFrames, testPicture } from './makeFilm.js';

/** Other test files may keep both cores busy. */
vi.setConfig({ testTimeout: 60_000 });

let films: FilmFolder;
beforeAll(async () => {
  films = await openFilmFolder();
});
afterAll(() => films.remove());

const facts = (file: string) => readFilmFacts(file, films.ffmpeg);

describe('containers and codecs', () => {
  test.each([
    ['plain.mp4', H264, 'h264'],
    ['plain.mov', H264, 'h264'],
    ['plain.mkv', H264, 'h264'],
    ['hevc.mp4', ['-c:v', 'libx265', '-preset', 'ultrafast', '-x265-params', 'log-level=none'], 'hevc'],
    ['vp9.webm', ['-c:v', 'libvpx-vp9', '-deadline', 'realtime', '-cpu-used', '8'], 'vp9'],
    ['plain.avi', ['-c:v', 'mpeg4'], 'mpeg4'],
    ['plain.gif', [], 'gif'],
  ])('%s', async (name, encoder, codec) => {
    const film = await facts(await films.make(name, ...testPicture('160x90', 20, 1), ...encoder));
    expect(film).toMatchObject({
      ...{ width: 160, height: 90, codec, rotationDegrees: 0, flipped: false, slowMotionFactor: 1 },
      ...{ variableFrameRate: false, highDynamicRange: false, recordedAt: null },
    });
    expect(film.frameRate).toBeCloseTo(20, 1);
    expect(film.durationSeconds).toBeCloseTo(1, 1);
    const frames = await readFrames(film, films.ffmpeg);
    expect(frames).toHaveLength(20);
    for (const [index, frame] of frames.entries()) {
      // Matroska and WebM keep times to a millisecond.
      expect(Math.abs(frame.seconds - index / 20)).toBeLessThanOrEqual(0.001);
    }
  });
});

describe('the film clock', () => {
  test('a late start is kept: the first picture is at the time a player shows it', async () => {
    const file = await films.make('late.mp4', ...testPicture(), ...H264, '-vf', 'setpts=PTS+0.5/TB');
    const film = await facts(file);
    expect(film.durationSeconds).toBeCloseTo(1.5, 3);
    const frames = await readFrames(film, films.ffmpeg);
    expect(frames[0]!.seconds).toBeCloseTo(0.5, 3);
    expect(frames).toHaveLength(30);
  });

  test('pictures that an edit list cuts away are neither shown nor counted', async () => {
    const long = await films.make('long.mp4', ...testPicture('160x90', 30, 3), '-g', '60', ...H264);
    // Copied from the middle of a run of dependent pictures: the file keeps the pictures before and hides them.
    const cut = await films.make('cut.mp4', '-ss', '1.0', '-i', long, '-c', 'copy');
    const film = await facts(cut);
    const frames = await readFrames(film, films.ffmpeg);
    expect(frames[0]!.seconds).toBeGreaterThanOrEqual(0);
    expect(frames[0]!.seconds).toBeLessThan(1 / 30 + 0.001);
    expect(frames).toHaveLength(60);
    expect(film.frameRate).toBeCloseTo(30, 1);
    const whole = await readFrames(await facts(long), films.ffmpeg);
    expect(frames.map((frame) => frame.sum)).toEqual(whole.slice(30).map((frame) => frame.sum));
  });

  test('a broadcast stream counts from its first moment', async () => {
    const file = await films.make('stream.ts', ...testPicture(), ...H264, '-output_ts_offset', '100');
    const film = await facts(file);
    const frames = await readFrames(film, films.ffmpeg);
    expect(frames[0]!.seconds).toBeCloseTo(0, 3);
    expect(frames.at(-1)!.seconds).toBeCloseTo(29 / 30, 3);
    expect(film.durationSeconds).toBeCloseTo(1, 1);
  });

  // Android writes the capture rate as com.android.capture.fps (Media3 MdtaMetadataEntry; MediaFormat.KEY_CAPTURE_RATE:
  // 240 frames a second captured to play at 30 is eight times slow). Phones also write it on films stored in real time.
  test.each([
    ['240', 30, 8],
    ['120', 30, 4],
    ['30', 30, 1],
    ['29.97', 30, 1],
    ['15', 30, 1],
  ])('captured at %s, stored at %i frames a second: factor %i', async (captured, stored, factor) => {
    const file = await films.make(
      `captured-${captured}.mp4`,
      ...testPicture('160x90', stored, 1),
      ...H264,
      ...['-movflags', 'use_metadata_tags', '-metadata', `com.android.capture.fps=${captured}`],
    );
    expect((await facts(file)).slowMotionFactor).toBeCloseTo(factor, 2);
  });

  test('the time of recording keeps its zone', async () => {
    const tagged = (name: string, ...metadata: string[]) =>
      films.make(
        name,
        ...testPicture('64x36', 10, 0.5),
        ...H264,
        '-movflags',
        'use_metadata_tags',
        ...metadata,
      );
    const apple = ['-metadata', 'com.apple.quicktime.creationdate=2026-03-02T19:04:11+0100'];
    const universal = ['-metadata', 'creation_time=2026-03-02T18:04:11.000000Z'];
    expect((await facts(await tagged('apple.mov', ...apple, ...universal))).recordedAt).toBe(
      '2026-03-02T19:04:11+01:00',
    );
    expect((await facts(await tagged('android.mp4', ...universal))).recordedAt).toBe('2026-03-02T18:04:11Z');
    const unset = ['-metadata', 'creation_time=1904-01-01T00:00:00.000000Z'];
    expect((await facts(await tagged('unset.mp4', ...unset))).recordedAt).toBeNull();
  });
});

describe('what is no film is refused in one line', () => {
  const refusal = async (file: string) => {
    const error = await facts(file).then(
      () => null,
      (thrown: unknown) => thrown,
    );
    expect(error).toMatchObject({ kind: 'film' });
    const { message } = error as Error;
    expect(message).not.toContain('\n');
    return message;
  };

  test('missing, folder, empty, text, sound', async () => {
    expect(await refusal(films.path('missing.mp4'))).toContain('There is no film');
    await mkdir(films.path('folder.mp4'));
    expect(await refusal(films.path('folder.mp4'))).toContain('is a folder');
    await writeFile(films.path('empty.mp4'), '');
    expect(await refusal(films.path('empty.mp4'))).toContain('is empty');
    await writeFile(films.path('text.mp4'), 'Rows: 4-0-1-1, three sets of eight.\n'.repeat(50));
    expect(await refusal(films.path('text.mp4'))).toContain('not a film');
    const sound = await films.make('sound.mp4', '-f', 'lavfi', '-i', 'sine=d=1', '-c:a', 'aac');
    expect(await refusal(sound)).toContain('holds no film');
  });

  test('a text that ffmpeg would render as a film', async () => {
    await writeFile(films.path('notes.txt'), 'Rows: 4-0-1-1, three sets of eight.\n'.repeat(50));
    expect(await refusal(films.path('notes.txt'))).toContain('not a film');
  });

  test('cut off before the index', async () => {
    const whole = await readFile(await films.make('whole.mp4', ...testPicture(), ...H264));
    await writeFile(films.path('headless.mp4'), whole.subarray(0, Math.floor(whole.length / 2)));
    expect(await refusal(films.path('headless.mp4'))).toContain('cut off before its index');
  });

  test('a play list or script that points elsewhere is not followed', async () => {
    const film = await films.make('elsewhere.ts', ...testPicture(), ...H264);
    const lists = {
      'list.m3u8': `#EXTM3U\n#EXTINF:1,\n${film}\n#EXT-X-ENDLIST\n`,
      'list.ffconcat': `ffconcat version 1.0\nfile ${film}\n`,
    };
    for (const [name, text] of Object.entries(lists)) {
      await writeFile(films.path(name), text);
      expect(await refusal(films.path(name))).toContain('not a film');
    }
  });
});

test('a film cut off in the middle gives its readable pictures and says so', async () => {
  const whole = await readFile(
    await films.make('indexed.mp4', ...testPicture('320x180', 30, 2), ...H264, '-movflags', '+faststart'),
  );
  await writeFile(films.path('half.mp4'), whole.subarray(0, Math.floor(whole.length / 2)));
  const film = await facts(films.path('half.mp4'));
  const warnings: string[] = [];
  const frames = await readFrames(film, films.ffmpeg, { onWarning: (message) => warnings.push(message) });
  expect(frames.length).toBeGreaterThan(10);
  expect(frames.length).toBeLessThan(55);
  expect(warnings.join()).toContain('damaged or cut off');
});

test.each([
  '-dash first.mp4',
  'quote \' and " here.mp4',
  'new\nline.mp4',
  'concat:a|b.mp4',
  '<b>&amp;.mp4',
  '100%d.mp4',
])('a film named %j is only ever a file', async (name) => {
  const plain = await readFile(await films.make('named.mp4', ...testPicture('64x36', 10, 0.5), ...H264));
  await writeFile(films.path(name), plain);
  const film = await facts(films.path(name));
  expect(await readFrames(film, films.ffmpeg, { width: 64, height: 36 })).toHaveLength(5);
});
