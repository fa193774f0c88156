/**
 * Which duct ends are taken for a duct that was left out of a wall; each case is one of two ducts that face each other, with
 * one thing changed. How far off and askew they may be is common practice, no source (src/tolerances.ts).
 */
import { describe, expect, it } from 'vitest';
import { findFacingEnds } from '../../src/find/facing-ends.js';
import { GrossBody } from '../../src/find/gross-body.js';
import { readPieces } from '../../src/find/pieces.js';
import { circle, rectangle } from '../../src/geometry/polygon.js';
import type { AirElement, Polygon, Vec2, Vec3 } from '../../src/model.js';
import { aBarrier, aDuct, along, between, upright } from './elements.js';

/** 100 mm thick, its middle at y = 0. */
const WALL = new GrossBody(aBarrier({ bodies: [upright(between([-3000, -50], [3000, 50]), 0, 3000)] }));
const SECTION = rectangle(300, 400);

interface Duct {
  /** Of the end that looks at the wall, from the face of the wall. */
  readonly off?: number;
  readonly length?: number;
  readonly section?: Polygon;
  readonly at?: Vec2;
  readonly more?: Partial<AirElement>;
}
const south = ({ off = 100, length = 1000, section = SECTION, at, more }: Duct = {}) =>
  aDuct({ globalId: 'S', bodies: [along(section, -50 - off - length, -50 - off, at)], ...more });
const north = ({ off = 100, length = 1000, section = SECTION, at, more }: Duct = {}) =>
  aDuct({ globalId: 'N', bodies: [along(section, 50 + off, 50 + off + length, at)], ...more });

function facing(elements: readonly AirElement[], taken: readonly AirElement[] = []) {
  const pairs = findFacingEnds(WALL, readPieces(elements), ({ element }) => taken.includes(element));
  return pairs.map(({ pieces, system, position, distance }) => {
    return { of: pieces.map(({ element }) => element.globalId), system, position, distance };
  });
}
const isPair = (...elements: readonly AirElement[]) => facing(elements).length === 1;

it('says which ends they are, how far apart, and where on the middle of the wall they would meet', () => {
  expect(facing([south({ off: 100 }), north({ off: 300 })])).toEqual([
    { of: ['S', 'N'], system: 'SA', distance: 500, position: [0, expect.closeTo(0, 9), 1500] },
  ]);
  // One 40 mm beside the other: 150 of 500 mm lie before the middle of the wall, and as large a share of the 40.
  const [askew] = facing([south({ off: 100 }), north({ off: 300, at: [40, 1500] })]);
  expect(askew!.position).toEqual([expect.closeTo((40 * 150) / 500, 9), expect.closeTo(0, 9), 1500]);
});

it.each<[string, Duct, Duct, boolean]>([
  ['both half a metre from the faces', { off: 500 }, { off: 500 }, true],
  ['one further', { off: 500.1 }, { off: 100 }, false],
  ['the other further', { off: 100 }, { off: 500.1 }, false],
  ['both at the faces', { off: 0 }, { off: 0 }, true],
  ['both in contact with what is in the wall', { off: -1 }, { off: -1 }, true],
  ['one drawn into the wall', { off: -1.1 }, { off: 100 }, false],
  ['the other drawn into the wall', { off: 100 }, { off: -1.1 }, false],
  ['50 mm out of line', {}, { at: [50, 1500] }, true],
  ['further out of line', {}, { at: [50.1, 1500] }, false],
  ['50 mm out of line upwards', {}, { at: [0, 1550] }, true],
  ['further out of line upwards', {}, { at: [0, 1550.1] }, false],
  ['a small one within the section of a large one', { section: rectangle(100, 100) }, { at: [45, 1500] }, true],
  ['a small one that looks past the middle of a large one', { section: rectangle(80, 80) }, { at: [45, 1500] }, false],
  ['a large one whose middle a small one misses', { at: [45, 1500] }, { section: rectangle(80, 80) }, false],
])('%s', (_, of, other, expected) => {
  expect(isPair(south(of), north(other))).toBe(expected);
  expect(isPair(north(other), south(of))).toBe(expected);
});

it.each([
  [4.9, true],
  [5.1, false],
])('%s degrees out of parallel', (degrees, expected) => {
  const turn = (degrees * Math.PI) / 180;
  const way: Vec3 = [Math.sin(turn), Math.cos(turn), 0];
  const frame = { origin: [0, 150, 1500], x: [0, 0, 1], y: [way[1], -way[0], 0], z: way } as const;
  const sweep: Vec3 = [way[0] * 1000, way[1] * 1000, 0];
  const turned = aDuct({ globalId: 'N', bodies: [{ kind: 'prism', frame, outline: SECTION, voids: [], sweep }] });
  expect(isPair(south(), turned)).toBe(expected);
});

it('oblique ducts face each other although the boxes round them overlap', () => {
  const way: Vec3 = [Math.SQRT1_2, Math.SQRT1_2, 0];
  const oblique = (globalId: string, from: number, to: number) => {
    const origin: Vec3 = [way[0] * from, way[1] * from, 1500];
    const sweep: Vec3 = [way[0] * (to - from), way[1] * (to - from), 0];
    const frame = { origin, x: [0, 0, 1], y: [way[1], -way[0], 0], z: way } as const;
    return aDuct({ globalId, bodies: [{ kind: 'prism', frame, outline: rectangle(300, 100), voids: [], sweep }] });
  };
  // The faces of the wall are 50 · √2 from its middle along the ducts; boxes reach 50 · √2 beyond the ends.
  const [a, b] = [oblique('A', -1000, -80), oblique('B', 80, 1000)];
  expect(facing([a, b]).map(({ of, distance }) => [of, distance])).toEqual([[['A', 'B'], expect.closeTo(160, 6)]]);
  expect(isPair(b, a)).toBe(true);
});

it.each<[string, Duct['more'], Duct['more'], boolean]>([
  ['of one system', { system: 'EA' }, { system: 'EA' }, true],
  ['of two systems', { system: 'EA' }, {}, false],
  ['of no known system', { system: undefined }, { system: undefined }, false],
  ['of which one is a terminal', {}, { kind: 'terminal' }, false],
  ['of which one is flexible', {}, { kind: 'flexible' }, true],
  ['of which one is a fitting', {}, { kind: 'fitting' }, true],
])('ends %s', (_, of, other, expected) => {
  // Round ones are straight along their axis whatever they are.
  const section = circle(300);
  expect(isPair(south({ section, more: of! }), north({ section, more: other! }))).toBe(expected);
  expect(isPair(south({ section, more: other! }), north({ section, more: of! }))).toBe(expected);
});

it('ducts that pass a barrier already are not asked, nor do two ends of one duct face each other', () => {
  const [a, b] = [south(), north()];
  expect(facing([a, b], [a])).toEqual([]);
  expect(facing([a, b], [b])).toEqual([]);
  expect(facing([a])).toEqual([]);
});

it('short ducts face each other with the ends that look at each other alone', () => {
  const short = { length: 200, section: rectangle(150, 150) };
  expect(facing([south(short), north(short)]).map(({ distance }) => distance)).toEqual([300]);
});

describe('an end is free', () => {
  const port = (y: number, connectedTo?: string) => [{ globalId: 'P', at: [0, y, 1500] as const, connectedTo }];
  it.each<[string, number, string | undefined, boolean]>([
    ['where its port is connected with nothing', -150, undefined, true],
    ['not where its port is connected', -150, 'Q', false],
    ['not where a port a gasket off is connected', -140.1, 'Q', false],
    ['where a port further off is connected', -140, 'Q', true],
    ['where the port at its other end is connected', -1150, 'Q', true],
  ])('%s', (_, y, connectedTo, expected) => {
    expect(isPair(south({ more: { ports: port(y, connectedTo) } }), north())).toBe(expected);
    expect(isPair(north(), south({ more: { ports: port(y, connectedTo) } }))).toBe(expected);
  });

  /** A plate of another system, from so far before the end of the southern duct to so far. */
  const plateBefore = (from: number, to: number, [x, z]: Vec2 = [0, 1500]) =>
    aDuct({ globalId: 'X', system: 'X', kind: 'fitting', bodies: [along(SECTION, -150 + from, -150 + to, [x, z])] });
  it.each<[string, AirElement, boolean]>([
    ['not where a flange stands before it', plateBefore(0, 8), false],
    ['not where one stands a joint off', plateBefore(10, 20), false],
    ['where one stands further off', plateBefore(10.1, 20), true],
    ['not where one stands beside its middle as far as that', plateBefore(0, 8, [200 + 5, 1500]), false],
    ['where one stands further beside it', plateBefore(0, 8, [200 + 5.1, 1500]), true],
    ['not where one stands over its middle as far as that', plateBefore(0, 8, [0, 1500 + 150 + 5]), false],
    ['where one stands further over it', plateBefore(0, 8, [0, 1500 + 150 + 5.1]), true],
    ['not where one stands under its middle as far as that', plateBefore(0, 8, [0, 1500 - 150 - 5]), false],
    ['where one stands further under it', plateBefore(0, 8, [0, 1500 - 150 - 5.1]), true],
  ])('%s', (_, other, expected) => {
    expect(facing([south(), north(), other]).map(({ of }) => of)).toEqual(expected ? [['S', 'N']] : []);
  });
});

it.each([0.1, 0.3, 0.5, 0.7, 0.9])('nothing may stand between them: at %s of the way', (t) => {
  const y = -150 + 300 * t;
  const across = (x: number) =>
    aDuct({ globalId: 'X', system: 'X', bodies: [upright(between([x - 50, y - 2], [x + 50, y + 2]), 0, 3000)] });
  expect(isPair(south(), north(), across(0))).toBe(false);
  expect(isPair(south(), north(), across(50))).toBe(false);
  expect(isPair(south(), north(), across(51))).toBe(true);
});
