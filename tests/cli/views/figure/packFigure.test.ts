import { describe, expect, it } from 'vitest';
import { NOT_SEEN, POSITION_STEPS, packFigure } from '../../../../cli/views/figure/packFigure.js';
import { sampleSet } from '../page/sampleSet.js';

function words(text: string): Uint16Array {
  const bytes = Buffer.from(text, 'base64');
  return Uint16Array.from({ length: bytes.length / 2 }, (_, index) => bytes.readUInt16LE(index * 2));
}

describe('packFigure', () => {
  const { track } = sampleSet();

  it('keeps every position to half a step and every time to a millisecond', () => {
    const packed = packFigure(track, 1);
    const points = words(packed.points);
    const scale = Math.max(track.width, track.height) / (POSITION_STEPS - 1);
    let time = packed.firstSeconds;
    words(packed.times).forEach((step, frame) => {
      time += step / 1000;
      expect(Math.abs(time - track.seconds[frame]!)).toBeLessThanOrEqual(0.00051);
    });
    for (let index = 0; index < 17 * 40; index++) {
      if (track.score[index]! < 0.25) {
        expect(points[index * 2]).toBe(NOT_SEEN);
      } else {
        expect(Math.abs(points[index * 2]! * scale - track.x[index]!)).toBeLessThanOrEqual(scale * 0.51);
        expect(Math.abs(points[index * 2 + 1]! * scale - track.y[index]!)).toBeLessThanOrEqual(scale * 0.51);
      }
    }
  });

  it('gives real times for a film stored in slow motion', () => {
    const packed = packFigure(track, 4);
    const end = words(packed.times).reduce((sum, step) => sum + step, 0) / 1000;
    expect(packed.firstSeconds + end).toBeCloseTo(track.seconds.at(-1)! / 4, 1);
  });

  it('thins a long film', () => {
    expect(
      packFigure(sampleSet({ repsPerSide: 20, framesPerSecond: 60 }).track, 1).frames,
    ).toBeLessThanOrEqual(3600);
  });
});
