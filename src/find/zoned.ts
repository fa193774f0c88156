/** Where the compartments lie that the models state: their own solids on plan, else those of their spaces. */
import { closedOver, type Outlines, type Patch, patchesOf, united } from '../geometry/areas.js';
import { WORLD } from '../geometry/frame.js';
import { cutBodies, extent } from '../geometry/section.js';
import { Z, ZERO } from '../geometry/vector.js';
import type { Body, Federation, Space, Storey, Zone } from '../model.js';
import { LOOP_JOINT } from '../tolerances.js';

/** One room or solid on plan. */
export interface Footprint {
  readonly outlines: Outlines;
  readonly patches: readonly Patch[];
  readonly bottom: number;
  readonly top: number;
}

export interface StatedCompartment {
  readonly zone: Zone;
  readonly spaces: readonly Space[];
  readonly footprints: readonly Footprint[];
  /** Of all footprints together. */
  readonly outlines: Outlines;
  readonly storey: Storey | null;
}

export function statedCompartments({ zones = [], spaces = [] }: Federation): StatedCompartment[] {
  return zones.map((zone) => {
    const own = spaces.filter(({ model, globalId }) => model === zone.model && zone.spaces.includes(globalId));
    const bodies = zone.bodies.length > 0 ? [zone.bodies] : own.map((space) => space.bodies);
    const footprints = bodies.map(footprintOf);
    const storeys = new Map(own.flatMap(({ storey }) => (storey ? [[storey.globalId, storey] as const] : [])));
    return {
      zone,
      spaces: own,
      footprints,
      outlines: closedOver(united(...footprints.map(({ outlines }) => outlines)), LOOP_JOINT),
      storey: storeys.size === 1 ? [...storeys.values()][0]! : null,
    };
  });
}

/** At half height. */
export function footprintOf(bodies: readonly Body[]): Footprint {
  const [bottom, top] = extent(bodies, ZERO, Z);
  const { outers, holes } = cutBodies(bodies, { ...WORLD, origin: [0, 0, (bottom + top) / 2] });
  const outlines = united(
    outers,
    holes.map((hole) => [...hole].reverse()),
  );
  return { outlines, patches: patchesOf(outlines), bottom, top };
}
