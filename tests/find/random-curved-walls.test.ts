/** Random ducts through random curved walls, drawn in any way, turn, place and unit, against closed forms, to 0.2 mm. */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { ModelBuilder } from '../../fixtures/model-builder.js';
import { findPenetrations } from '../../src/find/find-penetrations.js';
import { readFederation } from '../../src/read/read-federation.js';
import { slices } from '../slices.js';
import { anyFrame, mm, within } from './random-models.js';

const RUNS = 150;
const SEED = 20261125;

const crossing = fc.record({
  ...anyFrame,
  radius: mm(2000, 30_000),
  thickness: mm(60, 400),
  /** Degrees on either side of the middle. */
  spread: mm(25, 85),
  /** Of the crossing from the middle, as a share of the spread. */
  place: fc.double({ min: -0.3, max: 0.3, noNaN: true }),
  /** Between the duct and the wall's normal, degrees. */
  skew: mm(-30, 30),
  width: mm(100, 600),
  body: fc.constantFrom('arcs', 'facets', 'mesh' as const),
  facets: mm(24, 80),
});

it.each(slices(RUNS, 10, SEED))('finds and measures $numRuns of them, seed $seed', async (slice) => {
  await fc.assert(
    fc.asyncProperty(crossing, async (c) => {
      const centre = [1000, -2000] as const;
      const degrees = 90 + c.place * c.spread;
      const angle = (degrees * Math.PI) / 180;
      const at = [centre[0] + c.radius * Math.cos(angle), centre[1] + c.radius * Math.sin(angle)] as const;
      const along = angle + (c.skew * Math.PI) / 180;
      const [dx, dy] = [800 * Math.cos(along), 800 * Math.sin(along)];
      const b = new ModelBuilder({
        fileName: 'random.ifc',
        schema: c.schema,
        unit: c.unit,
        rotation: c.rotation,
        offset: c.offset,
      });
      b.curvedWall({
        name: 'W',
        centre,
        radius: c.radius,
        thickness: c.thickness,
        from: 90 - c.spread,
        to: 90 + c.spread,
        height: 3000,
        body: c.body,
        facets: c.facets,
      });
      b.duct({
        name: 'D',
        from: [at[0] - dx, at[1] - dy, 1500],
        to: [at[0] + dx, at[1] + dy, 1500],
        width: c.width,
        height: 300,
        ports: true,
      });
      const federation = await readFederation([{ name: 'random.ifc', bytes: new TextEncoder().encode(b.toString()) }]);
      const { penetrations } = findPenetrations(federation);
      const turn = (c.rotation * Math.PI) / 180;
      const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
      const [x, y] = [at[0] * cos - at[1] * sin, at[0] * sin + at[1] * cos];
      expect(penetrations).toMatchObject([
        {
          crossing: 'through',
          position: [x + c.offset[0], y + c.offset[1], 1500 + c.offset[2]].map(within),
          barrier: { thickness: within(c.thickness) },
          duct: { width: within(c.width) },
        },
      ]);
      expect(penetrations[0]!.skew).toBeCloseTo(Math.abs(c.skew), 1);
    }),
    slice,
  );
});
