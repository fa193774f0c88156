/**
 * The comparisons of the choice written out by hand on bare numbers: what they would cost if rules were no data. It
 * chooses as the program does, or the bench stops, so both do the same work.
 */
import { layersThere } from '../../src/rules/detail-facts.js';
import { largestOf } from '../../src/rules/notes-holes.js';
import type { TestedSystem } from '../../src/rules/tested-system.js';
import { CONSTRUCTIONS, FIRES, KINDS, MATERIALS, type Place, PROTECTIONS } from './places.js';

interface Plain {
  readonly protection: number;
  readonly isSelf: boolean;
  /** 0 where the shape was not tested. */
  readonly long: number;
  readonly short: number;
  readonly diameter: number;
  readonly materials: readonly boolean[];
  readonly kinds: readonly boolean[];
  /** By kind and construction; infinite where it was not tested. */
  readonly thickness: Float64Array;
  readonly fires: readonly boolean[];
  readonly skew: number;
  /** By layers; NaN where they were not tested. */
  readonly integrity: Float64Array;
  readonly insulation: Float64Array;
  readonly hasFixings: boolean;
}

export function plainOf({ protection, scope, fixings }: TestedSystem): Plain {
  const largest = largestOf(scope.duct);
  const section = largest.find(({ shape }) => shape === 'rectangular');
  const sides = [section?.width ?? 0, section?.height ?? 0].sort((a, b) => a - b);
  const rated = (criterion: 'integrity' | 'insulation') =>
    Float64Array.from(
      { length: 4 },
      (_, layers) => scope.ratings.find((row) => row.layers === layers)?.[criterion] ?? NaN,
    );
  return {
    protection: PROTECTIONS.indexOf(protection),
    isSelf: layersThere(protection, {}) === 1,
    long: sides[1]!,
    short: sides[0]!,
    diameter: largest.find(({ shape }) => shape === 'circular')?.diameter ?? 0,
    materials: MATERIALS.map((one) => scope.duct.materials.includes(one)),
    kinds: KINDS.map((kind) => scope.orientation.includes(kind === 'wall' ? 'walls' : 'floors')),
    thickness: Float64Array.from(
      KINDS.flatMap((kind) =>
        CONSTRUCTIONS.map((construction) =>
          Math.min(
            ...scope.barriers
              .filter((row) => row.construction === construction && (!row.kinds || row.kinds.includes(kind)))
              .map((row) => row.thicknessAtLeast),
          ),
        ),
      ),
    ),
    fires: FIRES.map((fire) => {
      const tested: readonly string[] = scope.fire ?? [];
      return fire === 'insideAndOutside' ? tested.length === 2 : tested.includes(fire);
    }),
    skew: scope.skewAtMost,
    integrity: rated('integrity'),
    insulation: rated('insulation'),
    hasFixings: fixings.length > 0,
  };
}

/** Where the one stands that misses least; of these the one of which least is unknown. */
export function choosePlainly(place: Place, systems: readonly Plain[]): number {
  let [best, bestMisses, bestUnknown] = [-1, Infinity, Infinity];
  for (const [i, system] of systems.entries()) {
    const [misses, unknown] = missesOf(place, system);
    if (misses < bestMisses || (misses === bestMisses && unknown < bestUnknown))
      [best, bestMisses, bestUnknown] = [i, misses, unknown];
  }
  return best;
}

function missesOf(place: Place, system: Plain): readonly [misses: number, unknown: number] {
  let misses = 0;
  let unknown = system.hasFixings ? 1 : 0;
  if (place.protection !== system.protection) misses += 1;
  if (place.isCircular) {
    if (system.diameter === 0) misses += 1;
    else if (place.width > system.diameter) misses += 1;
  } else if (system.long === 0) misses += 1;
  else {
    const isWide = place.width >= place.height;
    if (place.width > (isWide ? system.long : system.short)) misses += 1;
    if (place.height > (isWide ? system.short : system.long)) misses += 1;
  }
  if (!system.materials[place.material]) misses += 1;
  if (!system.kinds[place.kind]) misses += 1;
  const thickness = system.thickness[place.kind * CONSTRUCTIONS.length + place.construction]!;
  if (thickness === Infinity) misses += 1;
  else if (place.thickness < thickness) misses += 1;
  if (!system.fires[place.fire]) misses += 1;
  if (place.skew > system.skew) misses += 1;
  const layers = system.isSelf ? 1 : place.layers;
  const [integrity, insulation] = [system.integrity[layers]!, system.insulation[layers]!];
  if (Number.isNaN(integrity)) unknown += 2;
  else {
    if (integrity < place.integrity) misses += 1;
    if (insulation < place.insulation) misses += 1;
  }
  return [misses, unknown];
}
