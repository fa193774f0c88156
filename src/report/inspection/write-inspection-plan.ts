/** inspection-plan.html: storey by storey what is inspected, by whom, and what is accepted; printed on A4. */
import { fileUnder } from '../../collect.js';
import type { FontFace } from '../../draw/paper/font-face.js';
import { INK, SHEET } from '../../draw/paper/palette.js';
import { planName } from '../../draw/paper/plan-column.js';
import { drawStoreyPlan } from '../../draw/paper/storey-plan.js';
import type { StoreyPlan } from '../../scene/storey-plan.js';
import { byPenetration } from '../cards/parts.js';
import { byStoreyAndTag, cardList } from '../cards/which.js';
import { concessionsInBrief } from '../concession-words.js';
import { HOLD_LINE, isReady, toSettle } from '../hold-points.js';
import { projectWords } from '../html-front.js';
import { htmlFile, list, paragraph, said, sentence, table, tag, text } from '../html-markup.js';
import { runningOf, styleSheet } from '../html-style.js';
import { lookupOf } from '../lookup.js';
import type { Report, ReportPenetration } from '../schema.js';
import { materialsById } from '../takeoff-rows.js';
import { CAUTION_IN_BRIEF, DEMONSTRATION } from '../words.js';
import { NOT_STATED } from './inspection-lines.js';
import { runTables } from './run-pages.js';
import { inspectionId, type PlanLookup, storeyTables } from './storey-pages.js';

export interface InspectionPlanOptions {
  readonly fonts: readonly FontFace[];
  /** Left out: none is drawn. */
  readonly plans?: readonly StoreyPlan[];
}

export function writeInspectionPlan(report: Report, { fonts, plans = [] }: InspectionPlanOptions): Uint8Array {
  const lookup = planLookup(report);
  const stamp = report.demonstration ? [paragraph(DEMONSTRATION, 'stamp')] : [];
  const section = (className: string, ...content: readonly string[]): string =>
    tag('section', { class: className }, ...stamp, ...content, paragraph(CAUTION_IN_BRIEF, 'foot'));
  const storeys = storeysOf(report, plans);
  return htmlFile(`Inspection and test plan: ${projectWords(report)}`, styleSheet(runningOf(report), fonts) + STYLE, [
    section('summary', frontPage(report, lookup)),
    ...storeys.flatMap(({ name, plan, penetrations }, i) => [
      ...(plan ? planSheets(report, plan, i, penetrations).map((svg) => section('plan', planHead(name), svg)) : []),
      section('storey wide', tag('h2', {}, text(name), ': hold points'), storeyTables(penetrations, lookup)),
    ]),
    section('runs wide', runTables(report)),
  ]);
}

const planHead = (name: string): string => tag('h2', {}, 'Plan of ', text(name));

function planSheets(report: Report, plan: StoreyPlan, i: number, inspected: readonly ReportPenetration[]): string[] {
  const ids = new Set(inspected.map(({ id }) => id));
  const sheets = drawStoreyPlan(plan, {
    ...{ id: `i${i}`, createdAt: report.createdAt, revision: report.revision, caution: CAUTION_IN_BRIEF },
    stamp: report.demonstration ? DEMONSTRATION : null,
    link: ({ id }) => (ids.has(id) ? `#${inspectionId(id)}` : undefined),
  });
  return sheets.map((svg) => tag('figure', { class: 'plan' }, svg));
}

function planLookup(report: Report): PlanLookup {
  const items: PlanLookup['items'] = byPenetration(report.takeoff?.items ?? []);
  const materials = report.takeoff === null ? new Map() : materialsById(report.takeoff);
  return { ...lookupOf(report), report, items, materials };
}

interface StoreyPages {
  readonly name: string;
  readonly plan: StoreyPlan | undefined;
  readonly penetrations: readonly ReportPenetration[];
}

/** By the plans, on one of which every penetration stands; without plans by the storeys of the models. */
function storeysOf(report: Report, plans: readonly StoreyPlan[]): StoreyPages[] {
  const { cards } = cardList(report);
  if (plans.length > 0) {
    return plans
      .map((plan) => {
        const on = new Set(plan.penetrations.map(({ id }) => id));
        return { name: planName(plan), plan, penetrations: cards.filter(({ id }) => on.has(id)) };
      })
      .filter(({ penetrations }) => penetrations.length > 0);
  }
  const found = new Map<string, ReportPenetration[]>();
  for (const p of byStoreyAndTag(cards)) fileUnder(found, p.storey?.globalId ?? '', p);
  return [...found.values()].map((penetrations) => ({
    name: penetrations[0]!.storey?.name || 'Storey not stated',
    plan: undefined,
    penetrations,
  }));
}

function frontPage(report: Report, lookup: PlanLookup): string {
  const { cards, without } = cardList(report);
  const ready = cards.filter((p) => isReady(p, toSettle(p, lookup))).length;
  const concessions = concessionsInBrief(report);
  return [
    tag('h1', {}, 'Inspection and test plan'),
    paragraph(
      `${projectWords(report)}; revision ${report.revision ?? NOT_STATED}; reviewed ${report.createdAt.slice(0, 10)}`,
    ),
    paragraph(
      `${cards.length} penetrations to inspect: ${ready} reviewed and passed, ${cards.length - ready} NOT READY.`,
    ),
    ...(concessions === '' ? [] : [paragraph(concessions)]),
    tag('h3', {}, 'Hold points'),
    paragraph('The work waits at each until it is signed. A STOP says that something has to be settled first.'),
    table(
      'small',
      ['Hold point', 'What to look at', 'Who inspects', 'Who is told, and when'],
      HOLD_LINE.map(({ name, look }) => [name, look, NOT_STATED, NOT_STATED].map(sentence)),
    ),
    tag('h3', {}, 'Not in this plan'),
    without.length === 0
      ? paragraph('Every penetration is.')
      : list(
          'ul',
          without.map(({ penetration, because }) => said(`${penetration.tag}: ${because}`)),
        ),
    tag(
      'div',
      { class: 'cautions' },
      tag('h3', {}, 'What this plan is not'),
      list('ul', report.cautions.map(sentence)),
    ),
  ].join('\n');
}

const STYLE = `
article { margin: 0 0 5mm }
article p, article ul { font-size: 8.5pt; margin-bottom: 1mm }
article h3 { font-size: 12pt; border-top: 1pt solid ${INK}; padding-top: 1.5mm }
.not-ready { background: ${INK}; color: ${SHEET}; padding: 0 1.5mm }
article header { break-inside: avoid; break-after: avoid }
table.inspect { table-layout: fixed }
table.inspect td, table.inspect th { border: .25pt solid ${INK}; padding: .6mm 1.2mm }
table.inspect tbody th { background: none }
table.inspect tbody { break-inside: avoid }
table.inspect i { font-size: 7pt }
table.of-8 col:first-child { width: 27mm }
table.of-8 col:nth-child(2), table.of-7 col:first-child { width: 84mm }
table.of-8 col:nth-child(3), table.of-8 col:nth-child(4) { width: 34mm }
table.of-7 col:nth-child(2), table.of-7 col:nth-child(3) { width: 50mm }
h1 { margin-top: 0 }
`;
