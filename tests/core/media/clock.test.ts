import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { captureRateOf, paceOf, slowMotionFactor, slowMotionIsDoubtful } from '../../../core/media/clock.js';
import { recordedAt } from '../../../core/media/recordedAt.js';

const evenly = (count: number, rate: number, start = 0) =>
  Array.from({ length: count }, (_, index) => start + index / rate);

describe('the pace of a film', () => {
  // REFERENCES 1.10: 30 frames at 1/30 s, then 30 at 1/20 s; the average rate is 24.6 frames a second, not 30.
  test('a rate that changes is variable', () => {
    const times = [...evenly(30, 30), ...evenly(30, 20, 1)];
    expect(paceOf(times)).toEqual({ frameRate: expect.closeTo(59 / 2.45, 6), variableFrameRate: true });
  });

  test('a dropped or doubled frame and rounding to a millisecond are no change of rate', () => {
    const times = evenly(300, 29.97).filter((_, index) => index !== 120);
    expect(paceOf(times)?.variableFrameRate).toBe(false);
    expect(paceOf(times.map((time) => Math.round(time * 1000) / 1000))?.variableFrameRate).toBe(false);
    expect(paceOf([...times, times[7]!])?.variableFrameRate).toBe(false);
  });

  test('intervals count as uneven from a tenth on, and one in fifty of them makes a rate vary', () => {
    const withInterval = (share: number, every: number) => {
      let clock = 0;
      return Array.from({ length: 300 }, (_, index) => {
        clock += (index % every === 1 ? share : 1) / 10;
        return clock;
      });
    };
    expect(paceOf(withInterval(1.15, 30))?.variableFrameRate).toBe(true);
    expect(paceOf(withInterval(1.08, 30))?.variableFrameRate).toBe(false);
    expect(paceOf(withInterval(1.15, 75))?.variableFrameRate).toBe(false);
  });

  test('one frame has no pace', () => {
    expect(paceOf([])).toBeNull();
    expect(paceOf([3, 3])).toBeNull();
  });

  test('the order of packets in the file and a late start do not matter', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 3, max: 200 }),
        fc.double({ min: 1, max: 240, noNaN: true }),
        (count, rate) => {
          const plain = paceOf(evenly(count, rate))!;
          const moved = paceOf(evenly(count, rate, 12.5).reverse())!;
          expect(plain.frameRate / rate).toBeCloseTo(1, 6);
          expect(moved.frameRate / rate).toBeCloseTo(1, 6);
          expect(moved.variableFrameRate).toBe(plain.variableFrameRate);
        },
      ),
    );
  });
});

describe('slow motion', () => {
  // MediaFormat.KEY_CAPTURE_RATE: 240 captured to play at 30 is an eighth of the speed; a Xiaomi clip stored in real
  // time measured 239.981 frames a second with the tag at 240 (REFERENCES 1.10).
  test.each([
    [240, 30, false, 8],
    [240, 239.981, false, 1],
    [120, 29.97, true, 120 / 29.97],
    [null, 30, false, 1],
    [15, 30, false, 1],
    // A camera that slowed itself in low light: no slow motion.
    [30, 24, true, 1],
    [60, 48, true, 1],
    [0, 30, false, 1],
    // Rates printed or averaged differently; the least slow motion of a steady film; the same of a varying one.
    [30, 29.97, false, 1],
    [31.4, 30, false, 1],
    [31.6, 30, false, 31.6 / 30],
    [44.9, 30, true, 1],
    [45.1, 30, true, 45.1 / 30],
    // A time lapse is stored too quickly, which the factor does not undo.
    [2, 30, true, 1],
    [Number.NaN, 30, false, 1],
    [240, 0, false, 1],
    // The fastest phones, and what is no camera's rate.
    [7680, 30, false, 256],
    [1e30, 30, false, 1],
    [240, 0.001, false, 1],
  ])('captured at %s, stored at %s (variable: %s): %s', (capture, frameRate, variableFrameRate, factor) => {
    expect(slowMotionFactor(capture, { frameRate, variableFrameRate })).toBeCloseTo(factor, 6);
  });

  test('a varying rate somewhat under the captured one is doubted, nothing else is', () => {
    const doubtful = (capture: number | null, frameRate: number, variableFrameRate: boolean) =>
      slowMotionIsDoubtful(capture, { frameRate, variableFrameRate });
    expect(doubtful(30, 24, true)).toBe(true);
    for (const [capture, rate, variable] of [
      [30, 24, false],
      [30, 29.97, true],
      [240, 30, true],
      [null, 24, true],
      [15, 30, true],
    ] as const) {
      expect(doubtful(capture, rate, variable)).toBe(false);
    }
  });

  test('the tag is read as a big-endian 32-bit float or as text', () => {
    // 240 as IEEE 754 single: 43 70 00 00.
    expect(captureRateOf(Uint8Array.of(0x43, 0x70, 0, 0))).toBe(240);
    expect(captureRateOf('240.000000')).toBe(240);
    for (const value of ['', 'fast', Number.NaN, -30, null, Uint8Array.of(1, 2)]) {
      expect(captureRateOf(value)).toBeNull();
    }
  });
});

describe('the time of recording', () => {
  test.each([
    [{ 'com.apple.quicktime.creationdate': '2026-03-02T19:04:11+0100' }, '2026-03-02T19:04:11+01:00'],
    [{ creation_time: '2026-03-02T18:04:11.000000Z' }, '2026-03-02T18:04:11Z'],
    [{ creation_time: '2026-03-02 18:04:11' }, null],
    // Clocks that were never set begin at the first moment of the Macintosh, of Unix, of FAT.
    [{ creation_time: '1904-01-01T00:00:00.000000Z' }, null],
    [{ creation_time: '1970-01-01T00:00:05.000000Z' }, null],
    [{ creation_time: '1980-01-01T00:00:00.000000Z' }, null],
    [{ creation_time: '1999-07-01T10:00:00.000000Z' }, '1999-07-01T10:00:00Z'],
    [{ creation_time: '2026-13-45T18:04:11Z' }, null],
    [{}, null],
  ])('%j', (tags, expected) => {
    expect(recordedAt(new Map(Object.entries(tags)))).toBe(expected);
  });
});
