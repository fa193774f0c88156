/** Where ductwork touches without ports, and is joined; from the drawing. How far joints reach: src/tolerances.ts. */
import { describe, expect, it } from 'vitest';
import { findJoints } from '../../src/find/joints.js';
import { readPieces } from '../../src/find/pieces.js';
import { rectangle } from '../../src/geometry/polygon.js';
import type { AirElement, Body, Port, Vec2, Vec3 } from '../../src/model.js';
import { aDuct, along, taper } from './elements.js';

const fitting = (globalId: string, ...bodies: Body[]) => aDuct({ globalId, kind: 'fitting', bodies });
const duct = (globalId: string, from: number, to: number, [width, height]: Vec2 = [400, 300], at?: Vec2) =>
  aDuct({ globalId, bodies: [along(rectangle(height, width), from, to, at)] });
const joints = (...elements: readonly AirElement[]) =>
  findJoints(readPieces(elements)).map(({ pieces, from, flow }) => {
    return [...pieces.map(({ element }) => element.globalId).sort(), from, flow];
  });
const joined = (a: AirElement, b: AirElement): boolean => {
  const [one, other] = [joints(a, b), joints(b, a)];
  expect(other).toEqual(one);
  return one.length > 0;
};

describe('two transitions meet', () => {
  const small: Vec2 = [200, 150];
  const south = fitting('S', taper(-800, 0, small, [400, 300]));
  it.each<[string, number, Vec2, boolean]>([
    ['with faces of one size', 0, [400, 300], true],
    ['a tenth narrower', 0, [360, 300], true],
    ['more than that narrower', 0, [359, 300], false],
    ['a tenth lower', 0, [400, 270], true],
    ['more than that lower', 0, [400, 269], false],
    ['wider by a tenth of the wider', 0, [444, 300], true],
    ['wider by more', 0, [445, 300], false],
    ['higher by a tenth of the higher', 0, [400, 333], true],
    ['higher by more', 0, [400, 334], false],
    ['a gasket apart', 10, [400, 300], true],
    ['further apart', 10.1, [400, 300], false],
  ])('%s', (_, gap, size, expected) => {
    expect(joined(south, fitting('N', taper(gap, gap + 800, size, small)))).toBe(expected);
  });

  it('only face to face: ends that lie in one place and look the same way do not', () => {
    expect(joined(south, fitting('N', taper(-500, 0, small, [400, 300])))).toBe(false);
  });

  it('ducts of two systems that touch are in each other’s way', () => {
    const north = fitting('N', taper(0, 800, [400, 300], small));
    expect(joined(south, { ...north, system: 'EA' })).toBe(false);
    expect(joined(south, { ...north, system: undefined })).toBe(true);
    expect(joined({ ...south, system: undefined }, north)).toBe(true);
  });
});

describe('a straight duct', () => {
  const main = duct('M', 0, 6000);
  /** A branch along x, its near end so far off the main's side, so far along the main. */
  const branch = (off: number, y: number) => {
    const frame = { origin: [200 + off, y, 1500], x: [0, 0, 1], y: [0, -1, 0], z: [1, 0, 0] } as const;
    const outline = rectangle(200, 150);
    return aDuct({ globalId: 'B', bodies: [{ kind: 'prism', frame, outline, voids: [], sweep: [1500, 0, 0] }] });
  };
  it.each<[string, AirElement, boolean]>([
    ['goes on in one that begins where it ends', duct('B', 6000, 9000), true],
    ['goes on a gasket further', duct('B', 6010, 9000), true],
    ['does not go on further off', duct('B', 6010.1, 9000), false],
    ['goes on in a narrower one', duct('B', 6000, 9000, [200, 200]), true],
    ['has a branch on its side', branch(0, 3000), true],
    ['has a branch whose end is drawn within its side', branch(-1.1, 3000), true],
    ['has a branch a gasket off its side', branch(9.9, 3000), true],
    ['has none further off', branch(10.1, 3000), false],
    ['has none beyond its end', branch(0, 6010), false],
    ['has none before its beginning', branch(0, -10), false],
  ])('%s', (_, other, expected) => {
    expect(joined(main, other)).toBe(expected);
  });

  it.each([
    [4.9, true],
    [5.1, false],
  ])('goes on in one that is %s degrees askew, its end out of line with any side', (degrees, expected) => {
    const turn = (degrees * Math.PI) / 180;
    const way: Vec3 = [Math.sin(turn), Math.cos(turn), 0];
    // Back to back within 10 mm, and beside each other's sections.
    const frame = { origin: [9, 6000, 1500], x: [0, 0, 1], y: [way[1], -way[0], 0], z: way } as const;
    const outline = rectangle(8, 8);
    const sweep: Vec3 = [way[0] * 900, way[1] * 900, 0];
    const other = aDuct({ globalId: 'B', bodies: [{ kind: 'prism', frame, outline, voids: [], sweep }] });
    expect(joined(duct('M', 0, 6000, [8, 8]), other)).toBe(expected);
  });
});

describe('ports', () => {
  const at: Vec3 = [0, 0, 1500];
  const ported = (globalId: string, from: number, port: Partial<Port>) =>
    aDuct({
      ...{ globalId, bodies: [along(rectangle(300, 400), from, from + 2000)] },
      ports: [{ globalId: `${globalId}1`, at, connectedTo: undefined, ...port }],
    });
  it.each<[Port['flow'], Port['flow'], 'forward' | 'backward' | null]>([
    ['out', 'in', 'forward'],
    ['in', 'out', 'backward'],
    ['out', undefined, 'forward'],
    [undefined, 'in', 'forward'],
    ['in', undefined, 'backward'],
    [undefined, 'out', 'backward'],
    ['in', 'in', null],
    ['out', 'out', null],
    [undefined, undefined, null],
  ])('of which the first says %s and the second %s: air goes %s', (first, second, expected) => {
    const a = ported('A', -2000, { connectedTo: 'B1', flow: first });
    const b = ported('B', 0, { connectedTo: 'A1', flow: second });
    expect(joints(a, b)).toEqual([['A', 'B', 'ports', expected]]);
  });

  it('of another file are not meant', () => {
    const [a, b] = [
      ported('A', -9000, { connectedTo: 'B1' }),
      ported('B', 7000, { connectedTo: 'A1', at: [0, 7000, 1500] }),
    ];
    expect(joints(a, b)).toEqual([['A', 'B', 'ports', null]]);
    expect(joints(a, { ...b, model: 'm2' })).toEqual([]);
  });
});
