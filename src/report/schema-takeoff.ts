/** What is bought, cut and fixed, as report.json has it. */
import * as z from 'zod';
import { MATERIAL_KINDS, MEASURES, QUANTITIES, TOTALS_BY } from '../quantify/takeoff.js';
import { count, elementRef, mm, ruleStatus, side } from './schema-parts.js';

const some = z.number().nonnegative();
const known = some.nullable();

const place = {
  penetration: z.string().nullable().describe('Id; exactly one of penetration and run is given'),
  run: z.string().nullable(),
  storey: z.string().nullable().describe('GlobalId; null: the models do not say'),
  system: z.string().nullable(),
};

const quantities = {
  pieces: count,
  lengthM: known,
  areaM2: known,
  volumeL: known,
  massKg: known,
  cost: known.describe('Of what is built in, without waste; null: the brief gives no price that fits'),
  hours: known.describe('By the rates of the brief'),
  labourCost: known.describe('Of these hours'),
};

const material = z.object({
  id: z.string(),
  kind: z.enum(MATERIAL_KINDS),
  name: z.string(),
  measure: z.enum(MEASURES).describe('How it is bought'),
  testedSystem: z.string().nullable().describe('That asks for it; null: the project does'),
  status: ruleStatus.nullable(),
});

const item = z.object({
  id: z.string(),
  material: z.string().describe('Id of a material'),
  ...place,
  element: elementRef.nullable().describe('That it goes on; null: it belongs to the penetration as a whole'),
  what: z.string(),
  layer: z
    .object({
      number: z.number().describe('From the inside'),
      thickness: z.number(),
      bare: side.nullable().describe('The side that it leaves out'),
    })
    .exactOptional()
    .describe('Of blanket and board along a run'),
  length: mm.describe('Of one piece as it is cut, mm'),
  width: mm,
  ...quantities,
  formula: z.string().describe('By which it was counted'),
  source: z.string(),
});

const sum = z.object({
  sum: known.describe('null: none of it is known'),
  unknownIn: count.describe('How many have no value; the sum is "at least"'),
});

const total = z.object({
  by: z.enum(TOTALS_BY),
  id: z
    .string()
    .nullable()
    .describe('Of the penetration or run, GlobalId of the storey, name of the system; null: not known, or the project'),
  material: z.string(),
  ...quantities,
  unknownIn: z
    .array(z.object({ quantity: z.enum(QUANTITIES), items: count }))
    .describe('Of how many items a quantity is not known; its sum is "at least"'),
});

const uncounted = z.object({
  material: z.enum(MATERIAL_KINDS).nullable().describe('null: all that is needed there'),
  ...place,
  what: z.string(),
  because: z.string().describe('Which fact is missing, and who could say it'),
});

const stock = z.object({
  id: z.string(),
  form: z.enum(['bar', 'roll', 'sheet']),
  length: some,
  width: some.exactOptional().describe('Of rolls and sheets'),
  kerf: some.describe('What a cut takes away, mm'),
  onHand: count.exactOptional().describe('So many are there already and are not bought'),
});

/** Along the stock, and across it. */
const rectangle = { x: some, y: some, length: some, width: some.exactOptional().describe('Not of bars') };

const plan = z.object({
  patterns: z.array(
    z.object({
      stock,
      times: count.describe('So many pieces of stock are cut alike'),
      cuts: z.array(z.object({ ...rectangle, part: z.string(), turned: z.boolean() })),
      offcuts: z.array(z.object({ ...rectangle, kept: z.boolean().describe('Large enough to be kept') })),
    }),
  ),
  used: z.array(z.object({ stock, pieces: count })),
  bought: some.describe('Length (bars, and parts as wide as their roll, mm) or area (mm²)'),
  lowerBound: some.describe('No plan of the class buys less'),
  boundHoldsFor: z.enum(['every plan', 'plans of three cutting stages']),
  gap: some.describe('(bought − lowerBound) / lowerBound; 0: proven best'),
  waste: some.describe('Share of the stock that is cut that is neither a piece nor an offcut that is kept'),
  method: z.string(),
});

const piece = z.object({
  part: z.string().describe('Its name in the plan'),
  length: some,
  width: known,
  count,
  lengths: count.describe('Of so many one piece of the items is made; more than 1 where no stock is so long'),
  items: z.array(z.string()).describe('Ids of the items that they are for'),
});

export const takeoff = z
  .object({
    materials: z.array(material),
    storeys: z.array(z.object({ globalId: z.string(), name: z.string(), elevation: z.number() })),
    items: z.array(item),
    totals: z
      .array(total)
      .describe('Sums of items; those of penetrations and runs, of storeys, of systems are each the project'),
    uncounted: z
      .array(uncounted)
      .describe('What is needed and could not be counted, or of which a quantity is not known'),
    cutting: z.array(z.object({ material: z.string(), parts: z.array(piece), plan })),
    purchases: z.array(
      z.object({
        material: z.string(),
        unit: z.string().nullable().describe("null: by the quantity in the material's measure"),
        amount: known.describe('null: it is known of no item'),
        unknownIn: count.describe('Items of which it is not known; the amount is "at least"'),
        cost: known.describe('Of whole units, whatever part of them is built in'),
      }),
    ),
    allowances: z.array(
      z.object({
        key: z.string().describe('Of the brief, that changes it'),
        value: z.union([z.number(), z.string()]),
        says: z.string(),
        from: z.string(),
      }),
    ),
    currency: z.string().nullable().describe('ISO 4217; null: the brief names none'),
    costs: z.object({
      ordered: sum.describe('Of what is ordered, in whole units'),
      builtIn: sum.describe('Of what is built in, without waste: part of what is ordered'),
      hours: sum,
      labour: sum.describe('Of these hours'),
    }),
  })
  .describe('Pieces in mm, together in m, m², l, kg, h; null: it does not apply, or it is not known');
