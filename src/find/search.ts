/** The search itself: every place where ductwork enters a barrier, and every place where two ends face across one. */
import Flatbush from 'flatbush';
import { type Box, boxesMeet, boxOf, grown } from '../geometry/box.js';
import type { Barrier, Federation, OtherService } from '../model.js';
import { CONTACT, FACING_REACH } from '../tolerances.js';
import { type FacingPair, findFacingEnds } from './facing-ends.js';
import { groupIntrusions, withoutRepeats } from './groups.js';
import { intrusionsOf } from './intrusions.js';
import { type LeafStack, readLeaf, stackLeaves } from './leaves.js';
import { type Piece, readPieces } from './pieces.js';
import { GrossBody } from './plates.js';
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
  return { stacks: stackLeaves(leaves), facing, grossOf, pieces, servicesIn: boxIndex(services) };
}

/** Static index on plan; heights are tested one by one. Answers come in the order of the list. */
export function boxIndex<T extends { readonly box: Box }>(items: readonly T[]): (box: Box) => T[] {
  if (items.length === 0) return () => [];
  const index = new Flatbush(items.length);
  for (const { box } of items) index.add(box.min[0], box.min[1], box.max[0], box.max[1]);
  index.finish();
  return (box) =>
    index
      .search(box.min[0], box.min[1], box.max[0], box.max[1])
      .sort((a, b) => a - b)
      .map((i) => items[i]!)
      .filter((item) => boxesMeet(item.box, box));
}
