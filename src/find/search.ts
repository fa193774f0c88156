/** The search itself: every place where ductwork enters a barrier, and every place where two ends face across one. */
import { type Box, boxesMeet, boxOf, grown } from '../geometry/box.js';
import { boxIndex } from '../geometry/box-index.js';
import type { Barrier, Federation, OtherService } from '../model.js';
import { CONTACT, FACING_REACH } from '../tolerances.js';
import { type FacingPair, findFacingEnds } from './facing-ends.js';
import { GrossBody } from './gross-body.js';
import { groupIntrusions, withoutRepeats } from './groups.js';
import { intrusionsOf } from './intrusions.js';
import { type LeafStack, readLeaf, stackLeaves } from './leaves.js';
import { type Piece, readPieces } from './pieces.js';
import { PortLinks } from './port-links.js';

export interface PlacedService {
  readonly element: OtherService;
  readonly bodies: OtherService['bodies'];
  readonly box: Box;
}

export interface Found {
  readonly stacks: readonly LeafStack[];
  readonly facing: readonly { readonly gross: GrossBody; readonly pair: FacingPair }[];
  readonly grossOf: ReadonlyMap<Barrier, GrossBody>;
  readonly pieces: readonly Piece[];
  readonly servicesIn: (box: Box) => PlacedService[];
  readonly piecesIn: (box: Box) => Piece[];
}

export function searchFederation(federation: Federation, onProgress?: (done: number) => void): Found {
  const pieces = readPieces(federation.airElements);
  const services = federation.otherServices.map((element) => ({
    element,
    bodies: element.bodies,
    box: boxOf(element.bodies),
  }));
  const piecesIn = boxIndex(pieces);
  const links = new PortLinks(federation.airElements);
  const grossOf = new Map(federation.barriers.map((barrier) => [barrier, new GrossBody(barrier)]));
  const leaves = [];
  const facing = [];
  let done = 0;
  for (const [barrier, gross] of grossOf) {
    const box = boxOf(barrier.bodies);
    const nearby = piecesIn(grown(box, FACING_REACH));
    const touching = nearby.filter((piece) => boxesMeet(piece.box, grown(box, -CONTACT / 2)));
    const intrusions = touching.flatMap((piece) => intrusionsOf(piece, gross, box));
    leaves.push(...withoutRepeats(groupIntrusions(gross, intrusions, links)).map(readLeaf));
    const taken = new Set(intrusions.map((i) => i.piece));
    if (nearby.length > 1)
      facing.push(...findFacingEnds(gross, nearby, (piece) => taken.has(piece)).map((pair) => ({ gross, pair })));
    onProgress?.(++done / grossOf.size);
  }
  return { stacks: stackLeaves(leaves), facing, grossOf, pieces, servicesIn: boxIndex(services), piecesIn };
}
