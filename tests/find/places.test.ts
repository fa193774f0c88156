/** Grid lines and rooms of penetrations: the demo's against its plan, worked out by hand, and small buildings for one question. */
import { describe, expect, it } from 'vitest';
import { demoBuilding } from '../../fixtures/demo-building.js';
import { type BuilderOptions, ModelBuilder, rectangle } from '../../fixtures/model-builder.js';
import { findPenetrations } from '../../src/find/find-penetrations.js';
import type { Place } from '../../src/model.js';
import { readFederation } from '../../src/read/read-federation.js';

const encoder = new TextEncoder();
const read = (files: readonly { readonly name: string; readonly text: string }[]) =>
  readFederation(files.map(({ name, text }) => ({ name, bytes: encoder.encode(text) })));
const names = ({ rooms }: Place) => rooms.map((room) => room?.name ?? null);

/** Axes A to D stand at y = 0, 6, 12, 18 m; 1 to 6 at x = 0, 6 … 30 m. */
const PLAN: readonly (readonly [duct: string, grid: string, against: string | null, along: string | null])[] = [
  ['FD-G-1', 'B + 3.0 m / 1 + 3.0 m', 'G.01 Café', 'G.04 Corridor'],
  ['SA-G-2', 'B + 3.0 m / 3 + 0.5 m', 'G.02 Ticket hall', 'G.04 Corridor'],
  ['SA-G-8', 'B + 3.0 m / 5 - 0.8 m', 'G.02 Ticket hall', 'G.04 Corridor'],
  ['KX-G-1', 'C + 1.5 m / 4', 'G.05 Kitchen', 'G.07 Staff'],
  ['KX-G-2', 'C + 1.5 m / 5', 'G.07 Staff', 'G.SH Shaft'],
  ['FD-G-9', 'C / 3 + 3.0 m', 'G.04 Corridor', 'G.05 Kitchen'],
  ['SP-G-1', 'C + 3.0 m / 2', 'G.ST Stair', 'G.06 Servery'],
  ['FD-F-4', 'B + 3.0 m / 1 + 2.2 m', '1.01 Office west', '1.04 Lobby'],
  ['FD-F-8', 'B + 3.0 m / 5 - 1.5 m', '1.02 Office east', '1.03 Open office'],
  // Nothing is drawn between the first floor's offices and the shaft.
  ['FD-F-9', 'C / 5 + 1.5 m', null, 'F.SH Shaft'],
  // Seen on plan the normal points down: against it is above.
  ['KX riser', 'C + 1.5 m / 5 + 1.5 m', 'F.SH Shaft', 'G.SH Shaft'],
  ['FD-TX-F', 'C - 1.5 m / 5 - 2.5 m', '1.03 Open office', 'G.04 Corridor'],
  ['FD-TX-R', 'C - 1.5 m / 5 - 2.5 m', null, '2.02 Corridor'],
];

describe.each([
  ['IFC4', {}],
  ['the architecture as IFC2X3 in feet', { schema: 'IFC2X3', unit: 'foot' }],
] as const)('the demo, %s', async (_, options) => {
  const federation = await read(demoBuilding(options).files);
  const places = new Map(findPenetrations(federation).penetrations.map((p) => [p.duct.name, p.place]));

  it('is read with its grid and rooms', () => {
    expect(federation.grids!.map(({ families }) => families.map((f) => f.map(({ tag }) => tag).join('')))).toEqual([
      ['ABCD', '123456'],
    ]);
    expect(federation.spaces).toHaveLength(26);
    expect(federation.models.flatMap((m) => m.problems)).toEqual([]);
  });

  it.each(PLAN)('%s', (duct, grid, against, along) => {
    expect(places.get(duct)?.grid).toBe(grid);
    expect(names(places.get(duct)!)).toEqual([against, along]);
  });
});

async function placeIn(build: (b: ModelBuilder) => void, options: Partial<BuilderOptions> = {}): Promise<Place> {
  const b = new ModelBuilder({ fileName: 'one.ifc', ...options });
  b.storey('Ground', 0);
  build(b);
  b.wall({ name: 'Wall', from: [0, 0], to: [6000, 0], thickness: 128, height: 3000 });
  b.duct({ name: 'Duct', from: [3000, -2000, 2500], to: [3000, 2000, 2500], width: 400, height: 200 });
  const [penetration] = findPenetrations(await read([{ name: 'one.ifc', text: b.toString() }])).penetrations;
  return penetration!.place;
}
const room = (name: string, south: number, north: number) => ({
  ...{ name, longName: 'Room', outline: rectangle([0, south], [6000, north]), height: 2400 },
});
const line = (tag: string, x: number) => ({ tag, from: [x, -5000] as const, to: [x, 5000] as const });

it('faces look against the normal of the barrier and along it', async () => {
  const b = new ModelBuilder({ fileName: 'ways.ifc' });
  b.wall({ name: 'Along x', from: [0, 0], to: [6000, 0], thickness: 128, height: 3000 });
  b.wall({ name: 'Along y', from: [0, 4000], to: [0, 9000], thickness: 128, height: 3000 });
  b.slab({ name: 'Floor', outline: rectangle([20_000, 0], [26_000, 6000]), thickness: 200, top: 0 });
  const duct = { name: 'Duct', width: 400, height: 200 };
  b.duct({ ...duct, from: [3000, -2000, 2500], to: [3000, 2000, 2500] });
  b.duct({ ...duct, from: [-2000, 7000, 2500], to: [2000, 7000, 2500] });
  b.duct({ ...duct, from: [23_000, 3000, -2000], to: [23_000, 3000, 2000] });
  const { penetrations } = findPenetrations(await read([{ name: 'ways.ifc', text: b.toString() }]));
  const ways = penetrations.map(({ barrier, faces }) => [barrier.name, faces.map((face) => face!.towards)]);
  expect(Object.fromEntries(ways)).toEqual({
    'Along x': ['south', 'north'],
    'Along y': ['west', 'east'],
    Floor: ['above', 'below'],
  });
});

describe('one duct through one wall', () => {
  it('has no place where the model names none', async () => {
    expect(await placeIn(() => {})).toEqual({ grid: null, rooms: [null, null] });
  });

  it('lies in the rooms on both sides, under whose ceilings it runs, and in no other storey', async () => {
    const place = await placeIn((b) => {
      b.space(room('1', -4000, -64));
      b.space(room('2', 64, 4000));
      const above = b.storey('First', 2900);
      b.space({ ...room('9', -4000, 4000), storey: above });
      b.storey('Ground again', 0);
    });
    expect(names(place)).toEqual(['1 Room', '2 Room']);
  });

  it('finds no room in another storey where its own has none', async () => {
    const place = await placeIn((b) => {
      const above = b.storey('First', 2900);
      b.space({ ...room('9', -4000, 4000), storey: above });
      b.storey('Ground again', 0);
    });
    expect(place.rooms).toEqual([null, null]);
  });

  it.each([
    ['in the order of the file', [line('1', 0), line('2', 5000)], '2 - 2.0 m'],
    ['the other way round', [line('1', 5000), line('2', 0)], '1 + 2.0 m'],
    ['on the line', [line('1', 0), line('2', 3020)], '2'],
    ['of one axis', [line('X', 1800)], 'X + 1.2 m'],
    ['of tags that are none', [line(' ', 3000), line('Y', 2000)], 'Y + 1.0 m'],
  ] as const)('by a grid %s', async (_, u, grid) => {
    expect((await placeIn((b) => b.grid({ name: 'G', u, v: [] }))).grid).toBe(grid);
  });

  it('by the nearest of two grids, wherever the site is turned to', async () => {
    const place = await placeIn(
      (b) => {
        b.grid({ name: 'Far', u: [line('F', 40_000)], v: [] });
        b.grid({ name: 'Near', u: [line('N', 1000), line('M', 9000)], v: [] });
        b.space(room('2', 64, 4000));
      },
      { rotation: 35, offset: [4e9, 2e9, 1e5], unit: 'metre', schema: 'IFC4X3' },
    );
    expect(place.grid).toBe('N + 2.0 m');
    expect(names(place)).toContain('2 Room');
  });
});
