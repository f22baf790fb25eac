import { afterAll, beforeAll, describe, expect, test, vi } from 'vitest';
import { readFilmFacts } from '../../../core/media/filmFacts.js';
import { looksInterlaced } from '../../../core/media/interlaced.js';
import { type FilmFolder, H264, openFilmFolder, readFrames, type SeenFrame } from './makeFilm.js';

/** Other test files may keep both cores busy. */
vi.setConfig({ testTimeout: 60_000 });

let films: FilmFolder;
beforeAll(async () => {
  films = await openFilmFolder();
});
afterAll(() => films.remove());

const WIDTH = 96;
const HEIGHT = 64;
const facts = (file: string) => readFilmFacts(file, films.ffmpeg);

/** Four quarters in four colours: red top left, green top right, blue bottom left, white bottom right. */
const QUARTERS =
  'color=black:s=96x64:r=10:d=0.5,drawbox=0:0:48:32:red:fill,drawbox=48:0:48:32:lime:fill,' +
  'drawbox=0:32:48:32:blue:fill,drawbox=48:32:48:32:white:fill';

const quartersFilm = (name: string, ...more: string[]) =>
  films.make(name, '-f', 'lavfi', '-i', QUARTERS, ...H264, '-crf', '5', ...more);

/** The colours of the quarters in reading order. */
function quarters(frame: SeenFrame, width: number, height: number): string {
  const at = (x: number, y: number) => {
    const index = (Math.floor(y * height) * width + Math.floor(x * width)) * 3;
    const [red, green, blue] = [...frame.pixels.subarray(index, index + 3)].map((value) => value > 128);
    if (red && green && blue) return 'white';
    return red ? 'red' : green ? 'green' : blue ? 'blue' : 'black';
  };
  return [at(0.25, 0.25), at(0.75, 0.25), at(0.25, 0.75), at(0.75, 0.75)].join(' ');
}

/**
 * Puts a display matrix into the track header of an MP4 file: nine 32-bit numbers a b u c d v x y w (ISO/IEC
 * 14496-12, 8.3.2; 16.16 fixed point), 40 bytes into a version 0 `tkhd` box's content.
 */
async function withMatrix(
  file: string,
  name: string,
  [a, b, c, d]: readonly [number, number, number, number],
) {
  const { readFile, writeFile } = await import('node:fs/promises');
  const bytes = await readFile(file);
  const matrixAt = bytes.indexOf('tkhd') + 4 + 40;
  for (const [index, value] of [a, b, 0, c, d].entries())
    bytes.writeInt32BE(value * 65536, matrixAt + index * 4);
  await writeFile(films.path(name), bytes);
  return films.path(name);
}

describe('rotation and mirroring', () => {
  // REFERENCES 1.10, decoded there on a marked clip: matrix (0,1;-1,0) is shown turned 90° clockwise, so that the top
  // left corner goes to the top right; (0,-1;1,0) counter-clockwise.
  test.each([
    ['0', [1, 0, 0, 1], 0, false, 'red green blue white'],
    ['90', [0, 1, -1, 0], 90, false, 'blue red white green'],
    ['180', [-1, 0, 0, -1], 180, false, 'white blue green red'],
    ['270', [0, -1, 1, 0], 270, false, 'green white red blue'],
    // A mirrored selfie: x is negated.
    ['mirrored', [-1, 0, 0, 1], 0, true, 'green red white blue'],
    ['upside down', [1, 0, 0, -1], 180, true, 'blue white red green'],
  ] as const)('%s', async (name, matrix, turn, flipped, expected) => {
    const file = await withMatrix(await quartersFilm('plain.mp4'), `turned-${name}.mp4`, matrix);
    const film = await facts(file);
    const sideways = turn % 180 !== 0;
    const [width, height] = sideways ? [HEIGHT, WIDTH] : [WIDTH, HEIGHT];
    expect(film).toMatchObject({ width, height, rotationDegrees: turn, flipped });
    const [frame] = await readFrames(film, films.ffmpeg, { width, height });
    expect(quarters(frame!, width, height)).toBe(expected);

    // The same quarter of the picture as shown, cut out by its region.
    const region = { x: width / 2, y: 0, width: width / 2, height: height / 2 };
    const [cut] = await readFrames(film, films.ffmpeg, { width: 16, height: 16, region });
    const topRight = expected.split(' ')[1];
    expect(quarters(cut!, 16, 16)).toBe([topRight, topRight, topRight, topRight].join(' '));
  });
});

test('a Matroska film keeps its rotation', async () => {
  const turned = await withMatrix(await quartersFilm('plain.mp4'), 'turned.mp4', [0, 1, -1, 0]);
  const film = await facts(await films.make('turned.mov', '-i', turned, '-c', 'copy'));
  expect(film).toMatchObject({ width: HEIGHT, height: WIDTH, rotationDegrees: 90 });
});

test('pixels that are not square are shown square', async () => {
  const film = await facts(await quartersFilm('wide.mp4', '-vf', 'setsar=3/2'));
  expect(film).toMatchObject({ width: 144, height: 64 });
  const [frame] = await readFrames(film, films.ffmpeg, { width: 144, height: 64 });
  expect(quarters(frame!, 144, 64)).toBe('red green blue white');
});

test('odd sizes are shown whole', async () => {
  const film = await facts(
    await films.make(
      'odd.mp4',
      '-f',
      'lavfi',
      '-i',
      'testsrc=s=161x91:r=10:d=0.5',
      ...['-c:v', 'libx264', '-pix_fmt', 'yuv444p'],
    ),
  );
  expect(film).toMatchObject({ width: 161, height: 91 });
  expect(await readFrames(film, films.ffmpeg, { width: 161, height: 91 })).toHaveLength(5);
});

test('interlaced pictures come once each, without combs', async () => {
  // A bar moves 8 pixels a field; woven fields show it twice in alternating lines.
  const source =
    'color=black:s=96x64:r=50:d=1[b];color=white:s=8x64:r=50:d=1[w];[b][w]overlay=x=n*8-floor(n*8/88)*88:y=0';
  const file = await films.make(
    'interlaced.mp4',
    ...['-f', 'lavfi', '-i', source, '-vf', 'tinterlace=mode=interleave_top,fieldorder=tff'],
    ...['-flags', '+ilme+ildct', '-c:v', 'libx264', '-crf', '5', '-pix_fmt', 'yuv420p'],
  );
  const film = await facts(file);
  expect(film.interlaced).toBe(true);
  const frames = await readFrames(film, films.ffmpeg, { width: WIDTH, height: HEIGHT, grayscale: true });
  expect(frames).toHaveLength(25);
  frames.forEach((frame, index) => {
    expect(frame.seconds).toBeCloseTo(index / 25, 3);
  });
  const [, , , , , frame] = frames;
  const line = (y: number) => [...frame!.pixels.subarray(y * WIDTH, (y + 1) * WIDTH)];
  const difference = line(30).reduce((sum, value, x) => sum + Math.abs(value - line(31)[x]!), 0) / WIDTH;
  expect(difference).toBeLessThan(6);
});

test('where ffmpeg does not say, the pictures themselves tell whether they are interlaced', async () => {
  const source = ['-f', 'lavfi', '-i', 'testsrc=s=96x64:r=50:d=0.5'];
  const fields = ['-vf', 'tinterlace=mode=interleave_top,fieldorder=tff', '-flags', '+ilme+ildct'];
  const woven = await films.make('woven.mp4', ...source, ...fields, ...H264);
  const whole = await films.make('whole.mp4', ...source, ...H264);
  expect(await looksInterlaced(woven, films.ffmpeg)).toBe(true);
  expect(await looksInterlaced(whole, films.ffmpeg)).toBe(false);
  expect((await facts(whole)).interlaced).toBe(false);
});

describe('high dynamic range', () => {
  test.each([
    ['hlg', 'arib-std-b67'],
    ['pq', 'smpte2084'],
  ])('%s is brought to an ordinary picture', async (name, transfer) => {
    // The same scene, once in BT.709 and once converted to BT.2020 with the wide transfer at ten bits.
    const scene = "color=gray:s=96x64:r=10:d=0.5,format=yuv420p,geq=lum='20+X*2':cb=128:cr=128";
    const source = ['-f', 'lavfi', '-i', scene];
    const wide =
      'setparams=color_primaries=bt709:color_trc=bt709:colorspace=bt709:range=tv,zscale=t=linear:npl=203,format=gbrpf32le,' +
      `zscale=p=bt2020:t=${transfer}:m=bt2020nc:r=limited:npl=203,format=yuv420p10le`;
    const file = await films.make(
      `${name}.mp4`,
      ...[...source, '-vf', wide, '-c:v', 'libx265', '-preset', 'ultrafast'],
      ...['-x265-params', `log-level=none:colorprim=bt2020:transfer=${transfer}:colormatrix=bt2020nc`],
    );
    const film = await facts(file);
    expect(film).toMatchObject({ highDynamicRange: true, codec: 'hevc' });
    const plain = await facts(await films.make('plain-scene.mp4', ...source, ...H264));
    const [mapped] = await readFrames(film, films.ffmpeg, { width: WIDTH, height: HEIGHT });
    const [ordinary] = await readFrames(plain, films.ffmpeg, { width: WIDTH, height: HEIGHT });
    // Sizes follow the part of the picture that is read, and are as often odd as even.
    const odd = await readFrames(film, films.ffmpeg, { width: WIDTH - 1, height: HEIGHT - 1 });
    expect(odd).toHaveLength(5);
    // A ramp from black to white along a line: dark and middle tones stay, highlights are rolled off, none turns over.
    const line = (frame: SeenFrame) =>
      Array.from({ length: WIDTH }, (_, x) => frame.pixels[(30 * WIDTH + x) * 3]!);
    const [seen, expected] = [line(mapped!), line(ordinary!)];
    for (let x = 0; x < WIDTH; x += 1) {
      if (x < 60) expect(Math.abs(seen[x]! - expected[x]!)).toBeLessThan(16);
      if (x > 0) expect(seen[x]!).toBeGreaterThanOrEqual(seen[x - 1]! - 3);
    }
    expect(seen[WIDTH - 1]).toBeGreaterThan(200);
  });
});
