/** The sheets of the take-off in register.xlsx. Numbers are those of report.json, each in a column of its own. */
import { DECIMALS, type Material, QUANTITY_OF, type Quantity } from '../quantify/takeoff.js';
import { STATUS_WORDS, valueWords } from '../words/values.js';
import type { Report, ReportTakeoff } from './schema.js';
import {
  type CutRow,
  cutRows,
  type MaterialRow,
  materialRows,
  materialsById,
  type PurchaseRow,
  purchaseRows,
} from './takeoff-rows.js';
import {
  costWords,
  kindWords,
  MEASURE_WORDS,
  placeNames,
  placesWords,
  proofWords,
  stockWords,
  TAKEOFF_CAUTIONS,
  takeoffLine,
} from './takeoff-words.js';
import { type Column, type Table, table, type Value } from './workbook.js';

type Plan = ReportTakeoff['cutting'][number]['plan'];

/** None where nothing was quantified. */
export function takeoffTables(report: Report, stamp: string | null): Table[] {
  const { takeoff } = report;
  if (takeoff === null) return [];
  const materials = materialsById(takeoff);
  const cuts = takeoff.cutting.flatMap((cutting): CuttingRow[] => [
    { plan: cutting.plan, material: materials.get(cutting.material)! },
    ...cutRows(report, takeoff, cutting),
  ]);
  return [
    table('To buy', purchaseColumns(takeoff.currency), purchaseRows(takeoff), stamp),
    table('Materials', materialColumns(takeoff.currency), materialRows(report, takeoff), stamp),
    table('Cutting list', CUTTING_COLUMNS, cuts, stamp),
    table('Not counted', missingColumns(report, takeoff), takeoff.uncounted, stamp),
  ];
}

/** For the sheet that says how the register is read. */
export function takeoffNotes({ takeoff }: Report): (readonly Value[])[] {
  if (takeoff === null) return [];
  return [
    [],
    ['Take-off', takeoffLine(takeoff)],
    ...TAKEOFF_CAUTIONS.map((caution) => ['Caution on the take-off', caution]),
    ...costWords(takeoff).map((line) => ['Cost and time', line]),
    ['Key of the brief', 'Taken for granted', 'Value', 'From'],
    ...takeoff.allowances.map(({ key, says, value, from }) => [key, says, value, from]),
  ];
}

const column = <Row>(header: string, width: number, value: (row: Row) => Value, format?: string): Column<Row> => ({
  header,
  width,
  value,
  ...(format === undefined ? {} : { format }),
});

const formatOf = (quantity: Quantity): string => Number(0).toFixed(DECIMALS[quantity]);

const inCurrency = (header: string, currency: string | null): string =>
  currency === null ? header : `${header} (${currency})`;

const aboutMaterial = <Row extends { readonly material: Material }>(): readonly Column<Row>[] => [
  column('Kind', 14, ({ material }) => valueWords(material.kind)),
  column('Material', 44, ({ material }) => material.name),
];

const whoseMaterial = <Row extends { readonly material: Material }>(): readonly Column<Row>[] => [
  column('Tested system', 26, ({ material }) => material.testedSystem),
  column('Status', 30, ({ material }) => (material.status === null ? null : STATUS_WORDS[material.status])),
];

const purchaseColumns = (currency: string | null): readonly Column<PurchaseRow>[] => [
  ...aboutMaterial<PurchaseRow>(),
  column('Ordered', 12, ({ purchase }) => purchase.amount, '0.####'),
  column('of', 24, ({ purchase, material }) => purchase.unit ?? MEASURE_WORDS[material.measure]),
  column('Amount not known of (items)', 12, ({ purchase }) => purchase.unknownIn),
  column(inCurrency('Cost of what is ordered', currency), 14, ({ purchase }) => purchase.cost, formatOf('cost')),
  column('Needed', 12, ({ project, material }) => project?.[QUANTITY_OF[material.measure]] ?? null, '0.####'),
  column('in', 8, ({ material }) => MEASURE_WORDS[material.measure]),
  ...whoseMaterial<PurchaseRow>(),
  column('Id, for the brief', 40, ({ material }) => material.id),
];

const quantity = (header: string, name: Quantity): Column<MaterialRow> =>
  column(header, 12, (row) => row[name], formatOf(name));

const materialColumns = (currency: string | null): readonly Column<MaterialRow>[] => [
  column('Row', 16, ({ row }) => row),
  column('Tag or run', 12, ({ place }) => place),
  column('Storey', 18, ({ storey }) => storey),
  column('System', 18, ({ system }) => system),
  ...aboutMaterial<MaterialRow>(),
  column('What', 40, ({ what }) => what),
  quantity('Pieces', 'pieces'),
  column('Length of one (mm)', 12, ({ length }) => length, '0.0'),
  column('Width of one (mm)', 12, ({ width }) => width, '0.0'),
  quantity('Length (m)', 'lengthM'),
  quantity('Area (m²)', 'areaM2'),
  quantity('Volume (l)', 'volumeL'),
  quantity('Mass (kg)', 'massKg'),
  quantity(inCurrency('Cost of what is built in', currency), 'cost'),
  quantity('Hours', 'hours'),
  quantity(inCurrency('Cost of labour', currency), 'labourCost'),
  column('Left out of the sum', 30, ({ unknown }) => unknown),
  column('Formula', 44, ({ formula }) => formula),
  column('Source', 44, ({ source }) => source),
  column('Element', 26, ({ element }) => element),
  column('Item', 10, ({ id }) => id),
  ...whoseMaterial<MaterialRow>(),
];

/** A plan, and below it what is cut by it. */
type CuttingRow = CutRow | { readonly plan: Plan; readonly material: Material };

const ofCut = (header: string, width: number, value: (cut: CutRow) => Value, format?: string): Column<CuttingRow> =>
  column(header, width, (row) => ('plan' in row ? null : value(row)), format);
const ofPlan = (header: string, width: number, value: (plan: Plan) => Value, format?: string): Column<CuttingRow> =>
  column(header, width, (row) => ('plan' in row ? value(row.plan) : null), format);

const CUTTING_COLUMNS: readonly Column<CuttingRow>[] = [
  column('Row', 14, (row) => ('plan' in row ? 'plan' : row.row)),
  ...aboutMaterial<CuttingRow>(),
  column('Stock (mm)', 26, (row) => ('plan' in row ? stockWords(row.plan) : row.stock)),
  ofCut('Pattern', 8, ({ pattern }) => pattern),
  ofCut('Times', 8, ({ times }) => times),
  ofCut('Part', 8, ({ part }) => part),
  ofCut('Length (mm)', 12, ({ length }) => length, '0.0'),
  ofCut('Width (mm)', 12, ({ width }) => width, '0.0'),
  ofCut('In each', 8, ({ each }) => each),
  ofCut('Together', 10, ({ times, each }) => times * each),
  ofCut('Turned', 8, ({ turned }) => (turned ? true : null)),
  ofCut('Of so many one piece is made', 10, ({ lengths }) => (lengths === 1 ? null : lengths)),
  ofCut('For', 60, ({ places }) => placesWords(places)),
  ofPlan('Pieces of stock', 10, ({ used }) => used.reduce((sum, { pieces }) => sum + pieces, 0)),
  ofPlan('Waste', 8, ({ waste }) => waste, '0.0%'),
  ofPlan('Gap', 8, ({ gap }) => gap, '0.0%'),
  ofPlan('Proof', 50, proofWords),
];

type Missing = ReportTakeoff['uncounted'][number];

function missingColumns(report: Report, takeoff: ReportTakeoff): readonly Column<Missing>[] {
  const names = placeNames(report, takeoff);
  return [
    column('Tag or run', 12, (row) => names.place(row)),
    column('Storey', 18, ({ storey }) => names.storey(storey)),
    column('System', 18, ({ system }) => names.system(system)),
    column('Kind', 18, ({ material }) => kindWords(material)),
    column('What', 50, ({ what }) => what),
    column('Not known, and who could say it', 80, ({ because }) => because),
  ];
}
