import type { FactObject } from './fact-schema.js';
import { numberOf, textOf } from './read-fact.js';

/** Names of limits: those that are missed, and those of which it is not known. */
export interface Fit {
  readonly misses: readonly string[];
  readonly unknown: readonly string[];
}

/** Limits of a tested damper that the penetration is known to miss, and those of which that is not known. */
export function damperFitOf(system: FactObject, facts: FactObject): Fit {
  const damper = (name: string) => numberOf(facts, `penetration.damper.${name}`);
  const within = (name: string): boolean | undefined => {
    const [low, high] = [
      atLeast(damper(name), system[`${name}AtLeast`]),
      atMost(damper(name), system[`${name}AtMost`]),
    ];
    return low === false || high === false ? false : low && high;
  };
  const isCircular = textOf(facts, 'penetration.damper.shape') === 'circular';
  return namedFit({
    purpose: system.purposeAllowed,
    shape: system.shapeAllowed,
    orientation: system.orientationAllowed,
    ...(system.orientationAllowed !== false && { construction: system.constructionAllowed }),
    ...(system.constructionAllowed !== false && {
      thickness: atLeast(numberOf(facts, 'barrier.thickness'), system.thicknessAtLeast),
    }),
    ...(system.shapeAllowed !== false &&
      (isCircular ? { diameter: within('diameter') } : { width: within('width'), height: within('height') })),
    offset: atMost(damper('offset'), system.offsetAtMost),
    fireSides: system.fireSidesAllowed,
    skew: atMost(numberOf(facts, 'penetration.skew'), system.skewAtMost),
    integrity: atLeast(
      typeof system.integrity === 'number' ? system.integrity : undefined,
      numberOf(facts, 'penetration.required.integrity'),
    ),
    insulation: atLeast(
      typeof system.insulation === 'number' ? system.insulation : undefined,
      numberOf(facts, 'penetration.required.insulation'),
    ),
  });
}

type Limit = FactObject[string];

const atMost = (value: number | undefined, limit: Limit): boolean | undefined =>
  value === undefined || typeof limit !== 'number' ? undefined : value <= limit;

const atLeast = (value: number | undefined, limit: Limit): boolean | undefined =>
  value === undefined || typeof limit !== 'number' ? undefined : value >= limit;

function namedFit(limits: { readonly [name: string]: Limit }): Fit {
  const named = (wanted: false | undefined): string[] => Object.keys(limits).filter((name) => limits[name] === wanted);
  return { misses: named(false), unknown: named(undefined) };
}
