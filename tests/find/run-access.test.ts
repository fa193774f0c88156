/** Ways along ducts between openings: closed forms on straight, bent, branched and upright runs. */
import { describe, expect, it } from 'vitest';
import { ModelBuilder } from '../../fixtures/model-builder.js';
import { findPenetrations } from '../../src/find/find-penetrations.js';
import type { AirElement, ProjectFacts } from '../../src/model.js';
import { readFederation } from '../../src/read/read-federation.js';
import { NO_FACTS } from '../read/no-facts.js';

const bytes = (text: string) => new TextEncoder().encode(text);
const SIZE = { width: 400, height: 400, system: 'KX' } as const;
type Point = [number, number, number];

async function accessOf(build: (b: ModelBuilder) => void, facts: ProjectFacts = NO_FACTS) {
  const b = new ModelBuilder({ fileName: 'access.ifc' });
  build(b);
  const federation = await readFederation([{ name: 'access.ifc', bytes: bytes(b.toString()) }], { facts });
  return findPenetrations(federation, { facts }).access;
}

/** On the side of a duct along x or y at this place; the ducts reach 200 mm from their axes. */
const panel = (b: ModelBuilder, name: string, at: Point, out: Point, size = 300) =>
  b.accessPanel({
    ...{ name: `Access panel ${name}`, system: 'KX', width: size, height: size },
    from: at.map((x, i) => x + out[i]! * 200) as Point,
    to: at.map((x, i) => x + out[i]! * 220) as Point,
  });
const straight = (b: ModelBuilder, name: string, from: Point, to: Point) => b.duct({ name, from, to, ...SIZE });
const UP: Point = [0, 0, 1];
const EAST: Point = [1, 0, 0];

const gaps = (access: Awaited<ReturnType<typeof accessOf>>) =>
  access.flatMap((one) =>
    one.gaps.map(({ from, to, length, level }) => [[from.name, to.name].sort().join(' – '), length, level]),
  );

describe('ways between openings', () => {
  it('G15: cleanouts at 0.2, 6.2 and 12.4 m of a straight duct, in one piece and in three', async () => {
    for (const cuts of [[], [4000, 9000]]) {
      const [run, ...others] = await accessOf((b) => {
        const ends = [0, ...cuts, 12600];
        for (const [i, to] of ends.slice(1).entries()) straight(b, `D${i}`, [ends[i]!, 0, 3000], [to, 0, 3000]);
        for (const [name, x] of [
          ['1', 200],
          ['2', 6200],
          ['3', 12400],
        ] as const)
          panel(b, name, [x, 0, 3000], UP);
      });
      expect(others).toEqual([]);
      expect(run!.panels.map(({ name, side, width, height, toEdge }) => [name, side, width, height, toEdge])).toEqual(
        ['1', '2', '3'].map((n) => [`Access panel ${n}`, 'top', 300, 300, 50]),
      );
      const between = gaps([run!]).filter(([name]) => !String(name).includes('D'));
      expect(between).toEqual([
        ['Access panel 1 – Access panel 2', 6000, 6000],
        ['Access panel 2 – Access panel 3', 6200, 6200],
      ]);
    }
  });

  it('round a corner: over the corner of the axes, and from the bend to the nearest panel', async () => {
    const [run] = await accessOf((b) => {
      straight(b, 'A', [0, 0, 3000], [4000, 0, 3000]);
      straight(b, 'B', [4400, 400, 3000], [4400, 5000, 3000]);
      b.bend({ name: 'bend', corner: [4400, 0, 3000], incoming: EAST, outgoing: [0, 1, 0], radius: 400, ...SIZE });
      panel(b, '1', [1200, 0, 3000], UP);
      panel(b, '2', [4400, 4400, 3000], EAST);
    });
    expect(run!.bends).toMatchObject([
      { name: 'bend', angle: 90, toAccess: 3200, nearest: { name: 'Access panel 1' } },
    ]);
    expect(gaps([run!])).toContainEqual(['Access panel 1 – Access panel 2', 3200 + 4400, 3200 + 4400]);
  });

  it.each([
    [45, 0],
    [46, 1],
  ])('of a bend of %d° this many changes of direction are told: %d', async (degrees, bends) => {
    const turn = (degrees * Math.PI) / 180;
    const way = [Math.cos(turn), Math.sin(turn), 0] as const;
    const inset = 400 * Math.tan(turn / 2);
    const beyond = (s: number): [number, number, number] => [4400 + s * way[0], s * way[1], 3000];
    const [run] = await accessOf((b) => {
      straight(b, 'A', [0, 0, 3000], [4400 - inset, 0, 3000]);
      straight(b, 'B', beyond(inset), beyond(5000));
      b.bend({ name: 'bend', corner: [4400, 0, 3000], incoming: EAST, outgoing: way, radius: 400, ...SIZE });
      panel(b, '1', [1200, 0, 3000], UP);
    });
    expect(run!.bends).toHaveLength(bends);
  });

  it('at a branch the shortest ways that join all openings, and up a riser with its level part', async () => {
    const [run] = await accessOf((b) => {
      straight(b, 'main', [0, 0, 3000], [8000, 0, 3000]);
      straight(b, 'branch', [5000, 200, 3000], [5000, 4000, 3000]);
      panel(b, '1', [1000, 0, 3000], UP);
      panel(b, '2', [7000, 0, 3000], UP);
      panel(b, '3', [5000, 3000, 3000], UP);
    });
    const between = gaps([run!]).filter(([name]) => !/main|branch/.test(String(name)));
    // 2 to 3 is 2 + 3 m; 1 to 2 is 6 m, and 1 to 3 would be 4 + 3 m.
    expect(between.map(([name, length]) => [name, length]).sort()).toEqual([
      ['Access panel 1 – Access panel 2', 6000],
      ['Access panel 2 – Access panel 3', 5000],
    ]);
    expect(run!.bends).toEqual([]);
    const [riser] = await accessOf((b) => {
      straight(b, 'foot', [0, 0, 3000], [3000, 0, 3000]);
      straight(b, 'riser', [3000, 0, 3000], [3000, 0, 9000]);
      panel(b, '1', [500, 0, 3000], UP);
      panel(b, '2', [3000, 0, 8000], EAST);
    });
    expect(gaps([riser!])).toContainEqual(['Access panel 1 – Access panel 2', 7500, 2500]);
    expect(riser!.panels.map(({ side }) => side)).toEqual(['top', null]);
    expect(riser!.bends).toMatchObject([{ angle: 90, toAccess: 2500 }]);
  });
});

it('has no bend where a fitting goes straight on, nor where one has a branch besides', async () => {
  const bendsWith = async (branch: boolean) => {
    const access = await accessOf((b) => {
      if (branch) straight(b, 'branch', [4500, 200, 3000], [4500, 4000, 3000]);
      straight(b, 'A', [0, 0, 3000], [4000, 0, 3000]);
      const endSize = { width: 400, height: 300 };
      b.transition({ name: 'reducer', from: [4000, 0, 3000], to: [5000, 0, 3000], ...SIZE, endSize });
      b.duct({ name: 'B', from: [5000, 0, 3000], to: [9000, 0, 3000], ...SIZE, ...endSize });
      panel(b, '1', [1000, 0, 3000], UP);
    });
    return access.map(({ bends, gaps: { length } }) => [bends, length]);
  };
  expect(await bendsWith(false)).toEqual([[[], 2]]);
  expect(await bendsWith(true)).toEqual([[[], 3]]);
});

describe('what counts as a panel', () => {
  it('by words and by a property of the brief; others are ducts of their own', async () => {
    const build = (b: ModelBuilder) => {
      straight(b, 'A', [0, 0, 3000], [4000, 0, 3000]);
      b.accessPanel({
        name: 'hand hole 7',
        from: [2000, 0, 3200],
        to: [2000, 0, 3220],
        width: 200,
        height: 100,
        system: 'KX',
      });
    };
    const counts = async (facts: ProjectFacts) => (await accessOf(build, facts)).map(({ panels }) => panels.length);
    expect((await counts(NO_FACTS)).reduce((a, b) => a + b, 0)).toBe(0);
    expect(await counts({ ...NO_FACTS, accessPanels: { words: ['hand hole'], modelled: true } })).toEqual([1]);
  });

  it('a panel that touches a duct and the bend at its end lies on the duct', async () => {
    const build = (b: ModelBuilder) => {
      b.bend({ name: 'bend', corner: [4400, 0, 3000], incoming: EAST, outgoing: [0, 1, 0], radius: 400, ...SIZE });
      straight(b, 'A', [0, 0, 3000], [4000, 0, 3000]);
      straight(b, 'B', [4400, 400, 3000], [4400, 5000, 3000]);
      panel(b, '1', [3900, 0, 3000], UP);
      panel(b, '2', [4400, 500, 3000], UP);
    };
    const [run] = await accessOf(build);
    expect(run!.panels.map(({ name, side, toEdge }) => [name, side, toEdge]).sort()).toEqual([
      ['Access panel 1', 'top', 50],
      ['Access panel 2', 'top', 50],
    ]);
  });

  it('a panel between two ducts lies on the one that it touches', async () => {
    for (const levels of [
      [3000, 3425],
      [3425, 3000],
    ] as const) {
      const access = await accessOf((b) => {
        for (const [i, z] of levels.entries()) straight(b, `D${i}`, [0, 0, z], [4000, 0, z]);
        panel(b, '1', [2000, 0, 3000], UP);
      });
      expect(access.flatMap(({ panels }) => panels.map(({ side }) => side))).toEqual(['top']);
    }
  });

  it('a panel that is modelled as no ductwork counts where it lies on a duct, and nowhere else', async () => {
    const b = new ModelBuilder({ fileName: 'access.ifc' });
    straight(b, 'A', [0, 0, 3000], [4000, 0, 3000]);
    panel(b, 'on', [1000, 0, 3000], UP);
    panel(b, 'off', [1000, 3000, 3000], UP);
    const federation = await readFederation([{ name: 'access.ifc', bytes: bytes(b.toString()) }]);
    const covers = federation.airElements.filter(({ isAccessPanel }) => isAccessPanel);
    const asCover = ({ model, globalId, name, storey, bodies }: AirElement) => ({
      ...{ model, globalId, name, storey, bodies, entity: 'IFCDISCRETEACCESSORY', accessEvidence: 'name' },
    });
    const { access } = findPenetrations({
      ...federation,
      airElements: federation.airElements.filter(({ isAccessPanel }) => !isAccessPanel),
      accessCovers: covers.map(asCover),
    });
    expect(access.map(({ panels }) => panels.map(({ name }) => name))).toEqual([['Access panel on']]);
  });
});
