/** One crossing with its barrier and what was measured on it, other services in its opening included. */
import { type Box, boxesMeet, boxOf, grown } from '../geometry/box.js';
import type { BarrierFacts } from '../model.js';
import { crossedBarrier, type Heads } from './barrier-summary.js';
import type { GrossBody } from './gross-body.js';
import { type LeafStack, piecesOf } from './leaves.js';
import { type Measured, measureCrossing } from './measure.js';
import type { Found, PlacedService } from './search.js';

/** A crossing of ductwork as another crossing sees it in its own opening. */
export interface CrossingService {
  readonly stack: LeafStack;
  readonly bodies: PlacedService['bodies'];
}
export type Service = PlacedService | CrossingService;

export interface Crossed {
  readonly stack: LeafStack;
  readonly barrier: BarrierFacts;
  readonly measured: Measured<Service>;
}

/** Openings are looked through for other services this far round a crossing when they have no box of their own. */
const HOLE_REACH = 3000;

export function crossedAt(
  stack: LeafStack,
  found: Found,
  byBarrier: ReadonlyMap<GrossBody, readonly LeafStack[]>,
  heads: Heads,
): Crossed {
  const reach = openingReach(stack);
  const own = new Set(piecesOf(stack));
  const beside = new Set(stack.leaves.flatMap((leaf) => byBarrier.get(leaf.group.gross) ?? []));
  const others = [...beside]
    .filter((other) => other !== stack)
    // A duct that passes the barrier again is not in its own way.
    .map((other) => ({ stack: other, pieces: piecesOf(other).filter((piece) => !own.has(piece)) }))
    .filter(({ pieces }) => pieces.some((piece) => boxesMeet(piece.box, reach)))
    .map((other): CrossingService => ({ stack: other.stack, bodies: other.pieces.flatMap((piece) => piece.bodies) }));
  const services: Service[] = [...others, ...found.servicesIn(reach)];
  return { stack, barrier: crossedBarrier(stack, heads), measured: measureCrossing(stack, services) };
}

function openingReach({ leaves }: LeafStack): Box {
  const elements = leaves.flatMap((leaf) => leaf.opening?.element?.bodies ?? []);
  if (elements.length > 0) return boxOf(elements);
  return grown(boxOf(leaves[0].group.intrusions.flatMap((i) => i.piece.bodies)), HOLE_REACH);
}
