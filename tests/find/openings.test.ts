/** Which file an opening is told to be in: its own, or, of a hole in the body of a barrier, that of the barrier. */
import { expect, it } from 'vitest';
import { openingFacts } from '../../src/find/openings.js';
import { type Fit, outlineOfFit } from '../../src/geometry/fit.js';
import { circle, rectangle } from '../../src/geometry/polygon.js';
import type { Opening, Polygon } from '../../src/model.js';

it.each([
  ['an element', 'm2', { model: 'm2', globalId: 'O', from: 'element' }],
  ['a hole', undefined, { model: 'm1', globalId: null, from: 'hole' }],
])('%s', (_, model, expected) => {
  const opening: Opening | undefined =
    model === undefined
      ? undefined
      : {
          ...{ model, globalId: 'O', name: 'O', entity: 'IFCOPENINGELEMENT', storey: undefined, bodies: [] },
          ...{ filledBy: [], doors: [] },
        };
  const outline = rectangle(500, 400);
  const found = { element: opening, outlineAt: () => outline };
  expect(openingFacts(found, outline, 'm1')).toMatchObject({ ...expected, width: 500, height: 400 });
});

const OVAL: Fit = {
  ...{ shape: 'oval', centre: [0, 0], along: [1, 0], length: 600, breadth: 300, residual: 0, chord: 0 },
};
const L: Polygon = [
  [100, 200],
  [900, 200],
  [900, 400],
  [300, 400],
  [300, 800],
  [100, 800],
];
it.each<[string, Polygon, string, number, number]>([
  ['a rectangle that lies', rectangle(500, 400), 'rectangular', 500, 400],
  ['a rectangle that stands', rectangle(400, 500), 'rectangular', 400, 500],
  ['a circle', circle(350), 'circular', 350, 350],
  ['what is neither, by the box round it', L, 'other', 800, 600],
  ['a flat oval, by the box round it', outlineOfFit(OVAL), 'other', 600, 300],
])('of what shape it is: %s', (_, outline, shape, width, height) => {
  const facts = openingFacts({ element: undefined, outlineAt: () => outline }, outline, 'm1');
  expect(facts).toMatchObject({ shape, width: expect.closeTo(width, 1), height: expect.closeTo(height, 1) });
});
