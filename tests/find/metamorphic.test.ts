/**
 * What must not change the answer: where a building stands, how it is turned, mirrored, in which unit and schema it is
 * written, in which order its elements and files come, and whether ducts and walls share a file.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { globalIdOf } from '../../fixtures/ifc-writer.js';
import { ModelBuilder } from '../../fixtures/model-builder.js';
import type { Vec2, Vec3 } from '../../fixtures/vectors.js';
import { findPenetrations } from '../../src/find/find-penetrations.js';
import type { Penetration } from '../../src/model.js';
import type { ModelInput } from '../../src/read/file-reader.js';
import { readFederation } from '../../src/read/read-federation.js';

type Options = Partial<ConstructorParameters<typeof ModelBuilder>[0]>;
type Draw = (b: ModelBuilder, parts: 'all' | 'walls' | 'ducts') => void;

/** Every element keeps its GlobalId, whatever file it is in. */
const named = (name: string) => ({ name, globalId: globalIdOf(name) });

interface Thrown {
  readonly thickness: number;
  readonly body: 'extrusion' | 'mesh' | 'hollow' | 'mapped';
  readonly width: number;
  readonly height: number;
  readonly skew: number;
  readonly off: Vec2;
}
const thrown: fc.Arbitrary<Thrown> = fc.record({
  thickness: fc.integer({ min: 80, max: 300 }),
  body: fc.constantFrom('extrusion', 'mesh', 'hollow', 'mapped' as const),
  width: fc.integer({ min: 200, max: 800 }),
  height: fc.integer({ min: 150, max: 500 }),
  skew: fc.integer({ min: -30, max: 30 }),
  off: fc.tuple(fc.integer({ min: -20, max: 20 }), fc.integer({ min: -20, max: 20 })),
});
const THROWN = fc.sample(thrown, { seed: 9, numRuns: 24 });

/** U-shaped walls, each passed twice by one duct; `mirror` turns left into right. */
const draw =
  (mirror: 1 | -1 = 1, order: readonly number[] = THROWN.map((_, i) => i)): Draw =>
  (b, parts) => {
    for (const i of order) {
      const { thickness: t, body, width, height, skew, off } = THROWN[i]!;
      const x0 = (i % 6) * 9000;
      const y0 = Math.floor(i / 6) * 12_000;
      const at = (x: number, y: number): Vec2 => [mirror * (x0 + x), y0 + y];
      const outline = [
        at(-3000, 0),
        at(3000, 0),
        at(3000, 3000),
        at(-3000, 3000),
        at(-3000, 3000 - t),
        at(3000 - t, 3000 - t),
        at(3000 - t, t),
        at(-3000, t),
      ];
      const tan = Math.tan((skew * Math.PI) / 180);
      if (parts !== 'ducts') {
        const turned = mirror === 1 ? outline : [...outline].reverse();
        const wall = b.wall({ ...named(`Wall ${i}`), outline: turned, thickness: t, height: 3000, rating: '-/60/60' });
        const [mx, my] = at(off[0] + (t / 2) * tan, t / 2);
        b.opening(wall, {
          ...named(`Opening ${i}`),
          centre: [mx, my, 1500 + off[1]],
          width: width / Math.cos(Math.atan(tan)) + 260 + t * Math.abs(tan),
          height: height + 160,
          depth: 2 * t + 200,
        });
      }
      if (parts === 'walls') continue;
      const end = (y: number): Vec3 => {
        const [ex, ey] = at(y * tan, y);
        return [ex, ey, 1500];
      };
      b.duct({ ...named(`Duct ${i}`), from: end(-1500), to: end(4500), width, height, body });
    }
  };

function written(name: string, options: Options, how: Draw, parts: 'all' | 'walls' | 'ducts' = 'all'): ModelInput {
  const b = new ModelBuilder({ fileName: name, ...options });
  how(b, parts);
  return { name, bytes: new TextEncoder().encode(b.toString()) };
}

/** What stays: key, elements, how it crosses, sizes, gaps; sides without regard to which is left and which right. */
function essence(penetrations: readonly Penetration[]) {
  const to = (mm: number | null) => (mm === null ? null : Math.round(mm * 5) / 5);
  return penetrations
    .map((p) => ({
      key: p.key,
      crossing: p.crossing,
      size: [to(p.duct.width), to(p.duct.height)],
      thickness: to(p.barrier.thickness),
      skew: Math.round(p.skew * 10) / 10,
      upright: [p.gaps.top, p.gaps.bottom],
      sideways: [p.gaps.left, p.gaps.right].sort((a, b) => (a ?? 0) - (b ?? 0)),
      ends: [p.gaps.min, p.gaps.max],
    }))
    .sort((a, b) => (a.key < b.key ? -1 : 1));
}

async function found(...files: ModelInput[]) {
  return essence(findPenetrations(await readFederation(files)).penetrations);
}

/** Numbers to 0.2 mm: each way to write a model rounds its own way. */
function expectSame(actual: ReturnType<typeof essence>, expected: ReturnType<typeof essence>): void {
  const close = (v: unknown): unknown =>
    typeof v === 'number' ? expect.closeTo(v, 0.4) : Array.isArray(v) ? v.map(close) : v;
  expect(actual.map((a) => a.key)).toEqual(expected.map((e) => e.key));
  expect(actual).toEqual(expected.map((e) => Object.fromEntries(Object.entries(e).map(([k, v]) => [k, close(v)]))));
}

describe('the same penetrations, keys and gaps', async () => {
  const plain = await found(written('a.ifc', {}, draw()));

  it('of what is drawn: every wall twice', () => {
    expect(plain.length).toBe(2 * THROWN.length);
    expect(plain.filter((p) => p.ends[0] !== null).length).toBe(THROWN.length);
  });

  const shuffled = fc.sample(
    fc.shuffledSubarray(
      THROWN.map((_, i) => i),
      { minLength: THROWN.length },
    ),
    { seed: 5, numRuns: 1 },
  )[0]!;
  it.each<[string, Options, Draw]>([
    ['moved', { offset: [421_000_123, 5_800_000_456, 12_000] }, draw()],
    ['turned by 33 degrees', { rotation: 33 }, draw()],
    ['turned by 180 degrees', { rotation: 180 }, draw()],
    ['turned by 251 degrees', { rotation: 251, movedBy: 'elements' }, draw()],
    ['mirrored', {}, draw(-1)],
    ['in metres', { unit: 'metre' }, draw()],
    ['in inches on feet', { unit: 'inchOnFoot' }, draw()],
    ['in IFC2X3', { schema: 'IFC2X3' }, draw()],
    ['in IFC4X3', { schema: 'IFC4X3' }, draw()],
    ['with its elements shuffled', {}, draw(1, shuffled)],
  ])('%s', async (_, options, how) => {
    expectSame(await found(written('a.ifc', options, how)), plain);
  });

  it('in two files, in either order', async () => {
    const walls = written('walls.ifc', { unit: 'foot' }, draw(), 'walls');
    const ducts = written('ducts.ifc', { unit: 'metre' }, draw(), 'ducts');
    expectSame(await found(walls, ducts), plain);
    expect(await found(ducts, walls)).toEqual(await found(walls, ducts));
  });
});
