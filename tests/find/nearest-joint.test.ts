/** How near to a barrier ductwork is joined; numbers from the drawing of each case. */
import { expect, it } from 'vitest';
import { ModelBuilder } from '../../fixtures/model-builder.js';
import { findPenetrations } from '../../src/find/find-penetrations.js';
import { readFederation } from '../../src/read/read-federation.js';

const SIZE = { width: 400, height: 250, system: 'SA' } as const;
/** A wall of 128 mm along x, its middle at y = 0. */
async function joints(build: (b: ModelBuilder) => void) {
  const b = new ModelBuilder({ fileName: 'joints.ifc' });
  b.wall({ name: 'W', from: [0, 0], to: [5000, 0], thickness: 128, height: 3000, rating: '-/60/60' });
  build(b);
  const federation = await readFederation([{ name: 'joints.ifc', bytes: new TextEncoder().encode(b.toString()) }]);
  return findPenetrations(federation).penetrations;
}
const duct = (b: ModelBuilder, name: string, from: number, to: number) =>
  b.duct({ name, from: [2500, from, 1500], to: [2500, to, 1500], ...SIZE });

it.each([
  ['the nearer end of one piece', (b: ModelBuilder) => duct(b, 'A', -500, 900), 500 - 64],
  [
    'the joint of two pieces that meet in the wall',
    (b: ModelBuilder) => {
      duct(b, 'A', -1000, 34);
      duct(b, 'B', 34, 1000);
    },
    34 - 64,
  ],
  [
    'a branch on the side of the duct',
    (b: ModelBuilder) => {
      duct(b, 'A', -2000, 2000);
      b.duct({ name: 'branch', from: [2700, 400, 1500], to: [4000, 400, 1500], ...SIZE });
    },
    400 - 64,
  ],
  [
    'a bend without ports, by what touches its two ends',
    (b: ModelBuilder) => {
      b.transition({
        ...{ name: 'T', from: [2500, -200, 1500], to: [2500, 150, 1500], ...SIZE, ports: false },
        endSize: { width: 300, height: 250 },
      });
      duct(b, 'A', -1500, -200);
      b.duct({ name: 'B', from: [2500, 150, 1500], to: [2500, 1500, 1500], ...SIZE, width: 300 });
    },
    150 - 64,
  ],
  [
    'nothing, where a fitting without ports touches nothing',
    (b: ModelBuilder) => {
      b.transition({
        ...{ name: 'T', from: [2500, -200, 1500], to: [2500, 150, 1500], ...SIZE, ports: false },
        endSize: { width: 300, height: 250 },
      });
    },
    null,
  ],
])('%s', async (_, build, expected) => {
  const found = await joints(build as (b: ModelBuilder) => void);
  expect(found.map((p) => p.jointDistance)).toEqual([expected]);
});

it('says what shows the joint: ports, pieces that touch, or an end alone', async () => {
  const shown = async (build: (b: ModelBuilder) => void) =>
    (await joints(build)).map(({ jointDistance, jointFrom }) => [jointDistance, jointFrom]);
  expect(await shown((b) => duct(b, 'A', -104, 900))).toEqual([[104 - 64, 'end']]);
  // The second begins a gasket further on.
  const touching = await shown((b) => {
    duct(b, 'A', -1000, 30);
    duct(b, 'B', 34, 1000);
  });
  expect(touching).toEqual([[30 - 64, 'touching']]);
  const ported = await shown((b) => {
    b.duct({ name: 'A', from: [2500, -1000, 1500], to: [2500, 34, 1500], ...SIZE, ports: true });
    b.duct({ name: 'B', from: [2500, 34, 1500], to: [2500, 1000, 1500], ...SIZE, ports: true });
  });
  expect(ported).toEqual([[34 - 64, 'ports']]);
  // An end that is joined to nothing, as far before the wall as a joint lies behind it.
  const between = await shown((b) => {
    duct(b, 'A', -100, 101);
    duct(b, 'B', 101, 1000);
  });
  expect(between).toEqual([[100 - 64, 'end']]);
});

it('on each side of the wall is the nearest of that side', async () => {
  const [penetration] = await joints((b) => {
    duct(b, 'A', -500, 300);
    duct(b, 'B', 300, 900);
  });
  expect(penetration!.faces.map((face) => face!.joint?.distance)).toEqual([500 - 64, 300 - 64]);
});
