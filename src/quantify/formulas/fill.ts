/** What fills the gap round a duct, and the beads that close it. Lengths in mm, areas in mm², volumes in litres. */

const MM3_TO_L = 1e-6;

/** V = A·d: A the opening less all that passes it, d the depth that is filled. Arithmetic. */
export const fillVolume = (freeArea: number, depth: number): number => Math.max(0, freeArea) * depth * MM3_TO_L;

/** Depth left for packing: D − n·d, D the thickness of the barrier, n faces with a seal of depth d in the gap. Arithmetic. */
export const packingDepth = (thickness: number, sealedFaces: number, sealDepth: number): number =>
  Math.max(0, thickness - sealedFaces * sealDepth);

/** V = L·b·d of a bead b wide and d deep. Arithmetic. */
export const beadVolume = (length: number, width: number, depth: number): number => length * width * depth * MM3_TO_L;

/** V = L·a²/2 of a fillet with legs a. Arithmetic. */
export const filletVolume = (length: number, leg: number): number => ((length * leg * leg) / 2) * MM3_TO_L;
