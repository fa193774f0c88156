/** Sheet, insulation and lining that are drawn as bodies of their own, told apart by how thick each is; from the drawing. */
import { expect, it } from 'vitest';
import { straightReadings } from '../../src/find/straight.js';
import { circle, rectangle } from '../../src/geometry/polygon.js';
import type { Prism, Vec2 } from '../../src/model.js';
import { aDuct, along } from './elements.js';

/** From one section within another, 3 m along y. */
function tube([width, height]: Vec2, wall: number, [from, to]: Vec2 = [0, 3000], at?: Vec2): Prism {
  return { ...along(rectangle(height, width), from, to, at), voids: [rectangle(height - 2 * wall, width - 2 * wall)] };
}
const round = (diameter: number, wall: number): Prism => {
  return { ...along(circle(diameter), 0, 3000), voids: [circle(diameter - 2 * wall)] };
};
function told(...bodies: readonly Prism[]) {
  const [reading, inReverse] = [bodies, bodies.toReversed()].map(
    (inFile) => straightReadings(aDuct({ bodies: inFile }))[0]!,
  );
  const of = ({ fit, shells }: NonNullable<typeof reading>) => ({
    sheet: Math.round(fit.breadth * 10) / 10,
    insulation: shells.insulation.map((body) => bodies.indexOf(body as Prism)).sort(),
    thickness: shells.insulationThickness,
    lining: shells.liningThickness,
  });
  expect(of(inReverse!)).toEqual(of(reading!));
  return of(reading!);
}

const SHEET = tube([400, 300], 1);
const WOOL = tube([500, 400], 50);
const NOTHING = { insulation: [], thickness: undefined, lining: undefined };

it.each<[string, readonly Prism[], ReturnType<typeof told>]>([
  ['a sheet alone', [SHEET], { ...NOTHING, sheet: 300 }],
  ['a sheet in its insulation', [SHEET, WOOL], { ...NOTHING, sheet: 300, insulation: [1], thickness: 50 }],
  ['a sheet with a lining in it', [SHEET, tube([398, 298], 25)], { ...NOTHING, sheet: 300, lining: 25 }],
  ['all three', [SHEET, WOOL, tube([398, 298], 25)], { sheet: 300, insulation: [1], thickness: 50, lining: 25 }],
  [
    'two layers of insulation, of which all is measured',
    [SHEET, tube([480, 380], 40), tube([560, 460], 40)],
    { ...NOTHING, sheet: 300, insulation: [1, 2], thickness: 80 },
  ],
  [
    'a round sheet in its insulation',
    [round(300, 1), round(400, 50)],
    { ...NOTHING, sheet: 300, insulation: [1], thickness: 50 },
  ],
  [
    'insulation that is drawn solid, the duct within it',
    [SHEET, along(rectangle(400, 500), 0, 3000)],
    { ...NOTHING, sheet: 300, insulation: [1], thickness: 50 },
  ],
  ['a sheet of 6 mm, lined', [tube([400, 300], 6), tube([388, 288], 30)], { ...NOTHING, sheet: 300, lining: 30 }],
  [
    'what is thicker than any sheet',
    [tube([400, 300], 6.1), tube([387.8, 287.8], 30)],
    { ...NOTHING, sheet: 287.8, insulation: [0], thickness: 6.1 },
  ],
  ['one body twice', [SHEET, SHEET], { ...NOTHING, sheet: 300 }],
])('%s', (_, bodies, expected) => {
  const { thickness, lining, ...rest } = told(...bodies);
  expect(rest).toEqual({ sheet: expected.sheet, insulation: expected.insulation });
  for (const [is, wanted] of [
    [thickness, expected.thickness],
    [lining, expected.lining],
  ] as const)
    expect(is).toEqual(wanted === undefined ? undefined : expect.closeTo(wanted, 6));
});

it.each<[string, Prism, boolean]>([
  ['150 mm long', tube([500, 400], 50, [1000, 1150], [700, 1500]), true],
  ['shorter: a flange', tube([500, 400], 50, [1000, 1149.9], [700, 1500]), false],
  ['5 mm off the middle', tube([500, 400], 50, [0, 2900], [705, 1500]), true],
  ['further off', tube([500, 400], 50, [0, 2900], [705.1, 1500]), false],
  ['off the middle both ways', tube([500, 400], 50, [0, 2900], [703, 1504]), true],
  ['further off both ways', tube([500, 400], 50, [0, 2900], [704, 1504]), false],
  ['beside it', tube([500, 400], 50, [0, 2900], [2700, 1500]), false],
])('what goes round a duct is its insulation: %s', (_, body, expected) => {
  // The sheet is the longest, so that it is what is read first.
  const long = tube([400, 300], 1, [0, 9000], [700, 1500]);
  const { shells, fit } = straightReadings(aDuct({ bodies: [long, body] }))[0]!;
  expect(fit.breadth).toBeCloseTo(300, 6);
  expect(shells.insulation).toEqual(expected ? [body] : []);
  expect(shells.insulationThickness).toEqual(expected ? expect.closeTo(50, 6) : undefined);
});
