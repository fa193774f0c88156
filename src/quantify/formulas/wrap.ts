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
