import { gunzipSync, gzipSync } from 'node:zlib';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { decodeTrack, encodeTrack, roundTrack } from '../../../core/pose/trackFile.js';
import { anyTrack } from './inventedTrack.js';

test('what was rounded for the file comes back exactly', () => {
  fc.assert(
    fc.property(anyTrack, (track) => {
      const kept = roundTrack(track);
      expect(decodeTrack(encodeTrack(kept))).toEqual(kept);
    }),
  );
});

test('rounding moves no keypoint by more than 1/128 pixel and no score by more than 1/8192', () => {
  fc.assert(
    fc.property(anyTrack, (track) => {
      const kept = roundTrack(track);
      track.x.forEach((value, at) => {
        expect(Math.abs(kept.x[at]! - value)).toBeLessThanOrEqual(1 / 128);
      });
      track.score.forEach((value, at) => {
        expect(Math.abs(kept.score[at]! - value)).toBeLessThanOrEqual(1 / 8192);
      });
    }),
  );
});

test('a damaged, shortened or foreign file is refused', () => {
  const track = fc.sample(anyTrack, { numRuns: 1, seed: 7 })[0]!;
  const file = encodeTrack(track);
  expect(() => decodeTrack(file.subarray(0, file.length - 5))).toThrow();
  const flipped = Buffer.from(file);
  flipped[Math.floor(file.length / 2)]! ^= 0x20;
  expect(() => decodeTrack(flipped)).toThrow();
  const longer = gzipSync(Buffer.concat([gunzipSync(file), Buffer.alloc(4)]));
  expect(() => decodeTrack(longer)).toThrow(/length/);
  expect(() => decodeTrack(gzipSync(Buffer.from('{"format":"something else"}')))).toThrow();
});
