/** Pins, straps and tape that hold protection to a duct. Lengths in mm, surfaces in mm². */
import { countAlong, countAround, countGrid, roundedUp } from './counting.js';

/**
 * n = ⌈L / s⌉·⌈b / s⌉ on one face L long and b wide: a grid half a spacing from the edges, since the next face and the next
 * piece of duct go on with it. The grid of {@link countGrid} with e = s/2.
 */
export const pinsOnFace = (length: number, breadth: number, grid: number): number =>
  countGrid(length, breadth, grid, grid / 2);

/** n = ⌈L / s⌉ · max(3, ⌈U / s⌉) on a round duct: rings half a spacing from its ends. */
export const pinsOnRound = (length: number, around: number, grid: number): number =>
  countAlong(length, grid, grid / 2) * countAround(around, grid);

/** n = ⌈A / s²⌉ on a developed surface: one for each square of the grid. */
export const pinsOnSurface = (surface: number, grid: number): number =>
  surface <= 0 ? 0 : roundedUp(surface / (grid * grid));

/**
 * n = ⌈(L − Σe) / s⌉ + 1 straps along a duct: e from the face of each barrier that it ends at, half a spacing from each other
 * end, where the next piece goes on.
 */
export const strapsAlong = (length: number, spacing: number, clear: number, barrierEnds: number): number =>
  countAlong(length, spacing, (barrierEnds * clear + (2 - barrierEnds) * (spacing / 2)) / 2);

/** l = U + o: round the outermost layer, and lapped o on itself. How far it presses the blanket in is left out. */
export const strapLength = (around: number, overlap: number): number => around + overlap;

/** L_t = j·U + L: over j joints round a layer, and along the seam that closes its strips. */
export const tapeLength = (joints: number, around: number, length: number): number => joints * around + length;
