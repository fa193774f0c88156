/** Files exported from another origin than the rest: which are taken for the strays, and what they are measured from. */
import { expect, it } from 'vitest';
import { ModelBuilder } from '../../fixtures/model-builder.js';
import { findPenetrations } from '../../src/find/find-penetrations.js';
import { readFederation } from '../../src/read/read-federation.js';

/** Files of one duct of 2 m each, from these places along x; null: of none. */
async function strays(starts: readonly (number | null)[]) {
  const inputs = starts.map((x, i) => {
    const b = new ModelBuilder({ fileName: `${i}.ifc` });
    if (x !== null) b.duct({ name: 'D', from: [x, 0, 2500], to: [x + 2000, 0, 2500], width: 400, height: 300 });
    return { name: `${i}.ifc`, bytes: new TextEncoder().encode(b.toString()) };
  });
  const federation = await readFederation(inputs);
  const file = (id: string) => federation.models.find((model) => model.id === id)?.file;
  return findPenetrations(federation).apart.map(({ model, from, distance, offset }) => [
    ...[file(model), file(from), distance, offset[0]],
  ]);
}

it('files that lie within a metre of each other are together', async () => {
  expect(await strays([0, 3000, 6000])).toEqual([]);
  expect(await strays([0, 3001])).toEqual([['1.ifc', '0.ifc', 1001, 3001]]);
});

it('of groups that are as large the one with the first file is not the stray', async () => {
  expect(await strays([0, 80_000, 82_500, 2500])).toEqual([
    ['1.ifc', '3.ifc', 75_500, 77_500],
    ['2.ifc', '3.ifc', 78_000, 80_000],
  ]);
});

it('the larger group is not the stray, whichever comes first', async () => {
  expect(await strays([80_000, 0, 2500])).toEqual([['0.ifc', '2.ifc', 75_500, 77_500]]);
});

it('a file that joins two groups makes them one', async () => {
  expect(await strays([0, 5000, 90_000, 2500])).toEqual([['2.ifc', '1.ifc', 83_000, 85_000]]);
});

it('a file with neither ductwork nor barriers is no stray, and nothing is measured from it', async () => {
  expect(await strays([null, 0, 80_000])).toEqual([['2.ifc', '1.ifc', 78_000, 80_000]]);
});
