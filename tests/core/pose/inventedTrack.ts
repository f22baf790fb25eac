import fc from 'fast-check';
import type { PoseTrack } from '../../../core/pose/track.js';

/** Any pose track of up to twelve frames, as a model could have given it. */
export const anyTrack: fc.Arbitrary<PoseTrack> = fc
  .array(fc.double({ min: 0.001, max: 2, noNaN: true }), { maxLength: 12 })
  .chain((steps) => {
    const values = steps.length * 17;
    const column = (min: number, max: number) =>
      fc
        .array(fc.float({ min, max, noNaN: true }), { minLength: values, maxLength: values })
        .map((list) => Float32Array.from(list));
    let time = 0;
    return fc.record({
      model: fc.constantFrom('movenet-thunder', 'movenet-lightning'),
      quality: fc.constantFrom('quick', 'standard', 'full'),
      width: fc.integer({ min: 16, max: 4096 }),
      height: fc.integer({ min: 16, max: 4096 }),
      framesInFilm: fc.nat(),
      seconds: fc.constant(
        Float64Array.from(steps, (step) => {
          time += step;
          return time;
        }),
      ),
      x: column(-4096, 8192),
      y: column(-4096, 8192),
      score: column(0, 1),
      people: fc.option(fc.record({ medianCount: fc.nat(6), lifterDoubtful: fc.boolean() }), { nil: null }),
    });
  });
