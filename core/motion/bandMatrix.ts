/**
 * A symmetric positive definite matrix whose entries vanish further than `bandwidth` from the diagonal.
 * Entry (i, i + d) is at `entries[d * size + i]`, for 0 ≤ d ≤ bandwidth.
 */
export interface BandMatrix {
  readonly size: number;
  readonly bandwidth: number;
  readonly entries: Float64Array;
}

export function zeroBandMatrix(size: number, bandwidth: number): BandMatrix {
  return { size, bandwidth, entries: new Float64Array(size * (bandwidth + 1)) };
}

export function copyBandMatrix(matrix: BandMatrix): BandMatrix {
  return { ...matrix, entries: matrix.entries.slice() };
}

/** Adds `amount` at (i, j) and, by symmetry, at (j, i). */
export function addAt(matrix: BandMatrix, i: number, j: number, amount: number): void {
  const low = Math.min(i, j);
  matrix.entries[Math.abs(i - j) * matrix.size + low]! += amount;
}

/** The product of the matrix with a vector. */
export function timesVector(matrix: BandMatrix, vector: Float64Array): Float64Array {
  const { size, bandwidth, entries } = matrix;
  const product = new Float64Array(size);
  for (let i = 0; i < size; i++) {
    product[i]! += entries[i]! * vector[i]!;
    for (let d = 1; d <= bandwidth && i + d < size; d++) {
      const entry = entries[d * size + i]!;
      product[i]! += entry * vector[i + d]!;
      product[i + d]! += entry * vector[i]!;
    }
  }
  return product;
}

/** A Cholesky factor L with A = L Lᵀ, in the same layout: entry (i + d, i) of L at `entries[d * size + i]`. */
export interface BandFactor {
  readonly size: number;
  readonly bandwidth: number;
  readonly entries: Float64Array;
}

/** Cholesky factorisation within the band. Non-positive pivots, which only rounding can cause, are lifted to a tiny positive number. */
export function factorize(matrix: BandMatrix): BandFactor {
  const { size, bandwidth } = matrix;
  const entries = matrix.entries.slice();
  for (let i = 0; i < size; i++) {
    const pivot = Math.sqrt(Math.max(entries[i]!, 1e-300));
    entries[i] = pivot;
    const reach = Math.min(bandwidth, size - 1 - i);
    for (let d = 1; d <= reach; d++) entries[d * size + i]! /= pivot;
    for (let d = 1; d <= reach; d++) {
      const below = entries[d * size + i]!;
      for (let e = d; e <= reach; e++) entries[(e - d) * size + i + d]! -= below * entries[e * size + i]!;
    }
  }
  return { size, bandwidth, entries };
}

/** Solves A x = b with the factor of A. */
export function solveWith(factor: BandFactor, rightHandSide: Float64Array): Float64Array {
  const { size, bandwidth, entries } = factor;
  const x = rightHandSide.slice();
  for (let i = 0; i < size; i++) {
    const value = x[i]! / entries[i]!;
    x[i] = value;
    for (let d = 1; d <= bandwidth && i + d < size; d++) x[i + d]! -= entries[d * size + i]! * value;
  }
  for (let i = size - 1; i >= 0; i--) {
    let value = x[i]!;
    for (let d = 1; d <= bandwidth && i + d < size; d++) value -= entries[d * size + i]! * x[i + d]!;
    x[i] = value / entries[i]!;
  }
  return x;
}

/**
 * The entries of A⁻¹ inside the band, from the factor of A, in the layout of `BandMatrix`.
 * Method: the recurrence of Takahashi, Fagan and Chen (1973), backwards over the columns.
 */
export function inverseInBand(factor: BandFactor): BandMatrix {
  const { size, bandwidth, entries } = factor;
  const inverse = zeroBandMatrix(size, bandwidth);
  const at = (i: number, j: number): number => inverse.entries[Math.abs(i - j) * size + Math.min(i, j)]!;
  for (let i = size - 1; i >= 0; i--) {
    const pivot = entries[i]!;
    const reach = Math.min(bandwidth, size - 1 - i);
    for (let d = reach; d >= 0; d--) {
      let sum = d === 0 ? 1 / pivot : 0;
      for (let e = 1; e <= reach; e++) sum -= entries[e * size + i]! * at(i + d, i + e);
      inverse.entries[d * size + i] = sum / pivot;
    }
  }
  return inverse;
}
