/** Ducts that slant so much, or meet a barrier so near its edge, that a line along their axis does not show the crossing. */
import { expect, it } from 'vitest';
import { ModelBuilder } from '../../fixtures/model-builder.js';
import { findPenetrations } from '../../src/find/find-penetrations.js';
import { readFederation } from '../../src/read/read-federation.js';
import { ROUND_A_CORNER } from './elements.js';
import { drawLoose, type LooseDuct } from './loose-ducts.js';

const DUCT: LooseDuct = {
  kind: 'wall',
  thickness: 200,
  middle: [0, 0, 0],
  bearing: 0,
  rise: 0,
  length: 4000,
  round: false,
  width: 400,
  height: 400,
};

it.each<[string, Partial<LooseDuct>, string[]]>([
  ['goes from face to face at 4 degrees, and out at the ends of the wall too', { bearing: 4 }, ['partial']],
  ['runs along beyond one face, its side set into the wall', { middle: [0, 250, 0], bearing: 2 }, []],
  [
    'runs along beyond one face, its side out at the other: a wall of 126 mm within a duct of 798 mm',
    { thickness: 126, middle: [0, 158, 0], bearing: 5, width: 798 },
    ['partial'],
  ],
  [
    'runs along like that, parallel and shorter than the wall',
    { thickness: 126, middle: [0, -158, 0], width: 798, length: 1200 },
    ['partial'],
  ],
  [
    'runs along in a slab, its lower side out below',
    { kind: 'slab', thickness: 100, middle: [0, 0, 120], length: 1200 },
    ['partial'],
  ],
  ['runs along, nine tenths of the wall within it but for 3 mm', { middle: [0, 123, 0] }, []],
  ['runs along, nine tenths of the wall within it and 3 mm more', { middle: [0, 117, 0] }, ['partial']],
  ['stands in the plane of the wall, half in its end', { middle: [1500, 0, 0], rise: 89 }, ['partial']],
  ['lies in the plane of the wall, half in its top', { middle: [0, 0, 1500] }, ['partial']],
  [
    'dips into the top at 20 degrees within the thickness',
    { middle: [0, 0, 1800], rise: -20, height: 100 },
    ['partial'],
  ],
  ...[0, 40, 80, 120, 160, 200].map((aside): [string, Partial<LooseDuct>, string[]] => [
    `lies on a wall of 100 mm that reaches into its lower side, ${aside} mm off its middle`,
    { thickness: 100, middle: [0, aside, 1600], width: 2000, length: 1200 },
    ['partial'],
  ]),
  ['lies in a slab, over its edge', { kind: 'slab', middle: [0, -1600, 0] }, ['partial']],
  [
    'ends inside, one corner of its end out at the far face',
    { middle: [-1000, -1400, 0], bearing: 45, round: true },
    ['endsInside'],
  ],
  [
    'reaches the wall with the rim of its end only',
    { middle: [-1000, -1600, 0], bearing: 45, round: true },
    ['endsInside'],
  ],
])('%s', async (_, change, crossings) => {
  const federation = await readFederation([drawLoose([{ ...DUCT, ...change }], 'grazing.ifc')]);
  expect(findPenetrations(federation).penetrations.map((p) => p.crossing)).toEqual(crossings);
});

it('lies in a slab that goes round a corner, over an edge of it, its axis between the two legs', async () => {
  const b = new ModelBuilder({ fileName: 'corner.ifc' });
  b.slab({
    ...{ name: 'S', thickness: 300, top: 0 },
    outline: ROUND_A_CORNER,
  });
  b.duct({ name: 'D', from: [1500, 1150, -150], to: [3500, 1150, -150], width: 400, height: 200 });
  const federation = await readFederation([{ name: 'corner.ifc', bytes: new TextEncoder().encode(b.toString()) }]);
  expect(findPenetrations(federation).penetrations.map((p) => p.crossing)).toEqual(['partial']);
});
