/** Facts of places where protected ducts pass barriers, drawn at random but the same every time. */
import type { FactObject } from '../../src/rules/fact-schema.js';

const KINDS = ['wall', 'floor', 'roof'];
const CONSTRUCTIONS = ['steelStud', 'masonry', 'concrete', 'shaftWall', 'timberStud'];
const MATERIALS = ['steel', 'stainless', 'aluminium', 'plastic'];
const PROTECTIONS = ['blanket', 'board', 'fireResistingDuct'];
const FIRES = ['inside', 'outside', 'insideAndOutside'];
const MINUTES = [30, 60, 90, 120, 180];

export function placesAtRandom(count: number): FactObject[] {
  let state = 20261126;
  // The generator of Park and Miller (1988): 16807 times the last, modulo 2^31 - 1.
  const upTo = (n: number): number => {
    state = (state * 16807) % 2147483647;
    return state % n;
  };
  const from = <T>(list: readonly T[]): T => list[upTo(list.length)]!;
  return Array.from({ length: count }, (): FactObject => {
    const [width, height, gap] = [100 + 50 * upTo(40), 100 + 50 * upTo(30), 5 * upTo(10)];
    const section =
      upTo(4) === 0
        ? { shape: 'circular', diameter: width }
        : { shape: 'rectangular', width, height, aspectRatio: Math.max(width, height) / Math.min(width, height) };
    return {
      barrier: {
        kind: from(KINDS),
        construction: from(CONSTRUCTIONS),
        thickness: 80 + 10 * upTo(15),
        rating: { state: 'stated' },
      },
      duct: {
        ...section,
        element: 'segment',
        material: from(MATERIALS),
        underside: width,
        measuredTo: 0,
        wall: { sheet: 0.6 + upTo(10) / 10 },
      },
      penetration: {
        skew: upTo(15),
        gapsTo: 'sheet',
        narrowestGap: gap,
        widestGap: gap + 5 * upTo(5),
        edgeDistance: 50 * upTo(8),
        opening: { present: true, width: width + 2 * gap, height: height + 2 * gap },
        bothFacesReached: upTo(4) > 0,
        treatment: { kind: from(PROTECTIONS), layers: 1 + upTo(3) },
        required: { integrity: from(MINUTES), insulation: from(MINUTES) },
      },
      brief: { fire: from(FIRES), overPressure: 100 * upTo(8), underPressure: 100 * upTo(8) },
    };
  });
}
