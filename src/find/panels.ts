/** Access panels as bodies, whichever entities they are modelled as. */
import { type Box, boxOf } from '../geometry/box.js';
import type { AccessCover, AirElement, Body, Federation } from '../model.js';
import type { Piece } from './pieces.js';

export interface Panel {
  readonly element: AirElement | AccessCover;
  readonly bodies: readonly Body[];
  readonly box: Box;
}

export const panelsOf = (pieces: readonly Piece[], { accessCovers = [] }: Federation): Panel[] => [
  ...pieces.filter(({ element }) => element.isAccessPanel),
  ...accessCovers.map((element) => ({ element, bodies: element.bodies, box: boxOf(element.bodies) })),
];
