import fc from 'fast-check';
import { inverse, Matrix, solve } from 'ml-matrix';
import { describe, expect, test } from 'vitest';
import {
  addAt,
  type BandMatrix,
  factorize,
  inverseInBand,
  solveWith,
  timesVector,
  zeroBandMatrix,
} from '../../../core/motion/bandMatrix.js';

// Source of the expected values: ml-matrix, which works on the whole matrix and knows nothing of bands.

/** A matrix whose diagonal outweighs the rest of its rows, which makes it positive definite. */
function bandMatrix(size: number, bandwidth: number, values: readonly number[]): BandMatrix {
  const matrix = zeroBandMatrix(size, bandwidth);
  let next = 0;
  for (let i = 0; i < size; i++) {
    for (let j = i + 1; j <= Math.min(size - 1, i + bandwidth); j++) {
      const value = values[next++ % values.length]!;
      addAt(matrix, i, j, value);
      addAt(matrix, i, i, Math.abs(value));
      addAt(matrix, j, j, Math.abs(value));
    }
    addAt(matrix, i, i, 1);
  }
  return matrix;
}

function dense({ size, bandwidth, entries }: BandMatrix): Matrix {
  const whole = Matrix.zeros(size, size);
  for (let d = 0; d <= bandwidth; d++) {
    for (let i = 0; i + d < size; i++) {
      whole.set(i, i + d, entries[d * size + i]!);
      whole.set(i + d, i, entries[d * size + i]!);
    }
  }
  return whole;
}

const matrices = fc
  .tuple(
    fc.integer({ min: 1, max: 12 }),
    fc.integer({ min: 0, max: 4 }),
    fc.array(fc.double({ min: -3, max: 3, noNaN: true }), { minLength: 1, maxLength: 12 }),
  )
  .map(([size, bandwidth, values]) => bandMatrix(size, bandwidth, values));

describe('matrices of a band', () => {
  test('multiply and solve as the whole matrix does', () => {
    fc.assert(
      fc.property(matrices, (matrix) => {
        const vector = Float64Array.from({ length: matrix.size }, (_, i) => Math.sin(i + 1));
        const column = Matrix.columnVector(Array.from(vector));
        const product = dense(matrix).mmul(column).to1DArray();
        const solution = solve(dense(matrix), column).to1DArray();
        timesVector(matrix, vector).forEach((value, i) => void expect(value).toBeCloseTo(product[i]!, 9));
        solveWith(factorize(matrix), vector).forEach((value, i) => {
          expect(value).toBeCloseTo(solution[i]!, 9);
        });
      }),
    );
  });

  test('have the inverse of the whole matrix inside the band', () => {
    fc.assert(
      fc.property(matrices, (matrix) => {
        const whole = inverse(dense(matrix));
        const inside = inverseInBand(factorize(matrix));
        for (let d = 0; d <= matrix.bandwidth; d++) {
          for (let i = 0; i + d < matrix.size; i++) {
            expect(inside.entries[d * matrix.size + i]).toBeCloseTo(whole.get(i, i + d), 9);
          }
        }
      }),
    );
  });
});
