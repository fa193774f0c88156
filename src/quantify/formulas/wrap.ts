/** Blanket and board laid round a duct, layer on layer. Lengths in mm. */
import { type Across, grownAcross, perimeter } from '../../supports/masses.js';
import { roundedUp } from './counting.js';

/** U_k = U(a + 2k·t, b + 2k·t): round the outside of layer k, corners square; π(d + 2k·t) of a circle. Arithmetic. */
export const roundLayer = (duct: Across, layer: number, thickness: number): number =>
  perimeter(grownAcross(duct, layer * thickness));

/** What a document adds to the length of a piece. */
export interface Allowances {
  readonly pieceAllowance: number;
  readonly cornerAllowance?: number | undefined;
}

/** l = U + max(p, 4c): U round the outside, p for the piece, c for each corner; a round duct has none. Arithmetic. */
export function cutLength(
  around: number,
  { pieceAllowance: p, cornerAllowance: c = 0 }: Allowances,
  corners = 4,
): number {
  return around + Math.max(p, corners * c);
}

/** n = ⌈(L − o) / (w − o)⌉ strips of width w that lap o on each other over a length L; one covers what is no longer than it. */
export function stripsAlong(length: number, width: number, overlap: number): number {
  if (!(width > overlap)) throw new RangeError(`Strips ${width} wide cannot lap ${overlap}.`);
  return length <= 0 ? 0 : Math.max(1, roundedUp((length - overlap) / (width - overlap)));
}

/**
 * U_k = a + 2b + 4k·t round three sides of a rectangle: a the side away from what the duct lies against, b those beside it;
 * layer k ends at it. With t = 0 it is the bare a + 2b. Arithmetic.
 */
export const roundThreeSides = (
  { a, b }: { readonly a: number; readonly b: number },
  layer: number,
  thickness: number,
): number => a + 2 * b + 4 * layer * thickness;

/** Equal strips. */
export interface Strips {
  readonly pieces: number;
  readonly width: number;
}

/** Strips over a length, the last one only as wide as is left for it: L − (n − 1)(w − o). Arithmetic. */
export function stripsCut(length: number, width: number, overlap: number): Strips[] {
  const n = stripsAlong(length, width, overlap);
  if (n === 0) return [];
  const last = length - (n - 1) * (width - overlap);
  if (n === 1 || Math.abs(last - width) < 1e-6) return [{ pieces: n, width: n === 1 ? last : width }];
  return [
    { pieces: n - 1, width },
    { pieces: 1, width: last },
  ];
}

/**
 * m = ⌈(l − o) / (R − o)⌉ equal pieces of (l + (m − 1)·o) / m that make one strip of length l from rolls of length R. Arithmetic.
 */
export function piecesOfStrip(length: number, roll: number, overlap: number): { pieces: number; length: number } {
  const pieces = stripsAlong(length, roll, overlap);
  return { pieces, length: pieces === 0 ? 0 : (length + (pieces - 1) * overlap) / pieces };
}

export interface RollSize {
  readonly length: number;
  readonly width: number;
}

/** Of several rolls the one of which strips over a length take least, n·w·(l + (m − 1)·o); of equals the wider, then the longer. */
export function bestRoll<R extends RollSize>(
  rolls: readonly R[],
  length: number,
  strip: number,
  overlap: number,
): R | undefined {
  const taken = ({ length: roll, width }: R): number => {
    const cut = piecesOfStrip(strip, roll, overlap);
    return stripsAlong(length, width, overlap) * width * cut.pieces * cut.length;
  };
  return rolls
    .filter((roll) => roll.width > overlap && roll.length > overlap)
    .map((roll) => ({ roll, area: taken(roll) }))
    .sort((p, q) => p.area - q.area || q.roll.width - p.roll.width || q.roll.length - p.roll.length)[0]?.roll;
}

/** A_k = A·U_k / U · (1 + f): the developed surface A grown as what goes round it grows, and an allowance f. Exact of bends. */
export const developedLayer = (surface: number, around: number, layerAround: number, allowance: number): number =>
  ((surface * layerAround) / around) * (1 + allowance);

/** n = ⌈A / (w·R)⌉ equal lengths of a roll or sheet, as wide as it is, that have the area A: each A / (n·w) long. Arithmetic. */
export function lengthsOfArea(area: number, { length, width }: RollSize): { pieces: number; length: number } {
  const pieces = Math.max(0, roundedUp(area / (width * length)));
  return { pieces, length: pieces === 0 ? 0 : area / (pieces * width) };
}
