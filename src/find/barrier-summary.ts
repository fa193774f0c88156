/** The facts of barriers as penetrations and the report show them: thickness, build-up, how a wall meets what is above. */
import { refOf } from '../element-refs.js';
import { resistsFire } from '../fire-rating/index.js';
import { boxOf } from '../geometry/box.js';
import { boxIndex } from '../geometry/box-index.js';
import type { Barrier, BarrierFacts, Federation, HeadFacts, Vec3 } from '../model.js';
import { buildUpOf } from './build-up.js';
import { barrierFacts, world } from './describe.js';
import type { GrossBody } from './gross-body.js';
import type { LeafStack } from './leaves.js';
import { roundLength } from './rounding.js';
import type { Found } from './search.js';
import { wallHead } from './wall-heads.js';

/** Structure further above a wall than this is that of another storey. */
const STOREY_REACH = 6000;

export interface MeasuredHead {
  readonly facts: HeadFacts;
  /** Height of the gap over a point in the wall, inner coordinates; undefined where nothing stands above. */
  readonly gapOver: (p: Vec3) => number | undefined;
}
export type Heads = ReadonlyMap<Barrier, MeasuredHead>;

/** How every rated wall meets the structure above; worked out once for each. */
export function headsOf(found: Found, federation: Federation): Heads {
  const placed = federation.barriers.map((barrier) => ({ barrier, box: boxOf(barrier.bodies) }));
  const barriersIn = boxIndex(placed);
  const heads = new Map<Barrier, MeasuredHead>();
  for (const { barrier, box } of placed) {
    if (barrier.kind !== 'wall' || !isRated(barrier)) continue;
    const over = { min: box.min, max: [box.max[0], box.max[1], box.max[2] + STOREY_REACH] as const };
    const above = barriersIn(over).map((one) => one.barrier);
    const services = [
      ...found.piecesIn(over).map(({ element, bodies }) => ({ ...refOf(element), bodies })),
      ...found.servicesIn(over).map(({ element, bodies }) => ({ ...refOf(element), bodies })),
    ];
    const head = wallHead(found.grossOf.get(barrier)!, above, services);
    if (!head) continue;
    const facts = {
      gap: head.gap === undefined ? null : roundLength(head.gap),
      length: roundLength(head.length),
      at: head.at ? world(federation, head.at) : null,
      passing: head.passing,
      extendToStructure: barrier.extendToStructure ?? null,
    };
    heads.set(barrier, { facts, gapOver: head.gapOver });
  }
  return heads;
}

export const isRated = ({ rating }: Barrier): boolean => resistsFire(rating) === true;

/** The barrier as one crossing passes it, all leaves included. */
export function crossedBarrier(stack: LeafStack, heads: Heads): BarrierFacts {
  const [main, ...others] = stack.leaves.map((leaf) => leaf.group);
  return barrierFacts(main!.gross.barrier, stack.plate.thickness, {
    leaves: others.map(({ gross }) => gross.barrier),
    drawn: main!.plate.thickness,
    built: buildUpOf(stack),
    head: heads.get(main!.gross.barrier)?.facts,
  });
}

/** Every barrier read; where leaves make one barrier, it stands under the leaf that names it. */
export function allBarriers(
  crossed: readonly { readonly stack: LeafStack; readonly barrier: BarrierFacts }[],
  grossOf: ReadonlyMap<Barrier, GrossBody>,
  heads: Heads,
): BarrierFacts[] {
  const named = new Map<Barrier, BarrierFacts>();
  for (const { stack, barrier } of crossed) {
    const { barrier: element } = stack.leaves[0].group.gross;
    if (barrier.leaves.length >= (named.get(element)?.leaves.length ?? 0)) named.set(element, barrier);
  }
  return [...grossOf].map(
    ([barrier, gross]) =>
      named.get(barrier) ?? barrierFacts(barrier, gross.nominalThickness(), { head: heads.get(barrier)?.facts }),
  );
}
