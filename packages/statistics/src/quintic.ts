/**
 * Smooth functions as tables: one quintic polynomial a piece, of equal width, that meets value, slope and curvature of
 * the function at both ends of its piece. With h the width, the error is at most h⁶/46080 times the sixth derivative.
 */

/** Numbers that a piece takes in its table: the coefficients of x⁰ to x⁵, x from 0 to 1 across the piece. */
export const PIECE = 6;

/** A function at an end of a piece, slope and curvature by the x of the piece. */
export interface Knot {
  readonly value: number;
  readonly slope: number;
  readonly curvature: number;
}

/** Writes the piece between two knots into a table. */
export function writePiece(table: Float64Array, piece: number, left: Knot, right: Knot): void {
  const bend = left.curvature / 2;
  // What the left knot's parabola misses at the right knot: value, slope, half the curvature.
  const miss = right.value - left.value - left.slope - bend;
  const missSlope = right.slope - left.slope - 2 * bend;
  const missBend = right.curvature / 2 - bend;
  const at = piece * PIECE;
  table[at] = left.value;
  table[at + 1] = left.slope;
  table[at + 2] = bend;
  table[at + 3] = 10 * miss - 4 * missSlope + missBend;
  table[at + 4] = -15 * miss + 7 * missSlope - 2 * missBend;
  table[at + 5] = 6 * miss - 3 * missSlope + missBend;
}

/**
 * The table of a function over `pieces` pieces of equal width.
 * @param knotAt  the function at the left end of piece i; asked for 0 to `pieces`
 */
export function quinticTable(pieces: number, knotAt: (i: number) => Knot): Float64Array {
  const table = new Float64Array(pieces * PIECE);
  let left = knotAt(0);
  for (let i = 0; i < pieces; i++) {
    const right = knotAt(i + 1);
    writePiece(table, i, left, right);
    left = right;
  }
  return table;
}

/** Value of a piece at x. */
export function pieceAt(table: Float64Array, piece: number, x: number): number {
  const at = piece * PIECE;
  const square = x * x;
  // In pairs, which do not wait for each other as the terms of Horner's rule do.
  return (
    table[at]! +
    x * table[at + 1]! +
    square * (table[at + 2]! + x * table[at + 3]! + square * (table[at + 4]! + x * table[at + 5]!))
  );
}
