/** Which file an opening is told to be in: its own, or, of a hole in the body of a barrier, that of the barrier. */
import { expect, it } from 'vitest';
import { openingFacts } from '../../src/find/openings.js';
import { rectangle } from '../../src/geometry/polygon.js';
import type { Opening } from '../../src/model.js';

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
