/**
 * What a duct's outline is the outside of, and what its gaps are measured to. The duct is 600 × 400 in an opening of
 * 700 × 500 in every case, so that the truth of each gap is plain: 50 to an outline of that size, 50 + t to a sheet that
 * lies t within it.
 */
import { describe, expect, it } from 'vitest';
import { hollow, ringFrom, several, solid } from '../../fixtures/builder/representations.js';
import { ModelBuilder, type StraightSpec } from '../../fixtures/model-builder.js';
import { findPenetrations } from '../../src/find/find-penetrations.js';
import type { DeclaredDuct, Penetration } from '../../src/model.js';
import { readFederation } from '../../src/read/read-federation.js';
import { NO_FACTS } from '../read/no-facts.js';

const WALL = { name: 'W', from: [0, 0], to: [5000, 0], thickness: 128, height: 3000, rating: '-/60/60' } as const;
const DUCT = { name: 'D', from: [3000, -1000, 1500], to: [3000, 1000, 1500], width: 600, height: 400 } as const;
const LENGTH = 2000;
const rect = (width: number, height: number) => ({ shape: 'rectangle', width, height }) as const;
const round = (diameter: number) => ({ shape: 'circle', diameter }) as const;

async function crossing(differs: Partial<StraightSpec>, ducts: readonly DeclaredDuct[] = [], schema?: 'IFC2X3') {
  const b = new ModelBuilder({ fileName: 'wall.ifc', ...(schema && { schema, unit: 'foot' }) });
  b.opening(b.wall(WALL), { centre: [3000, 0, 1500], width: 700, height: 500 });
  b.duct({ ...DUCT, ...differs } as StraightSpec);
  const inputs = [{ name: 'wall.ifc', bytes: new TextEncoder().encode(b.toString()) }];
  const facts = { ...NO_FACTS, ducts };
  const { penetrations } = findPenetrations(await readFederation(inputs, { facts }), { facts });
  expect(penetrations).toHaveLength(1);
  return penetrations[0]!;
}

/** Within 0.1 mm, the step of the report. */
const near = (n: number) => expect.closeTo(n, -Math.log10(2 * 0.1));
const size = (width: number, height: number) => ({ width: near(width), height: near(height), diameter: null });
const told = (p: Penetration) => [p.gapsTo, p.duct.wall.outline, p.gaps.left, p.gaps.top];

const LAYERS = [
  { material: 'Galvanised steel', thickness: 0.8 },
  { material: 'Mineral wool', thickness: 50 },
];
const insulated = (thickness: number) => ({
  wall: { properties: { set: 'Office_Ducts', values: { InsulationThickness: thickness } } },
});

describe('without any sign of insulation', () => {
  it('the outline is the sheet, and why is said', async () => {
    const p = await crossing({});
    expect(told(p)).toEqual(['sheet', 'sheet', 50, 50]);
    expect(p.duct.wall.evidence).toBe('nothing in the model says that it is insulated');
    expect(p.duct.sizes).toEqual({ inside: null, sheet: size(600, 400), insulation: null });
  });

  it.each([600, 598, 590])('a stated width of %d is drawn to within a sheet', async (width) => {
    const p = await crossing({ nominal: { width, height: width - 200 } });
    expect(told(p)).toEqual(['sheet', 'sheet', 50, 50]);
    expect(p.duct.wall.evidence).toMatch(/the size that it states/);
  });

  it('a size drawn 40 mm larger all round than stated may be anything', async () => {
    const p = await crossing({ nominal: { width: 520, height: 320 } });
    expect(told(p)).toEqual(['unknown', 'unknown', 50, 50]);
    expect(p.duct.wall.evidence).toMatch(/40 mm larger all round/);
    expect(p.duct.sizes).toEqual({ inside: null, sheet: null, insulation: null });
  });

  it('a size stated wrongly on one side is no insulation', async () => {
    expect(told(await crossing({ nominal: { width: 600, height: 300 } }))[0]).toBe('sheet');
  });

  it('a hollow profile of 1 mm shows sheet and inside', async () => {
    const p = await crossing({ draw: hollow(rect(600, 400), 1) });
    expect(told(p)).toEqual(['sheet', 'sheet', 50, 50]);
    expect(p.duct.wall.sheet).toEqual({ thickness: 1, from: 'geometry' });
    expect(p.duct.sizes).toMatchObject({ inside: size(598, 398), sheet: size(600, 400) });
  });

  it('a hollow profile of 30 mm is no sheet, and of what it is nobody says', async () => {
    const p = await crossing({ draw: hollow(rect(600, 400), 30), material: 'Galvanised steel' });
    expect(told(p)).toEqual(['unknown', 'unknown', 50, 50]);
  });

  it('a plastic wall of 10 mm is the duct itself', async () => {
    expect(told(await crossing({ draw: hollow(rect(600, 400), 10), material: 'PVC' }))[0]).toBe('sheet');
  });
});

describe('insulation that is told of and drawn', () => {
  const DRAWN = ['sheet', 'insulation', 100, 100];

  it('as thick a hollow profile as the property says', async () => {
    const p = await crossing({ draw: hollow(rect(600, 400), 51), ...insulated(50) });
    expect(told(p)).toEqual(DRAWN);
    expect(p.duct.wall.insulation).toEqual({ thickness: 50, from: 'property' });
    expect(p.duct.sizes).toEqual({ inside: size(498, 298), sheet: size(500, 300), insulation: size(600, 400) });
  });

  it('in feet and IFC2X3 too', async () => {
    expect(told(await crossing({ draw: hollow(rect(600, 400), 51), ...insulated(50) }, [], 'IFC2X3'))).toEqual(DRAWN);
  });

  it('a solid larger all round than stated by what the property says', async () => {
    const p = await crossing({ nominal: { width: 500, height: 300 }, ...insulated(50) });
    expect(told(p)).toEqual(DRAWN);
    expect(p.duct.sizes.sheet).toEqual(size(500, 300));
    expect(p.duct.stated).toEqual({ width: 500, height: 300, diameter: null });
  });

  it('a body of its own round the sheet', async () => {
    const shell = ringFrom(rect(600, 400), 40, 0, LENGTH);
    const p = await crossing({ draw: several(solid(rect(520, 320)), shell) });
    expect(told(p)).toEqual(['sheet', 'sheet', 90, 90]);
    expect(p.duct).toMatchObject({ width: 520, height: 320 });
    expect(p.duct.wall.insulation).toEqual({ thickness: 40, from: 'geometry' });
    expect(p.duct.sizes).toMatchObject({ sheet: size(520, 320), insulation: size(600, 400) });
  });

  it('a round sheet of 1 mm in a shell of 30 mm', async () => {
    const sheet = hollow(round(340), 1);
    const draw = several(ringFrom(round(400), 30, 0, LENGTH), sheet);
    const p = await crossing({ diameter: 400, draw } as Partial<StraightSpec>);
    expect(p.gapsTo).toBe('sheet');
    expect(p.duct).toMatchObject({ shape: 'circular', diameter: 340 });
    expect(p.gaps.min).toBeCloseTo(250 - 170, 0);
    expect(p.duct.wall).toMatchObject({ sheet: { thickness: 1 }, insulation: { thickness: 30 } });
    expect(p.duct.sizes.inside).toEqual({ width: null, height: null, diameter: 338 });
  });

  it('a lining within the sheet changes no gap', async () => {
    const lining = ringFrom(rect(598, 398), 25, 0, LENGTH);
    const p = await crossing({ draw: several(hollow(rect(600, 400), 1), lining) });
    expect(told(p)).toEqual(['sheet', 'sheet', 50, 50]);
    expect(p.duct.wall.lining).toEqual({ thickness: 25, from: 'geometry' });
  });

  it('a solid round its lining is the sheet, also of 6 mm, the thickest that ducts are made of', async () => {
    const lining = ringFrom(rect(588, 388), 25, 0, LENGTH);
    const p = await crossing({ draw: several(solid(rect(600, 400)), lining) });
    expect(p.duct.wall).toMatchObject({ insulation: null, lining: { thickness: 25 } });
    expect(p.duct).toMatchObject({ width: 600, height: 400 });
  });

  it('flanges are no insulation, and gaps are measured to them where they are in the wall', async () => {
    const flange = (from: number) => ringFrom(rect(660, 460), 30, from, 25);
    const outside = await crossing({ draw: several(solid(rect(600, 400)), flange(0), flange(LENGTH - 25)) });
    expect(told(outside)).toEqual(['sheet', 'sheet', 50, 50]);
    const inside = await crossing({ draw: several(solid(rect(600, 400)), flange(LENGTH / 2)) });
    expect(told(inside)).toEqual(['sheet', 'sheet', 20, 20]);
  });
});

describe('insulation that is told of and not drawn', () => {
  it('an element of its own', async () => {
    const draw = () => ringFrom(rect(680, 480), 40, 0, LENGTH);
    for (const predefined of ['INSULATION', 'WRAPPING'] as const) {
      const covering = {
        predefined,
        layers: LAYERS.slice(1),
        draw: (c: Parameters<ReturnType<typeof draw>>[0]) => draw()(c, LENGTH),
      };
      const p = await crossing({ wall: { covering } });
      expect(told(p)).toEqual(['sheet', 'sheet', 50, 50]);
      expect(p.duct.wall.insulation).toEqual({ thickness: 50, from: 'covering' });
    }
  });

  it('a sheet drawn hollow', async () => {
    expect(told(await crossing({ draw: hollow(rect(600, 400), 1), ...insulated(50) }))).toEqual([
      'sheet',
      'sheet',
      50,
      50,
    ]);
  });

  it('a solid drawn in the stated size', async () => {
    expect(told(await crossing({ nominal: { width: 600, height: 400 }, ...insulated(50) }))[0]).toBe('sheet');
  });
});

describe('whether it is drawn can not be told', () => {
  it.each<[string, Partial<StraightSpec>]>([
    ['a property, and no stated size', insulated(50)],
    ['layers', { wall: { layers: LAYERS } }],
    ['constituents', { wall: { constituents: { Casing: 'Steel', Insulation: 'Mineral wool' } } }],
    ['a covering that is not drawn', { wall: { covering: { predefined: 'INSULATION' } } }],
    ['a name', { name: 'Duct, insulated' }],
    ['a type', { typeName: 'Rectangular duct gedämmt' }],
    ['a material', { material: 'Mineral wool faced with foil' }],
    [
      'layers that fit a thick wall, but perhaps inside',
      { draw: hollow(rect(600, 400), 51), wall: { layers: LAYERS } },
    ],
  ])('from %s', async (_, differs) => {
    const p = await crossing(differs);
    expect(p.gapsTo).toBe('unknown');
    expect(p.duct.wall.evidence).toMatch(/can not be told/);
  });
});

describe('words that say no insulation', () => {
  it.each<[string, Partial<StraightSpec>]>([
    ['a thickness of 0', insulated(0)],
    ['a text', { wall: { properties: { set: 'Office_Ducts', values: { Insulation: 'none' } } } }],
    ['a name', { name: 'Duct, uninsulated' }],
    ['a damper word', { name: 'Isolation spool' }],
    ['a lining', { wall: { properties: { set: 'Pset_DuctSegmentOccurrence', values: { HasLiner: true } } } }],
  ])('%s', async (_, differs) => {
    expect(told(await crossing(differs))[0]).toBe('sheet');
  });
});

describe('the brief', () => {
  it('says how thick insulation and sheet are, by words in names', async () => {
    const ducts = [{ words: ['type i50'], insulation: 50, sheet: 0.9 }];
    const p = await crossing({ typeName: 'Duct Type I50', nominal: { width: 500, height: 300 } }, ducts);
    expect(told(p)).toEqual(['sheet', 'insulation', 100, 100]);
    expect(p.duct.wall).toMatchObject({
      insulation: { thickness: 50, from: 'brief' },
      sheet: { thickness: 0.9, from: 'brief' },
    });
  });

  it('says that there is none', async () => {
    const p = await crossing({ name: 'Insulated in name only' }, [{ words: ['insulated'], insulation: 0 }]);
    expect(told(p)[0]).toBe('sheet');
  });

  it('says what is flexible', async () => {
    expect((await crossing({ typeName: 'Softconn' }, [{ words: ['softconn'], flexible: true }])).duct.element).toBe(
      'flexible',
    );
  });
});

it.each([
  ['Flex duct 600', 'NOTDEFINED', 'flexible'],
  ['Aluflex', 'FLEXIBLESEGMENT', 'flexible'],
  ['Flex duct 600', 'RIGIDSEGMENT', 'segment'],
  ['Duct', 'NOTDEFINED', 'segment'],
])('a duct named "%s" of type %s is %s', async (name, predefined, element) => {
  expect((await crossing({ name, predefined })).duct.element).toBe(element);
});

it('an ellipse is no flat oval: it has no size that any test speaks of', async () => {
  const { ellipse } = await import('../../fixtures/builder/representations.js');
  const p = await crossing({ draw: ellipse(600, 400) });
  expect(p.duct).toMatchObject({ shape: 'unknown', width: null, sectionProblem: 'noShape' });
});
