/**
 * Models with numbers out of all scale: a file that lost its length unit is a thousand times as large, a harmed profile as
 * wide as a town. They take no more than a building does, and what is measured stays a number.
 */
import { describe, expect, it } from 'vitest';
import { ModelBuilder } from '../../fixtures/model-builder.js';
import { findPenetrations } from '../../src/find/find-penetrations.js';
import { measureGaps } from '../../src/find/gaps.js';
import { headSteps } from '../../src/find/plates.js';
import { chordsFor, circle, densify, rectangle } from '../../src/geometry/polygon.js';
import type { Polygon } from '../../src/model.js';
import { readFederation } from '../../src/read/read-federation.js';
import { ARC_SAGITTA, HEAD_STEP, MOST_CHORDS, MOST_HEAD_STEPS } from '../../src/tolerances.js';

const moved = (p: Polygon, x: number): Polygon => p.map(([u, v]) => [u + x, v]);

describe('a file that lost its unit', () => {
  it('has no walls of kilometres, and says which elements were not read for it', async () => {
    const b = new ModelBuilder({ fileName: 'lost.ifc' });
    b.wall({ name: 'W', from: [0, 0], to: [5000, 0], thickness: 128, height: 900, rating: '-/60/60' });
    b.wall({ name: 'short', from: [0, 2000], to: [900, 2000], thickness: 128, height: 900, rating: '-/60/60' });
    const lost = b.toString().replace('.LENGTHUNIT.,.MILLI.,', '.LENGTHUNIT.,$,');
    const { barriers, models } = await readFederation([{ name: 'lost.ifc', bytes: new TextEncoder().encode(lost) }]);
    expect(barriers.map(({ name }) => name)).toEqual(['short']);
    expect(models[0]!.problems).toMatchObject([
      {
        code: 'unreadable-geometry',
        message: expect.stringContaining("5.0 km large: look at the file's unit of length"),
      },
    ]);
  });
});

describe('steps', () => {
  it('are as fine as ever at the size of buildings', () => {
    const radius = 100_000;
    const n = chordsFor(radius, 2 * Math.PI);
    expect(radius * (1 - Math.cos(Math.PI / n))).toBeLessThanOrEqual(ARC_SAGITTA);
    expect(headSteps(500_000)).toBe(500_000 / HEAD_STEP);
    expect(densify(rectangle(4000, 2000), 10)).toHaveLength(1200);
  });

  it('grow no more with what no building is', () => {
    expect(chordsFor(8e6, 2 * Math.PI)).toBe(MOST_CHORDS);
    expect(circle(16e6).length).toBeLessThanOrEqual(MOST_CHORDS);
    expect(headSteps(1e12)).toBe(MOST_HEAD_STEPS);
    expect(densify(rectangle(400_000_000, 250_000), 10).length).toBeLessThan(4010);
  });
});

describe('gaps', () => {
  const directions = { top: [0, 1], bottom: [0, -1], left: [-1, 0], right: [1, 0] } as const;

  it('of a side with no edge before it say how far it stands in the barrier', () => {
    // The opening begins 96 mm right of the middle of a duct of 400 mm: the left side is 296 mm off, and can't be Infinity.
    const plane = { duct: [rectangle(400, 400)], opening: moved(rectangle(300, 450), 246), services: [] };
    const { sides, max } = measureGaps([plane], directions, true);
    expect(sides).toMatchObject({ top: 25, bottom: 25, left: -296 });
    expect(max).toBe(25);
  });

  it('of a duct that is so wide that it is taken to run along the wall are numbers', async () => {
    const b = new ModelBuilder({ fileName: 'along.ifc' });
    const wall = { name: 'W', from: [0, 0], to: [5000, 0], thickness: 128, height: 3000, rating: '-/60/60' } as const;
    b.opening(b.wall(wall), { centre: [3000, 0, 1500], width: 460, height: 310 });
    const duct = { name: 'D', from: [3000, -6750, 1500], to: [3000, 6750, 1500], width: 400_000, height: 250 } as const;
    b.duct(duct);
    const federation = await readFederation([{ name: 'along.ifc', bytes: new TextEncoder().encode(b.toString()) }]);
    const { penetrations } = findPenetrations(federation);
    expect(penetrations).toHaveLength(1);
    const { gaps } = penetrations[0]!;
    expect(gaps).not.toBeNull();
    const { top, bottom, left, right, min, max } = gaps!;
    for (const gap of [top, bottom, left, right, min, max]) expect(gap).toSatisfy(Number.isFinite);
  });
});
