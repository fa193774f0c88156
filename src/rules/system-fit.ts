import type { FactObject, FactValue } from './fact-schema.js';
import { numberOf, textOf } from './read-fact.js';

/** Limits that the penetration is known to miss, and those of which that is not known. */
export function fitOf(system: FactObject, facts: FactObject): { misses: string[]; unknown: string[] } {
  const atMost = (measured: string, limit: FactValue | FactObject | undefined): boolean | undefined => {
    const value = numberOf(facts, measured);
    return value === undefined || typeof limit !== 'number' ? undefined : value <= limit;
  };
  const least = (reached: FactValue | FactObject | undefined, asked: string): boolean | undefined => {
    const value = numberOf(facts, asked);
    return value === undefined || typeof reached !== 'number' ? undefined : reached >= value;
  };
  const isCircular = textOf(facts, 'duct.shape') === 'circular';
  const thickness = numberOf(facts, 'barrier.thickness');
  const limits: { readonly [name: string]: FactValue | FactObject | undefined } = {
    protection: system.protectionAllowed,
    shape: system.shapeAllowed,
    material: system.materialAllowed,
    element: system.elementAllowed,
    orientation: system.orientationAllowed,
    construction: system.constructionAllowed,
    ...(system.constructionAllowed !== false && {
      thickness:
        thickness === undefined || typeof system.thicknessAtLeast !== 'number'
          ? undefined
          : thickness >= system.thicknessAtLeast,
    }),
    ...(system.shapeAllowed !== false &&
      (isCircular
        ? { diameter: atMost('duct.diameter', system.diameterAtMost) }
        : { width: atMost('duct.width', system.widthAtMost), height: atMost('duct.height', system.heightAtMost) })),
    ...(system.fixingNeeded === true && {
      fixing: isCircular
        ? both(system.fixingShapeAllowed, atMost('duct.diameter', system.fixingDiameterAtMost))
        : both(
            system.fixingShapeAllowed,
            both(atMost('duct.width', system.fixingWidthAtMost), atMost('duct.height', system.fixingHeightAtMost)),
          ),
    }),
    fire: system.fireSideAllowed,
    skew: atMost('penetration.skew', system.skewAtMost),
    integrity: least(system.integrity, 'penetration.required.integrity'),
    insulation: least(system.insulation, 'penetration.required.insulation'),
  };
  const named = (wanted: false | undefined): string[] => Object.keys(limits).filter((name) => limits[name] === wanted);
  return { misses: named(false), unknown: named(undefined) };
}

/** Missed when one is, met when both are. */
function both(a: unknown, b: unknown): boolean | undefined {
  if (a === false || b === false) return false;
  return a === true && b === true ? true : undefined;
}
