/** The take-off in report.html: what to buy, where it goes, what was taken for granted, what could not be counted. */
import { FORMULAS } from '../quantify/formulas/words.js';
import { QUANTITIES, QUANTITY_OF, type Quantity, type TakeoffTotal } from '../quantify/takeoff.js';
import { STATUS_WORDS } from '../words/values.js';
import { list, paragraph, said, sentence, shortened, tag, text } from './html-markup.js';
import type { Report, ReportTakeoff } from './schema.js';
import { materialsById, type PurchaseRow, purchaseRows, uncountedRows } from './takeoff-rows.js';
import {
  costWords,
  MEASURE_WORDS,
  money,
  orderWords,
  placeNames,
  placesWords,
  quantityWords,
  TAKEOFF_CAUTIONS,
  takeoffLine,
} from './takeoff-words.js';

const MOST_PLACES = 12;

export function takeoffSection(report: Report, takeoff: ReportTakeoff): string {
  return [
    tag('h2', {}, 'Take-off'),
    paragraph(takeoffLine(takeoff)),
    list('ul', TAKEOFF_CAUTIONS.map(sentence)),
    tag('h3', {}, 'What to buy'),
    purchasesTable(takeoff),
    list('ul', costWords(takeoff).map(sentence)),
    totalsTable(report, takeoff, 'storey'),
    totalsTable(report, takeoff, 'system'),
    uncountedTable(report, takeoff),
    allowancesTable(takeoff),
    formulasTable(takeoff),
  ].join('\n');
}

function purchasesTable(takeoff: ReportTakeoff): string {
  const { currency, purchases } = takeoff;
  if (purchases.length === 0) return paragraph('Nothing was counted, so nothing is to be bought.');
  const costs = currency !== null && purchases.some(({ cost }) => cost !== null);
  const row = ({ material, purchase, project }: PurchaseRow): string[] => [
    text(material.name),
    sentence(orderWords(purchase, material.measure)),
    sentence(
      project ? `${quantityWords(project, QUANTITY_OF[material.measure])} ${MEASURE_WORDS[material.measure]}` : '',
    ),
    ...(costs ? [sentence(purchase.cost === null ? 'no price' : money(purchase.cost, currency))] : []),
    material.testedSystem === null ? 'the project' : text(material.testedSystem),
    sentence(material.status === null ? '' : STATUS_WORDS[material.status]),
  ];
  return shortened(
    'small',
    ['Material', 'Order', 'Needed', ...(costs ? ['Cost of the order'] : []), 'Asked for by', 'Status'],
    purchaseRows(takeoff).map(row),
  );
}

const HEADS: { readonly [Q in Quantity]: string } = {
  pieces: 'Pieces',
  lengthM: 'Length (m)',
  areaM2: 'Area (m²)',
  volumeL: 'Volume (l)',
  massKg: 'Mass (kg)',
  cost: 'Cost',
  hours: 'Hours',
  labourCost: 'Cost of labour',
};

/** Of quantities that no row has there is no column. */
function totalsTable(report: Report, takeoff: ReportTakeoff, by: 'storey' | 'system'): string {
  const names = placeNames(report, takeoff);
  const materials = materialsById(takeoff);
  const totals = takeoff.totals.filter((one) => one.by === by);
  if (totals.length === 0) return '';
  const shown = QUANTITIES.filter((quantity) => totals.some((one) => quantityWords(one, quantity) !== ''));
  const row = (total: TakeoffTotal): string[] => [
    text(names[by](total.id)),
    text(materials.get(total.material)!.name),
    ...shown.map((quantity) => sentence(quantityWords(total, quantity))),
  ];
  const money = takeoff.currency === null ? '' : ` (${takeoff.currency})`;
  const head = (quantity: Quantity): string =>
    sentence(HEADS[quantity] + (quantity === 'cost' || quantity === 'labourCost' ? money : ''));
  return [
    tag('h3', {}, `What is built in, by ${by}`),
    shortened(
      'small amounts',
      [by === 'storey' ? 'Storey' : 'System', 'Material', ...shown.map(head)],
      totals.map(row),
    ),
  ].join('\n');
}

function uncountedTable(report: Report, takeoff: ReportTakeoff): string {
  const rows = uncountedRows(report, takeoff);
  return [
    tag('h3', {}, 'What could not be counted'),
    rows.length === 0
      ? paragraph('Nothing that was looked for.')
      : shortened(
          'small',
          ['Kind', 'What', 'Not known, and who could say it', 'Number', 'Where'],
          rows.map(({ material, what, because, places }) => [
            ...[sentence(material), said(what), said(because), String(places.length)],
            said(placesWords([...new Set(places)], MOST_PLACES)),
          ]),
        ),
  ].join('\n');
}

function allowancesTable({ allowances }: ReportTakeoff): string {
  if (allowances.length === 0) return '';
  return [
    tag('h3', {}, 'What was taken for granted'),
    shortened(
      'small',
      ['What', 'Value', 'From', 'Key of the brief that changes it'],
      allowances.map(({ says, value, from, key }) => [said(says), ...[String(value), from, key].map(sentence)]),
    ),
  ].join('\n');
}

/** Those that something was counted by. */
function formulasTable({ items }: ReportTakeoff): string {
  const used = new Set(items.map(({ formula }) => formula));
  const rows = Object.entries(FORMULAS)
    .filter(([key]) => used.has(key))
    .map(([, { formula, symbols, source }]) => [formula, symbols, source].map(sentence));
  if (rows.length === 0) return '';
  return [tag('h3', {}, 'How it was counted'), shortened('small', ['Formula', 'Symbols', 'Source'], rows)].join('\n');
}
