import { expect, test } from 'vitest';
import { FILM_LIMITS, refuseHugePart, refuseHugePictures } from '../../../core/media/filmLimits.js';

test.each([
  [1, 1],
  [3840, 2160],
  // 8K UHD, the largest of ITU-R BT.2020.
  [7680, 4320],
])('pictures of %i × %i are taken', (width, height) => {
  expect(() => refuseHugePictures('a.mp4', width, height)).not.toThrow();
});

test.each([
  [0, 1080],
  [16_385, 2],
  [16_384, 16_384],
])('pictures of %i × %i are refused', (width, height) => {
  expect(() => refuseHugePictures('a.mp4', width, height)).toThrow(`${width} × ${height} pixels`);
});

test('two hours at 60 frames a second are looked at in one go, no more', () => {
  const { seconds } = FILM_LIMITS;
  expect(() => refuseHugePart('a.mp4', seconds, 60)).not.toThrow();
  expect(() => refuseHugePart('a.mp4', seconds, 0)).not.toThrow();
  expect(() => refuseHugePart('a.mp4', seconds + 1, 60)).toThrow('lasts 2.0 hours');
  expect(() => refuseHugePart('a.mp4', seconds, 240)).toThrow('1728000 frames');
});
