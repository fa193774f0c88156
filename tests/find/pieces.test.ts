/** How pieces of ductwork are read from their bodies and ports; from the drawing. */
import { expect, it } from 'vitest';
import { readPieces } from '../../src/find/pieces.js';
import { PortLinks } from '../../src/find/port-links.js';
import { straightReadings } from '../../src/find/straight.js';
import { prismMesh } from '../../src/geometry/loft.js';
import { rectangle } from '../../src/geometry/polygon.js';
import { distance } from '../../src/geometry/vector.js';
import type { Prism } from '../../src/model.js';
import { aDuct, upright } from './elements.js';

it('a duct of several bodies reaches over all that go on, on both sides of the longest', () => {
  const heights = [0, 500, 1000, 4000, 4500, 5000];
  const bodies = heights.slice(1).map((to, i) => upright(rectangle(400, 300), heights[i]!, to));
  for (const inFile of [bodies, bodies.toReversed()]) {
    const [reading] = straightReadings(aDuct({ bodies: inFile }));
    expect(reading!.axis.map(([, , z]) => z).sort((a, b) => a - b)).toEqual([0, 5000]);
  }
});

it('a box drawn as a mesh is straight three ways, each of them once', () => {
  const readings = straightReadings(aDuct({ bodies: [prismMesh(upright(rectangle(400, 300), 0, 3000))] }));
  expect(readings.map(({ axis }) => Math.round(distance(...axis)))).toEqual([3000, 400, 300]);
});

it('ports that are connected with nothing link no pieces', () => {
  const port = { globalId: 'P', at: [0, 0, 0], connectedTo: undefined } as const;
  const known = aDuct({ ports: [port] });
  const elsewhere = aDuct({ globalId: 'E' });
  expect(new PortLinks([known]).areLinked(known, elsewhere)).toBe(false);
});

it.each([
  ['a joint away', 10, 200],
  ['further', 11, 400],
])('a short box is read towards a duct that begins %s, else along its longest side', (_, gap, expected) => {
  const section = rectangle(400, 300);
  const [, box] = readPieces([
    aDuct({ bodies: [upright(section, 0, 3000)] }),
    aDuct({ globalId: 'B', bodies: [upright(section, 3000 + gap, 3200 + gap)] }),
  ]);
  expect(distance(...box!.straight!.axis)).toBeCloseTo(expected, 6);
});

it('a branch in the middle of a side does not turn a duct round: which way it goes is not certain', () => {
  const section = rectangle(400, 300);
  const branch: Prism = {
    ...{ kind: 'prism', frame: { origin: [200, 0, 1500], x: [0, 1, 0], y: [0, 0, 1], z: [1, 0, 0] } },
    ...{ outline: rectangle(200, 200), voids: [], sweep: [1000, 0, 0] },
  };
  const [duct] = readPieces([
    aDuct({ bodies: [upright(section, 0, 3000)] }),
    aDuct({ globalId: 'B', bodies: [branch] }),
  ]);
  expect(distance(...duct!.straight!.axis)).toBeCloseTo(3000, 6);
  expect(duct!.otherReadings.length).toBeGreaterThan(0);
});
