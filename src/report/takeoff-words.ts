/** The words in which page, workbook and summary speak of the take-off. */
import { FORMULAS } from '../quantify/formulas/words.js';
import {
  DECIMALS,
  MATERIAL_KINDS,
  type MaterialKind,
  type Measure,
  QUANTITY_OF,
  type Quantity,
  type Sum,
  type TakeoffPlace,
  type TakeoffTotal,
} from '../quantify/takeoff.js';
import { sumOf } from '../quantify/totals.js';
import { counted, listed, number } from '../words/text.js';
import { valueWords } from '../words/values.js';
import type { Report, ReportTakeoff } from './schema.js';

/** What whoever buys and cuts by it has to know about it. */
export const TAKEOFF_CAUTIONS: readonly string[] = [
  "Counted from what the models, the brief and the documents of tested systems say: neither a design nor an order. The tested system's own documents decide, and who builds measures on site first.",
  'What could not be counted is listed and is part of no sum; a sum that something is missing from says "at least".',
  'Nothing here says that a penetration is passed, or that what is counted would pass.',
];

const UNITS: { readonly [M in Exclude<Measure, 'pieces'>]: string } = { m: 'm', m2: 'm²', l: 'l', kg: 'kg' };

export const MEASURE_WORDS: { readonly [M in Measure]: string } = { ...UNITS, pieces: 'pieces' };

const QUANTITY_WORDS: { readonly [Q in Quantity]: string } = {
  pieces: 'number',
  lengthM: 'length',
  areaM2: 'area',
  volumeL: 'volume',
  massKg: 'mass',
  cost: 'cost',
  hours: 'hours',
  labourCost: 'cost of labour',
};

/** `mass of 2 items not known`; empty where everything is. */
export const unknownWords = (unknownIn: TakeoffTotal['unknownIn']): string =>
  unknownIn.length === 0
    ? ''
    : `${listed(unknownIn.map(({ quantity, items }) => `${QUANTITY_WORDS[quantity]} of ${counted(items, 'item')}`))} not known`;

/** A sum as it stands in report.json; empty where it does not apply. */
export function quantityWords(total: TakeoffTotal, quantity: Quantity): string {
  const value = total[quantity];
  const misses = total.unknownIn.some((one) => one.quantity === quantity);
  if (value === null) return misses ? 'not known' : '';
  const isMoney = quantity === 'cost' || quantity === 'labourCost';
  return `${misses ? 'at least ' : ''}${isMoney ? value.toFixed(DECIMALS[quantity]) : value}`;
}

export const money = (value: number, currency: string): string => `${value.toFixed(2)} ${currency}`;

/** How what is counted at a place is named: the tag of the penetration, or the id of the run. */
export interface PlaceNames {
  readonly place: (at: TakeoffPlace) => string;
  readonly storey: (globalId: string | null) => string;
  readonly system: (name: string | null) => string;
}

export function placeNames({ penetrations }: Report, { storeys }: ReportTakeoff): PlaceNames {
  const tags = new Map(penetrations.map(({ id, tag }) => [id, tag]));
  const names = new Map(storeys.map(({ globalId, name }) => [globalId, name]));
  return {
    place: ({ penetration, run }) => (penetration === null ? (run ?? '') : (tags.get(penetration) ?? penetration)),
    storey: (globalId) => (globalId === null ? 'storey not known' : (names.get(globalId) ?? globalId)),
    system: (name) => name ?? 'system not known',
  };
}

/** null: all that is needed at a place. */
export const kindWords = (kind: MaterialKind | null): string => (kind === null ? 'everything' : valueWords(kind));

/** More places than these are found in the materials by their size. */
const MOST_PLACES = 24;

/** `K7F2-9, R-001 and 12 more`. */
export const placesWords = (places: readonly string[], most = MOST_PLACES): string =>
  places.length <= most ? places.join(', ') : `${places.slice(0, most).join(', ')} and ${places.length - most} more`;

/** `n = ⌈(L − 2e) / s⌉ + 1; L length of the line, …`; a formula that this version does not know by its name. */
export function formulaWords(key: string): string {
  const formula = Object.hasOwn(FORMULAS, key) ? FORMULAS[key as keyof typeof FORMULAS] : undefined;
  return formula ? `${formula.formula}; ${formula.symbols}` : key;
}

/** What is ordered of one material: `58 rolls 7320 x 610`, `at least 3 packs 600 ml`, `12.5 m`. */
export function orderWords({ unit, amount, unknownIn }: ReportTakeoff['purchases'][number], measure: Measure): string {
  if (amount === null) return 'not known';
  const least = unknownIn === 0 ? '' : 'at least ';
  if (unit === null)
    return `${least}${amount} ${amount === 1 && measure === 'pieces' ? 'piece' : MEASURE_WORDS[measure]}`;
  const [form = '', ...size] = unit.split(' ');
  return [`${least}${counted(amount, form)}`, ...size].join(' ');
}

type Plan = ReportTakeoff['cutting'][number]['plan'];

/** `2 rolls 7320 x 610, 1 roll 7320 x 1220`. */
export const stockWords = ({ used }: Plan): string =>
  used
    .map(({ stock, pieces }) => {
      const [form = '', ...size] = stock.id.split(' ');
      return [counted(pieces, form), ...size].join(' ');
    })
    .join(', ');

/** How good a plan is, and how that is known. */
export function proofWords({ gap, boundHoldsFor, method }: Plan): string {
  const others = boundHoldsFor === 'every plan' ? 'plan' : 'plan of three cutting stages';
  const best = gap === 0 ? `No ${others} buys less` : `No ${others} buys less by more than ${percent(gap)}`;
  return `${best} (${method}).`;
}

export const percent = (part: number): string => `${number(part * 100)} %`;

/** What a sum of money is of, and what it leaves out. */
export function costWords({ currency, costs, purchases, items }: ReportTakeoff): string[] {
  const { ordered, builtIn, hours, labour } = costs;
  const without = (sum: Sum, of: number, noun: string, lacks: string): string =>
    sum.unknownIn === 0
      ? ''
      : ` At least: ${sum.unknownIn} of ${counted(of, noun)} ${sum.unknownIn === 1 ? 'has' : 'have'} no ${lacks}.`;
  const cost = (sum: Sum, of: number, noun: string, what: string): string[] =>
    sum.sum === null || currency === null
      ? []
      : [`${what}: ${money(sum.sum, currency)}.${without(sum, of, noun, 'price')}`];
  const lines = [
    ...cost(ordered, purchases.length, 'order', 'What is ordered, in whole rolls, sheets, bars and packs, costs'),
    ...cost(
      builtIn,
      items.length,
      'item',
      'What is built in costs, without waste, as part of what is ordered and not besides it',
    ),
    ...(hours.sum === null
      ? []
      : [`Hours of work by the rates of the brief: ${hours.sum}.${without(hours, items.length, 'item', 'rate')}`]),
    ...cost(labour, items.length, 'item', 'These hours cost'),
  ];
  return lines.length > 0 ? lines : ['The brief gives no prices and no rates, so nothing here has a cost or a time.'];
}

/** `Take-off: 312 m² of blanket (58 rolls), 1240 pins; 14 things could not be counted.` */
export function takeoffLine(takeoff: ReportTakeoff): string {
  const parts = MATERIAL_KINDS.flatMap((kind) => sumsOfKind(takeoff, kind)).map((one) => {
    const ordered = takeoff.purchases.filter(({ material }) => one.materials.has(material));
    return `${kindSumWords(one)}${one.sum === null || one.measure === 'pieces' ? '' : unitsOrdered(ordered)}`;
  });
  const missing =
    takeoff.uncounted.length === 0 ? '' : `; ${counted(takeoff.uncounted.length, 'thing')} could not be counted`;
  return `Take-off: ${parts.length === 0 ? 'nothing was counted' : parts.join(', ')}${missing}.`;
}

/** All materials of a kind together, by each measure that they are bought by. */
export interface KindSum {
  readonly kind: MaterialKind;
  readonly measure: Measure;
  /** Of what would be built in; null: not known. */
  readonly sum: number | null;
  /** Something is missing from the sum. */
  readonly isLeast: boolean;
  readonly materials: ReadonlySet<string>;
}

export function sumsOfKind(
  { materials, totals }: Pick<ReportTakeoff, 'materials' | 'totals'>,
  kind: MaterialKind,
): KindSum[] {
  const ofKind = materials.filter((one) => one.kind === kind);
  const measures = [...new Set(ofKind.map(({ measure }) => measure))];
  return measures.flatMap((measure) => {
    const ids = new Set(ofKind.filter((one) => one.measure === measure).map(({ id }) => id));
    const quantity = QUANTITY_OF[measure];
    const own = totals.filter(({ by, material }) => by === 'project' && ids.has(material));
    if (own.length === 0) return [];
    const isLeast = own.some(({ unknownIn }) => unknownIn.some((one) => one.quantity === quantity));
    return [{ kind, measure, sum: sumOf(own, quantity).sum, isLeast, materials: ids }];
  });
}

/** `at least 312 m² of blanket`, `1240 pins`. */
export function kindSumWords({ kind, measure, sum, isLeast }: Omit<KindSum, 'materials'>): string {
  const noun = valueWords(kind);
  if (sum === null) return `${noun} of unknown quantity`;
  const least = isLeast ? 'at least ' : '';
  return measure === 'pieces'
    ? `${least}${counted(sum, noun)}`
    : `${least}${inBrief(sum)} ${UNITS[measure]} of ${noun}`;
}

/** Whole, or three figures: 1312, 312, 4.89, 0.701. */
const inBrief = (value: number): number => Number(value >= 100 ? value.toFixed(0) : value.toPrecision(3));

/** ` (58 rolls)`; empty where it is ordered by its quantity. */
function unitsOrdered(purchases: ReportTakeoff['purchases']): string {
  const forms = new Map<string, number>();
  for (const { unit, amount } of purchases) {
    const form = unit?.split(' ')[0];
    if (form !== undefined && amount !== null) forms.set(form, (forms.get(form) ?? 0) + amount);
  }
  return forms.size === 0 ? '' : ` (${[...forms].map(([form, amount]) => counted(amount, form)).join(', ')})`;
}
