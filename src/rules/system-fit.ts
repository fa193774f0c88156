import type { FactObject, FactValue } from './fact-schema.js';
import { numberOf, textOf } from './read-fact.js';

/** Names of limits: those that are missed, and those of which it is not known. */
export interface Fit {
  readonly misses: string[];
  readonly unknown: string[];
}

type Limit = FactValue | FactObject | undefined;

export const atMost = (value: number | undefined, limit: Limit): boolean | undefined =>
  value === undefined || typeof limit !== 'number' ? undefined : value <= limit;

export const atLeast = (value: number | undefined, limit: Limit): boolean | undefined =>
  value === undefined || typeof limit !== 'number' ? undefined : value >= limit;

export function namedFit(limits: { readonly [name: string]: Limit }): Fit {
  const named = (wanted: false | undefined): string[] => Object.keys(limits).filter((name) => limits[name] === wanted);
  return { misses: named(false), unknown: named(undefined) };
}

/** Limits that the penetration is known to miss, and those of which that is not known. */
export function fitOf(system: FactObject, facts: FactObject): Fit {
  const measured = (path: string, limit: Limit) => atMost(numberOf(facts, path), limit);
  const reached = (minutes: Limit, asked: string): boolean | undefined =>
    typeof minutes === 'number' ? atLeast(minutes, numberOf(facts, asked)) : undefined;
  const isCircular = textOf(facts, 'duct.shape') === 'circular';
  return namedFit({
    protection: system.protectionAllowed,
    shape: system.shapeAllowed,
    material: system.materialAllowed,
    element: system.elementAllowed,
    orientation: system.orientationAllowed,
    construction: system.constructionAllowed,
    ...(system.constructionAllowed !== false && {
      thickness: atLeast(numberOf(facts, 'barrier.thickness'), system.thicknessAtLeast),
    }),
    ...(system.shapeAllowed !== false &&
      (isCircular
        ? { diameter: measured('duct.diameter', system.diameterAtMost) }
        : { width: measured('duct.width', system.widthAtMost), height: measured('duct.height', system.heightAtMost) })),
    ...(system.fixingNeeded === true && {
      fixing: isCircular
        ? both(system.fixingShapeAllowed, measured('duct.diameter', system.fixingDiameterAtMost))
        : both(
            system.fixingShapeAllowed,
            both(measured('duct.width', system.fixingWidthAtMost), measured('duct.height', system.fixingHeightAtMost)),
          ),
    }),
    fire: system.fireSideAllowed,
    skew: measured('penetration.skew', system.skewAtMost),
    integrity: reached(system.integrity, 'penetration.required.integrity'),
    insulation: reached(system.insulation, 'penetration.required.insulation'),
  });
}

/** Missed when one is, met when both are. */
function both(a: unknown, b: unknown): boolean | undefined {
  if (a === false || b === false) return false;
  return a === true && b === true ? true : undefined;
}
