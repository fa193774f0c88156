/** Places where protected ducts pass barriers, drawn at random but the same every time, as facts and as bare numbers. */
import type { FactObject } from '../../src/rules/fact-schema.js';

export const KINDS = ['wall', 'floor', 'roof'] as const;
export const CONSTRUCTIONS = ['steelStud', 'masonry', 'concrete', 'shaftWall', 'timberStud'] as const;
export const MATERIALS = ['steel', 'stainless', 'aluminium', 'plastic'] as const;
export const PROTECTIONS = ['blanket', 'board', 'fireResistingDuct'] as const;
export const FIRES = ['inside', 'outside', 'insideAndOutside'] as const;
const MINUTES = [30, 60, 90, 120, 180];

/** Lists are given by the place of the word in them. */
export interface Place {
  readonly kind: number;
  readonly construction: number;
  readonly thickness: number;
  readonly isCircular: boolean;
  /** The diameter too. */
  readonly width: number;
  readonly height: number;
  readonly material: number;
  readonly skew: number;
  readonly protection: number;
  readonly layers: number;
  readonly integrity: number;
  readonly insulation: number;
  readonly fire: number;
}

export function placesAtRandom(count: number): Place[] {
  let state = 20261126;
  // The generator of Park and Miller (1988): 16807 times the last, modulo 2^31 - 1.
  const upTo = (n: number): number => {
    state = (state * 16807) % 2147483647;
    return state % n;
  };
  return Array.from({ length: count }, () => ({
    kind: upTo(KINDS.length),
    construction: upTo(CONSTRUCTIONS.length),
    thickness: 80 + 10 * upTo(15),
    isCircular: upTo(4) === 0,
    width: 100 + 50 * upTo(40),
    height: 100 + 50 * upTo(30),
    material: upTo(MATERIALS.length),
    skew: upTo(15),
    protection: upTo(PROTECTIONS.length),
    layers: 1 + upTo(3),
    integrity: MINUTES[upTo(5)]!,
    insulation: MINUTES[upTo(5)]!,
    fire: upTo(FIRES.length),
  }));
}

export const factsOf = (place: Place): FactObject => ({
  barrier: { kind: KINDS[place.kind]!, construction: CONSTRUCTIONS[place.construction]!, thickness: place.thickness },
  duct: {
    element: 'segment',
    material: MATERIALS[place.material]!,
    ...(place.isCircular
      ? { shape: 'circular', diameter: place.width }
      : { shape: 'rectangular', width: place.width, height: place.height }),
  },
  penetration: {
    skew: place.skew,
    treatment: { kind: PROTECTIONS[place.protection]!, layers: place.layers },
    required: { integrity: place.integrity, insulation: place.insulation },
  },
  brief: { fire: FIRES[place.fire]! },
});
