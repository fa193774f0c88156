/** Random ducts through random walls, in any turn, place, unit and schema, against closed forms, to 0.2 mm. */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { ModelBuilder } from '../../fixtures/model-builder.js';
import { findPenetrations } from '../../src/find/find-penetrations.js';
import { readFederation } from '../../src/read/read-federation.js';
import { slices } from '../slices.js';
import { anyFrame, mm, within } from './random-models.js';

const RUNS = 250;
const SEED = 20261125;

const crossing = fc.record({
  ...anyFrame,
  thickness: mm(60, 400),
  width: mm(100, 1500),
  height: mm(100, 900),
  skew: fc.integer({ min: -40, max: 40 }),
  gaps: fc.record({ left: mm(5, 90), right: mm(5, 90), top: mm(5, 90), bottom: mm(5, 90) }),
  body: fc.constantFrom('extrusion', 'hollow', 'mesh', 'mapped' as const),
  withOpening: fc.boolean(),
});

it.each(slices(RUNS, 10, SEED))('finds and measures $numRuns of them, seed $seed', async (slice) => {
  await fc.assert(
    fc.asyncProperty(crossing, async (c) => {
      const phi = (c.skew * Math.PI) / 180;
      const [x0, z0] = [5000, 1800];
      // The duct's outline on a plane y = s: width / cos φ, about x0 + s · tan φ.
      const half = c.width / Math.cos(phi) / 2;
      const drift = Math.abs(Math.tan(phi)) * (c.thickness / 2);
      const opening = {
        left: x0 - half - drift - c.gaps.left,
        right: x0 + half + drift + c.gaps.right,
        bottom: z0 - c.height / 2 - c.gaps.bottom,
        top: z0 + c.height / 2 + c.gaps.top,
      };
      const b = new ModelBuilder({
        fileName: 'random.ifc',
        schema: c.schema,
        unit: c.unit,
        rotation: c.rotation,
        offset: c.offset,
      });
      const wall = b.wall({
        name: 'W',
        from: [0, 0],
        to: [10_000, 0],
        thickness: c.thickness,
        height: 4000,
        rating: '-/60/60',
      });
      if (c.withOpening)
        b.opening(wall, {
          centre: [(opening.left + opening.right) / 2, 0, (opening.bottom + opening.top) / 2],
          width: opening.right - opening.left,
          height: opening.top - opening.bottom,
        });
      const reach = 2500;
      b.duct({
        name: 'D',
        from: [x0 - reach * Math.sin(phi), -reach * Math.cos(phi), z0],
        to: [x0 + reach * Math.sin(phi), reach * Math.cos(phi), z0],
        width: c.width,
        height: c.height,
        body: c.body,
      });
      const federation = await readFederation([{ name: 'random.ifc', bytes: new TextEncoder().encode(b.toString()) }]);
      const { penetrations } = findPenetrations(federation);
      expect(penetrations.length).toBe(1);
      const p = penetrations[0]!;
      const turn = (c.rotation * Math.PI) / 180;
      const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
      expect([...p.position]).toEqual([x0 * cos + c.offset[0], x0 * sin + c.offset[1], z0 + c.offset[2]].map(within));
      expect(p.crossing).toBe('through');
      expect(p.skew).toBeCloseTo(Math.abs(c.skew), 1);
      expect(p.duct).toMatchObject({ shape: 'rectangular', width: within(c.width), height: within(c.height) });
      expect(p.barrier.thickness).toEqual(within(c.thickness));
      expect(p.opening === null).toBe(!c.withOpening);
      if (!c.withOpening) return;
      // Seen along the normal; where the wall's own +y points the other way, left and right change places.
      const normal = [-sin, cos] as const;
      const larger = Math.abs(normal[0]) >= Math.abs(normal[1]) - 1e-9 ? normal[0] : normal[1];
      const [left, right] = larger > 0 ? [c.gaps.left, c.gaps.right] : [c.gaps.right, c.gaps.left];
      const least = { left, right, top: c.gaps.top, bottom: c.gaps.bottom };
      const widest = Math.max(c.gaps.top, c.gaps.bottom, left + 2 * drift, right + 2 * drift);
      expect(p.gaps).toMatchObject({
        ...Object.fromEntries(Object.entries(least).map(([k, v]) => [k, within(v)])),
        max: within(widest),
      });
      expect(p.gaps.min).toEqual(within(Math.min(...Object.values(least))));
    }),
    slice,
  );
});
