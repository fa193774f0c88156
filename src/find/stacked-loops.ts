/** Loops one over the other: which of them are open to each other, and what they end at below and above. */
import { fileUnder } from '../collect.js';
import { type Outlines, shared, united, without } from '../geometry/areas.js';
import { type Box, boxOf } from '../geometry/box.js';
import { boxIndex } from '../geometry/box-index.js';
import { type Box2, bounds, boxesNear } from '../geometry/polygon.js';
import type { Federation } from '../model.js';
import { CONTACT, LEVEL_STEP, OPEN_VOID } from '../tolerances.js';
import { broad, type End, endOf, isWider } from './ends.js';
import { floorsBetween, type Services } from './floors.js';
import type { Level } from './levels.js';
import type { Loop } from './loops.js';

export interface StoreyLoop extends Loop {
  /** Upwards, from 0. */
  readonly index: number;
  readonly level: Level;
  readonly outlines: Outlines;
}

export interface Stack {
  /** Those that are open to each other are one, upwards; the others are one each. */
  readonly joined: (loops: readonly StoreyLoop[]) => StoreyLoop[][];
  /** Of loops that are one compartment; not where one of them goes on in another. */
  readonly ends: (loops: readonly StoreyLoop[]) => { readonly floor: End[]; readonly ceiling: End[] };
}

export function stackOf(federation: Federation, levels: readonly Level[], services: Services): Stack {
  const between = floorsBetween(federation.barriers, levels);
  const walls = levels.map(({ rated, others }) => ({
    rated: rated.map(({ outlines }) => ({ outlines, bounds: bounds(outlines) })),
    others: others.map(({ outlines }) => ({ outlines, bounds: bounds(outlines) })),
  }));
  const standsUnder = structureUnder(federation);

  /** Without its own walls and those on the storey beside it, between which floors may be drawn. */
  const clear = ({ index, outlines }: StoreyLoop, step: 1 | -1): Outlines => {
    const area = bounds(outlines);
    const next = walls[index + step];
    const all = [...walls[index]!.others, ...(next ? [...next.rated, ...next.others] : [])];
    return without(outlines, united(...all.filter((wall) => boxesNear(wall.bounds, area, 0)).map((w) => w.outlines)));
  };
  const alone = { below: new Map<StoreyLoop, End[]>(), above: new Map<StoreyLoop, End[]>() };
  const endsAt = (loops: readonly StoreyLoop[], step: 1 | -1): End[] =>
    loops.flatMap((loop) => {
      const beside = loops.filter(({ index }) => index === loop.index + step);
      if (beside.length > 0) return endsBeside(loop, step, beside);
      const known = step > 0 ? alone.above : alone.below;
      const ends = known.get(loop) ?? endsBeside(loop, step, []);
      known.set(loop, ends);
      return ends;
    });
  const endsBeside = (loop: StoreyLoop, step: 1 | -1, beside: readonly StoreyLoop[]): End[] => {
    const region = broad(without(clear(loop, step), united(...beside.map(({ outlines }) => outlines))));
    return region.length > 0 ? [endOf(region, floorsAt(loop, step), services)].map(onGround(region, step)) : [];
  };
  const floorsAt = ({ index }: StoreyLoop, step: 1 | -1) => between[step > 0 ? index + 1 : index]!;
  const onGround =
    (region: Outlines, step: 1 | -1) =>
    (end: End): End =>
      step < 0 && end.barriers.length > 0 && !standsUnder(region, end) ? { ...end, state: 'ground', open: [] } : end;

  const joined = (loops: readonly StoreyLoop[]) => {
    const over = new Map<number, { readonly loop: StoreyLoop; readonly bounds: Box2 }[]>();
    for (const loop of loops) fileUnder(over, loop.index, { loop, bounds: bounds(loop.outlines) });
    const links = loops.flatMap((lower) => {
      const area = bounds(lower.outlines);
      const near = (over.get(lower.index + 1) ?? []).filter((one) => boxesNear(one.bounds, area, 0));
      if (near.length === 0) return [];
      const [end] = endsAt([lower], 1);
      return near.filter(({ loop }) => end && isOpenTo(end, loop)).map(({ loop }) => [lower, loop] as const);
    });
    return groupsOf(loops, links);
  };
  return { joined, ends: (loops) => ({ floor: endsAt(loops, -1), ceiling: endsAt(loops, 1) }) };
}

/** Through what has no floor. Where no floors are modelled nothing is known to be open. */
function isOpenTo({ open }: End, upper: StoreyLoop): boolean {
  const common = shared(open, upper.outlines);
  return common.length > 0 && isWider(common, OPEN_VOID);
}

function groupsOf(loops: readonly StoreyLoop[], links: readonly (readonly [StoreyLoop, StoreyLoop])[]): StoreyLoop[][] {
  const groups = new Map(loops.map((loop) => [loop, [loop]]));
  for (const [a, b] of links) {
    const [into, from] = [groups.get(a)!, groups.get(b)!];
    if (into === from) continue;
    into.push(...from);
    for (const loop of from) groups.set(loop, into);
  }
  return [...new Set(groups.values())].map((group) => group.sort((a, b) => a.index - b.index));
}

/** Whether anything stands under a floor that goes deeper than footings do. */
function structureUnder({ barriers, columns, spaces = [] }: Federation): (region: Outlines, end: End) => boolean {
  const placed = [...barriers, ...columns, ...spaces]
    .filter(({ bodies }) => bodies.length > 0)
    .map(({ bodies }): { readonly box: Box } => ({ box: boxOf(bodies) }));
  const standingIn = boxIndex(placed);
  return (region, { barriers: floors }) => {
    const bottom = Math.min(...floors.map(({ bodies }) => boxOf(bodies).min[2]));
    const { min, max } = bounds(region);
    return (
      standingIn({
        min: [min[0] + CONTACT, min[1] + CONTACT, -Infinity],
        max: [max[0] - CONTACT, max[1] - CONTACT, bottom - LEVEL_STEP],
      }).length > 0
    );
  };
}
