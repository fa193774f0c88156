import * as z from 'zod';
import { MATERIAL_KINDS, MEASURES } from '../material-kinds.js';
import { listOf, note } from './brief-parts.js';
import { id, millimetres, sentence } from './document-parts.js';
import type { Path, YamlSource } from './yaml-source.js';

/** What a project brief says of the take-off, as `choices.takeoff`: what is delivered, how it is cut, what it costs. */

/** What is cut from bars or coils has no width of its own; everything else is cut from rolls or sheets. */
const CUT_BY_LENGTH = ['angle', 'rod', 'bearer', 'strap', 'tape'] as const;
const CUT_BY_AREA = ['blanket', 'board', 'localBuildUp', 'boardCollar'] as const;
const STOCKED = [...CUT_BY_LENGTH, ...CUT_BY_AREA] as const;

/** What is bought whole, whatever part of it is built in. */
export const STOCK_UNITS = ['roll', 'sheet', 'bar', 'pack'] as const;
export type StockUnit = (typeof STOCK_UNITS)[number];

const QUANTITY_UNITS = ['piece', ...MEASURES.filter((measure) => measure !== 'pieces')] as const;

const fits = {
  of: z.enum(MATERIAL_KINDS).optional().describe('A kind of material.'),
  material: sentence.optional().describe('Id of one material, as the report has it.'),
  testedSystem: id.optional().describe('Only what this tested system asks for.'),
};

const money = z.number().min(0).max(1e9);

const price = z
  .strictObject({
    ...fits,
    per: z.enum([...QUANTITY_UNITS, ...STOCK_UNITS]),
    price: money,
    note,
  })
  .describe('Exactly one of "of" and "material" says of what; the first entry that fits counts.');

const rate = z
  .strictObject({
    ...fits,
    per: z.enum(QUANTITY_UNITS),
    hours: z.number().min(0).max(1000),
    pricePerHour: money.optional(),
    note,
  })
  .describe('Exactly one of "of" and "material" says of what; the first entry that fits counts.');

const stock = z.strictObject({
  of: z.enum(STOCKED),
  length: millimetres.positive(),
  width: millimetres.positive().optional().describe('Of rolls and sheets, mm.'),
  note,
});

export const takeoffChoices = z
  .strictObject({
    stocks: listOf(stock, 'What is delivered, before what the documents of tested systems say.'),
    kerf: millimetres.max(50).optional().describe('What one cut takes away, mm.'),
    keepOffcutsFrom: millimetres
      .optional()
      .describe('Offcuts that are at least so long, of rolls and sheets also so wide, are kept: no waste, mm.'),
    angleCorners: z.enum(['mitred', 'butted']).optional().describe('How angles meet at the corners of a duct.'),
    packLitres: z.number().positive().max(1000).optional().describe('What one pack of sealant holds, l.'),
    fittingAllowance: z
      .number()
      .min(0)
      .max(2)
      .optional()
      .describe('Part that is added to the developed surface of bends, branches and transitions; 0.1 is a tenth.'),
    strapOverlap: millimetres.max(2000).optional().describe('Of a strap on itself, mm.'),
    rodLength: millimetres.positive().max(20_000).optional().describe('Of rods whose length is not known, mm.'),
    filletLeg: millimetres
      .positive()
      .max(200)
      .optional()
      .describe('Leg of beads of sealant whose size no document says, mm.'),
    currency: z
      .string()
      .regex(/^[A-Z]{3}$/, 'must be a currency by its three capital letters (ISO 4217), e.g. EUR')
      .optional(),
    prices: listOf(price, 'Of materials; what has none has no cost.'),
    rates: listOf(rate, 'How long the work takes, by what is built in.'),
    note,
  })
  .describe('What is bought and cut, and what it costs; nothing of it changes an outcome.');

export type TakeoffChoices = z.infer<typeof takeoffChoices>;
export type Price = TakeoffChoices['prices'][number];
export type Rate = TakeoffChoices['rates'][number];

/** Refuses what each field allows by itself but what makes no sense together. */
export function requireTakeoffSense(source: YamlSource, path: Path, takeoff: TakeoffChoices | undefined): void {
  if (!takeoff) return;
  requireStocks(source, [...path, 'stocks'], takeoff.stocks);
  for (const key of ['prices', 'rates'] as const) requireFits(source, [...path, key], takeoff[key]);
  if (takeoff.currency !== undefined) return;
  const hourly = takeoff.rates.findIndex(({ pricePerHour }) => pricePerHour !== undefined);
  if (takeoff.prices.length > 0)
    throw source.errorAt([...path, 'prices', 0, 'price'], 'a price needs a currency; add "currency" to "takeoff"');
  if (hourly >= 0)
    throw source.errorAt(
      [...path, 'rates', hourly, 'pricePerHour'],
      'a price needs a currency; add "currency" to "takeoff"',
    );
}

function requireStocks(source: YamlSource, path: Path, stocks: TakeoffChoices['stocks']): void {
  for (const [i, { of, width }] of stocks.entries()) {
    const wide = !CUT_BY_LENGTH.some((kind) => kind === of);
    if (wide && width === undefined)
      throw source.errorAt([...path, i], `"width" is missing; ${of} is cut from rolls or sheets`);
    if (!wide && width !== undefined)
      throw source.errorAtKey([...path, i, 'width'], `${of} is cut by its length; leave "width" out`);
    if (stocks.findIndex((one) => one.of === of) < i)
      throw source.errorAt([...path, i, 'of'], `"${of}" is listed twice in stocks; keep one`);
  }
}

function requireFits(source: YamlSource, path: Path, entries: readonly (Price | Rate)[]): void {
  const seen = new Set<string>();
  for (const [i, { of, material, testedSystem, per }] of entries.entries()) {
    if ((of === undefined) === (material === undefined))
      throw source.errorAt(
        [...path, i],
        `an entry is of one thing: give either "of" or "material"${of === undefined ? '' : ', not both'}`,
      );
    const key = JSON.stringify([of, material, testedSystem, per]);
    if (seen.has(key))
      throw source.errorAt(
        [...path, i],
        `"${of ?? material}" per ${per} is listed twice in ${String(path.at(-1))}; the second never counts`,
      );
    seen.add(key);
  }
}

/** Ids of tested systems that prices and rates name, with their places. */
export const systemsPriced = (takeoff: TakeoffChoices | undefined): { readonly path: Path; readonly id: string }[] =>
  (['prices', 'rates'] as const).flatMap((key) =>
    (takeoff?.[key] ?? []).flatMap(({ testedSystem }, i) =>
      testedSystem === undefined ? [] : [{ path: [key, i, 'testedSystem'], id: testedSystem }],
    ),
  );
