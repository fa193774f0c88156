/** In which order crossings stand in the register: by file, storey, barrier, place. */
import { expect, it } from 'vitest';
import { ModelBuilder } from '../../fixtures/model-builder.js';
import { findPenetrations } from '../../src/find/find-penetrations.js';
import { readFederation } from '../../src/read/read-federation.js';

/** A wall along x on a storey at this height, and a duct through it at each of these places. */
function storey(fileName: string, level: number, places: readonly number[]) {
  const b = new ModelBuilder({ fileName });
  b.storey(fileName, level);
  b.wall({ name: 'Wall', from: [0, 0], to: [9000, 0], thickness: 128, height: 3000, base: level });
  const at = level + 2500;
  for (const x of places)
    b.duct({ name: `${fileName} ${x}`, from: [x, -1000, at], to: [x, 1000, at], width: 300, height: 200 });
  return { name: fileName, bytes: new TextEncoder().encode(b.toString()) };
}

const order = async (files: readonly ReturnType<typeof storey>[]) =>
  findPenetrations(await readFederation(files)).penetrations.map(({ duct }) => duct.name);

it('goes by the files first, whatever storeys are in them', async () => {
  const files = [storey('a.ifc', 3200, [1000]), storey('b.ifc', 0, [1000]), storey('c.ifc', 6400, [1000])];
  expect(await order(files)).toEqual(['a.ifc 1000', 'b.ifc 1000', 'c.ifc 1000']);
});

it('goes along one wall by place, whatever was drawn first', async () => {
  expect(await order([storey('a.ifc', 0, [7000, 1000, 4000])])).toEqual(['a.ifc 1000', 'a.ifc 4000', 'a.ifc 7000']);
});

it('goes by storeys from below, in whatever order a file has them', async () => {
  const b = new ModelBuilder({ fileName: 'a.ifc' });
  const levels = [6400, 12_800, 3200, 9600, 16_000];
  for (const level of levels) {
    b.storey(`Level ${level}`, level);
    b.wall({ name: 'Wall', from: [0, 0], to: [9000, 0], thickness: 128, height: 3000, base: level });
    const at = level + 2500;
    b.duct({ name: `${level}`, from: [1000, -1000, at], to: [1000, 1000, at], width: 300, height: 200 });
  }
  const file = { name: 'a.ifc', bytes: new TextEncoder().encode(b.toString()) };
  expect(await order([file])).toEqual(['3200', '6400', '9600', '12800', '16000']);
});
