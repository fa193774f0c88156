/** The facts of barriers as penetrations and the report show them: thickness, build-up, how a wall meets what is above. */
import { resistsFire } from '../fire-rating/index.js';
import { boxOf } from '../geometry/box.js';
import { dot, sub } from '../geometry/vector.js';
import type { Barrier, BarrierFacts, BuildUpPart, Federation, HeadFacts, Vec3 } from '../model.js';
import { CONTACT } from '../tolerances.js';
import { barrierFacts, world } from './describe.js';
import type { GrossBody } from './gross-body.js';
import type { LeafStack } from './leaves.js';
import { refOf } from './pieces.js';
import { roundLength } from './rounding.js';
import { boxIndex, type Found } from './search.js';
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
    leafThickness: main!.plate.thickness,
    buildUp: buildUpOf(stack),
    head: heads.get(main!.gross.barrier)?.facts,
  });
}

/** Leaves, linings and the cavities between and in them, along the normal. */
function buildUpOf({ leaves, plate }: LeafStack): BuildUpPart[] {
  const solids = leaves
    .flatMap(({ group }, i) => {
      const shift = dot(sub(group.plate.frame.origin, plate.frame.origin), plate.frame.z);
      const half = group.plate.thickness / 2;
      return (group.plate.solid ?? [[-half, half]]).map(([from, to]) => ({
        kind: i === 0 ? ('leaf' as const) : ('lining' as const),
        barrier: group.gross.barrier,
        from: from + shift,
        to: to + shift,
      }));
    })
    .sort((a, b) => a.from - b.from);
  return solids.flatMap(({ kind, barrier, from, to }, i): BuildUpPart[] => {
    const before = i > 0 ? from - solids[i - 1]!.to : 0;
    const cavity: BuildUpPart = { kind: 'cavity', element: null, thickness: roundLength(before) };
    const part: BuildUpPart = { kind, element: refOf(barrier), thickness: roundLength(to - from) };
    return before > CONTACT ? [cavity, part] : [part];
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
