/** The rows of the take-off, the same for page and workbook. Names of models are as they stand in the report. */
import type { Material, Quantities, TakeoffTotal } from '../quantify/takeoff.js';
import type { Report, ReportTakeoff } from './schema.js';
import { formulaWords, kindWords, type PlaceNames, placeNames, unknownWords } from './takeoff-words.js';

/** Equal pieces at a place, or all pieces of a material in a storey, a system, the project. */
export interface MaterialRow extends Quantities {
  readonly row: 'pieces' | `total by ${'storey' | 'system' | 'project'}`;
  readonly id: string | null;
  readonly place: string | null;
  readonly storey: string | null;
  readonly system: string | null;
  readonly material: Material;
  readonly what: string | null;
  readonly element: string | null;
  readonly length: number | null;
  readonly width: number | null;
  readonly unknown: string;
  readonly formula: string | null;
  readonly source: string | null;
}

export function materialRows(report: Report, takeoff: ReportTakeoff): MaterialRow[] {
  const names = placeNames(report, takeoff);
  const materials = materialsById(takeoff);
  const pieces = takeoff.items.map(
    (item): MaterialRow => ({
      ...item,
      row: 'pieces',
      place: names.place(item),
      storey: names.storey(item.storey),
      system: names.system(item.system),
      material: materials.get(item.material)!,
      element: item.element?.globalId ?? null,
      unknown: '',
      formula: formulaWords(item.formula),
    }),
  );
  return [...pieces, ...takeoff.totals.flatMap((total) => totalRow(total, names, materials))];
}

/** Totals by penetration and by run are not listed: the pieces of each stand together. */
function totalRow(total: TakeoffTotal, names: PlaceNames, materials: ReadonlyMap<string, Material>): MaterialRow[] {
  const { by, id, unknownIn } = total;
  if (by === 'penetration' || by === 'run') return [];
  return [
    {
      ...total,
      row: `total by ${by}`,
      id: null,
      place: null,
      storey: by === 'storey' ? names.storey(id) : null,
      system: by === 'system' ? names.system(id) : null,
      material: materials.get(total.material)!,
      ...{ what: null, element: null, length: null, width: null, formula: null, source: null },
      unknown: unknownWords(unknownIn),
    },
  ];
}

/** What is ordered beside what is built in. */
export interface PurchaseRow {
  readonly material: Material;
  readonly purchase: ReportTakeoff['purchases'][number];
  /** Of the material, beside the first of its orders only, so that it adds up. */
  readonly project: TakeoffTotal | undefined;
}

export function purchaseRows(takeoff: ReportTakeoff): PurchaseRow[] {
  const materials = materialsById(takeoff);
  const totals = new Map(
    takeoff.totals.flatMap((total) => (total.by === 'project' ? [[total.material, total] as const] : [])),
  );
  return takeoff.purchases.map((purchase, i, all) => ({
    material: materials.get(purchase.material)!,
    purchase,
    project: all[i - 1]?.material === purchase.material ? undefined : totals.get(purchase.material),
  }));
}

/** Equal cuts, or an offcut, of one pattern. */
export interface CutRow {
  readonly row: 'piece' | 'offcut to keep';
  readonly material: Material;
  readonly stock: string;
  /** From 1, in each plan. */
  readonly pattern: number;
  readonly times: number;
  /** Its name in the plan; null: an offcut. */
  readonly part: string | null;
  /** As it is cut, mm. */
  readonly length: number;
  readonly width: number | null;
  /** In one piece of stock. */
  readonly each: number;
  readonly turned: boolean;
  /** So many of them make one piece of the materials. */
  readonly lengths: number;
  /** Tags and runs that it is for. */
  readonly places: readonly string[];
}

type Cutting = ReportTakeoff['cutting'][number];

export function cutRows(report: Report, takeoff: ReportTakeoff, cutting: Cutting): CutRow[] {
  const material = materialsById(takeoff).get(cutting.material)!;
  const parts = new Map(cutting.parts.map((one) => [one.part, one]));
  const placesOf = placesByPart(report, takeoff, cutting);
  return cutting.plan.patterns.flatMap(({ stock, times, cuts, offcuts }, i) => {
    const common = { material, stock: stock.id, pattern: i + 1, times };
    return [
      ...equalCuts(cuts).map(({ part, turned, each }): CutRow => {
        const { length, width, lengths } = parts.get(part)!;
        return { ...common, row: 'piece', part, length, width, each, turned, lengths, places: placesOf(part) };
      }),
      ...equalOffcuts(offcuts).map((offcut): CutRow => {
        const nowhere = { part: null, turned: false, lengths: 1, places: [] };
        return { ...common, row: 'offcut to keep', ...offcut, ...nowhere };
      }),
    ];
  });
}

type Pattern = Cutting['plan']['patterns'][number];

function equalCuts(cuts: Pattern['cuts']) {
  const found = new Map<string, Pick<Pattern['cuts'][number], 'part' | 'turned'> & { each: number }>();
  for (const { part, turned } of cuts) {
    const key = JSON.stringify([part, turned]);
    const equal = found.get(key) ?? { part, turned, each: 0 };
    found.set(key, equal);
    equal.each += 1;
  }
  return [...found.values()];
}

function equalOffcuts(offcuts: Pattern['offcuts']) {
  const found = new Map<string, Pick<CutRow, 'length' | 'width'> & { each: number }>();
  for (const { length, width = null } of offcuts.filter(({ kept }) => kept)) {
    const key = JSON.stringify([length, width]);
    const equal = found.get(key) ?? { length, width, each: 0 };
    found.set(key, equal);
    equal.each += 1;
  }
  return [...found.values()];
}

function placesByPart(report: Report, takeoff: ReportTakeoff, { parts }: Cutting): (part: string) => readonly string[] {
  const names = placeNames(report, takeoff);
  const items = new Map(takeoff.items.map((item) => [item.id, names.place(item)]));
  const places = new Map(parts.map((one) => [one.part, [...new Set(one.items.flatMap((id) => items.get(id) ?? []))]]));
  return (part) => places.get(part) ?? [];
}

/** What could not be counted for one reason, with all places where that is so. */
export interface UncountedRow {
  readonly material: string;
  readonly what: string;
  readonly because: string;
  readonly places: readonly string[];
}

export function uncountedRows(report: Report, takeoff: ReportTakeoff): UncountedRow[] {
  const names = placeNames(report, takeoff);
  const rows = new Map<string, UncountedRow & { readonly places: string[] }>();
  for (const one of takeoff.uncounted) {
    const { what, because } = one;
    const key = JSON.stringify([one.material, what, because]);
    const row = rows.get(key) ?? { material: kindWords(one.material), what, because, places: [] };
    rows.set(key, row);
    row.places.push(names.place(one));
  }
  return [...rows.values()];
}

export const materialsById = ({ materials }: ReportTakeoff): ReadonlyMap<string, Material> =>
  new Map(materials.map((material) => [material.id, material]));
