/** What a move takes along, on runs drawn as elements, axes and joints alone. */
import { describe, expect, it } from 'vitest';
import type { AirElement, AirElementKind, Vec3 } from '../../src/model.js';
import { type Ductwork, MOST_MOVED, spreadOf } from '../../src/remedy/spread.js';

const element = (globalId: string, kind: AirElementKind = 'segment'): AirElement => ({
  ...{ model: 'm1', globalId, name: globalId, entity: 'IFCDUCTSEGMENT', storey: undefined, bodies: [] },
  ...{ kind, evidence: '', ports: [], system: undefined, systemType: undefined, material: 'steel', stated: {} },
  damper: undefined,
});

/** A along y, a bend at its end, B along x, a bend, C along z, a terminal at its head. */
const [a, bend1, b, bend2, c, terminal] = [
  element('A'),
  element('bend 1', 'fitting'),
  element('B'),
  element('bend 2', 'fitting'),
  element('C'),
  element('terminal', 'terminal'),
];
const P = { a: [0, 1000, 0], b1: [200, 1200, 0], b2: [2000, 1200, 0], c1: [2200, 1200, 200], c2: [2200, 1200, 1500] };
const at = (name: keyof typeof P): Vec3 => P[name] as unknown as Vec3;
const run: Ductwork = {
  joints: [
    { elements: [a!, bend1!], at: at('a') },
    { elements: [bend1!, b!], at: at('b1') },
    { elements: [b!, bend2!], at: at('b2') },
    { elements: [bend2!, c!], at: at('c1') },
    { elements: [c!, terminal!], at: at('c2') },
  ],
  axisOf: (one) =>
    new Map<AirElement, readonly [Vec3, Vec3]>([
      [a!, [[0, -1000, 0], at('a')]],
      [b!, [at('b1'), at('b2')]],
      [c!, [at('c1'), at('c2')]],
    ]).get(one),
};

const spread = (way: Vec3, first = [a!], ductwork = run, fixed: readonly AirElementKind[] = ['terminal']) => {
  const found = spreadOf(first, way, ductwork, fixed);
  if (typeof found === 'string') return found;
  return {
    moved: found.moved.map(({ globalId }) => globalId),
    stretched: found.stretched.map(({ element: { globalId }, end }) => [globalId, end]),
  };
};

describe('the spread of a move', () => {
  it('ends at the next piece along the way, at the end that goes along', () => {
    expect(spread([1, 0, 0])).toEqual({ moved: ['A', 'bend 1'], stretched: [['B', at('b1')]] });
  });

  it('goes on through what lies across it, to the next piece along it', () => {
    expect(spread([0, 0, -1])).toEqual({ moved: ['A', 'B', 'bend 1', 'bend 2'], stretched: [['C', at('c1')]] });
  });

  it('is stopped by what is fixed, with its name', () => {
    const withoutRiser = {
      ...run,
      joints: [...run.joints.slice(0, 3), { elements: [bend2!, terminal!] as const, at: at('c1') }],
    };
    expect(spread([0, 0, -1], [a!], withoutRiser)).toBe('terminal stands where it is');
    expect(spread([0, 0, -1], [a!], withoutRiser, [])).toMatchObject({ stretched: [] });
  });

  it('is stopped where more would go along than anybody moves', () => {
    const chainOf = (count: number) => {
      const pieces = Array.from({ length: count }, (_, i) => element(`piece ${i}`, 'fitting'));
      const joints = pieces.slice(1).map((piece, i) => ({ elements: [pieces[i]!, piece] as const, at: at('a') }));
      return spread([1, 0, 0], [pieces[0]!], { joints, axisOf: () => undefined });
    };
    expect(chainOf(MOST_MOVED)).toMatchObject({ moved: { length: MOST_MOVED } });
    expect(chainOf(MOST_MOVED + 1)).toBe(`more than ${MOST_MOVED} pieces would go along`);
  });

  it('takes a piece along as a whole that is pulled at both ends', () => {
    const loop = { ...run, joints: [...run.joints.slice(0, 3), { elements: [bend2!, a!] as const, at: at('b2') }] };
    expect(spread([1, 0, 0], [a!], loop)).toEqual({ moved: ['A', 'B', 'bend 1', 'bend 2'], stretched: [] });
  });

  it('does not slide a branch along its main', () => {
    const branch = {
      ...run,
      joints: [{ elements: [a!, b!] as const, at: [1000, 1200, 0] as Vec3 }, ...run.joints.slice(2)],
    };
    expect(spread([1, 0, 0], [a!], branch, [])).toMatchObject({ moved: ['A', 'B', 'C', 'bend 2', 'terminal'] });
  });

  it('ends in a flexible duct', () => {
    const flexible = element('flexible', 'flexible');
    const ductwork = { ...run, joints: [{ elements: [a!, flexible] as const, at: at('a') }] };
    expect(spread([0, 0, 1], [a!], ductwork)).toEqual({ moved: ['A'], stretched: [['flexible', at('a')]] });
  });
});
