/** What closes the head of a rated wall; from the drawing. */
import { expect, it } from 'vitest';
import { ModelBuilder, rectangle } from '../../fixtures/model-builder.js';
import { findPenetrations } from '../../src/find/find-penetrations.js';
import { readFederation } from '../../src/read/read-federation.js';

it('a wall that stands on it closes it, however far over it the slab is', async () => {
  const b = new ModelBuilder({ fileName: 'heads.ifc' });
  const line = { from: [0, 0], to: [6000, 0], thickness: 200 } as const;
  b.wall({ ...line, name: 'W', height: 3000, rating: '-/60/60' });
  b.wall({ ...line, name: 'Upper', to: [4000, 0], base: 3000, height: 300 });
  b.slab({ name: 'S', outline: rectangle([-1000, -3000], [7000, 3000]), thickness: 200, top: 3700 });
  const federation = await readFederation([{ name: 'heads.ifc', bytes: new TextEncoder().encode(b.toString()) }]);
  const { barriers } = findPenetrations(federation);
  // Over the 2 m that the upper wall leaves, 500 mm are open.
  expect(barriers.find(({ name }) => name === 'W')!.head).toMatchObject({ gap: 500, length: 2000 });
});
