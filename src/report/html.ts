/**
 * report.html: all that a reader on paper needs, in one file: no script, nothing fetched, the same bytes for the same
 * report. Heads, cautions and page numbers are CSS margin boxes of the page.
 */
import type { FontFace } from '../draw/paper/font-face.js';
import type { StoreyPlan } from '../scene/storey-plan.js';
import { counted } from '../words/text.js';
import { hasAccess } from './access-words.js';
import { evidenceTables } from './evidence-table.js';
import { cuttingSection, cuttingSheets } from './html-cutting.js';
import { assumedPage, cover, openingsList, projectWords, summaryPage } from './html-front.js';
import { htmlFile, paragraph, tag } from './html-markup.js';
import { penetrationPage } from './html-penetration.js';
import { pageId, planPages } from './html-plans.js';
import { runningOf, styleSheet } from './html-style.js';
import { accessTable, checksTable, modelsTable, registerTable, strategyTable, supportsTable } from './html-tables.js';
import { takeoffSection } from './html-takeoff.js';
import { lookupOf } from './lookup.js';
import type { OpeningRequests } from './opening-requests.js';
import { roomTable } from './room-table.js';
import type { Report, ReportFinding, ReportPenetration } from './schema.js';
import { CAUTION_IN_BRIEF, DEMONSTRATION } from './words.js';

export interface HtmlOptions {
  readonly fonts: readonly FontFace[];
  readonly openings: OpeningRequests;
  /** Left out: none is drawn. */
  readonly plans?: readonly StoreyPlan[];
  /** Of the models, as the project counts them; null where nobody said. */
  readonly revision?: string | null;
  /** Markup of what changed since an earlier report. */
  readonly changes?: string | undefined;
}

/** A page for each of more penetrations than these would be printed by nobody; see DEVELOPERS.md for the times. */
export const MOST_PAGES = 500;

export function writeHtml(report: Report, options: HtmlOptions): Uint8Array {
  const { fonts, openings, plans = [], revision = null, changes } = options;
  const lookup = lookupOf(report, revision);
  const { findings } = lookup;
  const failed = report.penetrations.filter((p) => p.outcome === 'failed');
  const shown = mostSerious(report, failed, findings);
  const stamp = report.demonstration ? DEMONSTRATION : null;
  const section = (className: string, ...content: readonly string[]): string =>
    tag(
      'section',
      { class: className },
      ...(stamp === null ? [] : [paragraph(stamp, 'stamp')]),
      ...content,
      paragraph(CAUTION_IN_BRIEF, 'foot'),
    );
  const evidence = evidenceTables(report);
  const { takeoff } = report;
  return htmlFile(
    `Fire separation of ductwork: ${projectWords(report)}`,
    styleSheet(runningOf(report, revision), fonts),
    [
      section('cover', cover(report, revision)),
      section('summary', summaryPage(report, pagesWords(failed.length, shown.length)), openingsList(openings)),
      ...(report.assumed === null ? [] : [section('assumed', assumedPage(report.assumed))]),
      ...(changes === undefined ? [] : [section('changes', changes)]),
      ...planPages(report, plans, new Set(shown.map((p) => p.id))).map((page) => section('plan', page)),
      ...shown.map((p, i) => section('penetration', tag('div', { id: pageId(p.id) }, penetrationPage(p, i, lookup)))),
      section('register wide', registerTable(report, findings)),
      section('strategy wide', `${strategyTable(report)}\n${roomTable(report)}`),
      section('supports wide', supportsTable(report)),
      ...(hasAccess(report) ? [section('access wide', accessTable(report))] : []),
      ...(takeoff === null ? [] : [section('takeoff wide', takeoffSection(report, takeoff))]),
      ...(takeoff === null || takeoff.cutting.length === 0
        ? []
        : [
            section('cutting wide', cuttingSection(report, takeoff)),
            ...cuttingSheets(takeoff).map((sheet) => section('sheet', sheet)),
          ]),
      ...(evidence === '' ? [] : [section('evidence wide', evidence)]),
      section('checks wide', checksTable(report)),
      section('models wide', modelsTable(report)),
    ],
  );
}

/** Those whose worst finding stands first in the report, in the order of the register. */
function mostSerious(
  report: Report,
  failed: readonly ReportPenetration[],
  findings: ReadonlyMap<string, readonly ReportFinding[]>,
): readonly ReportPenetration[] {
  if (failed.length <= MOST_PAGES) return failed;
  const place = new Map(report.findings.map((finding, i) => [finding, i]));
  const rank = new Map(
    failed.map((p) => [p.id, Math.min(...(findings.get(p.id) ?? []).map((f) => place.get(f) ?? Infinity))]),
  );
  const worst = [...failed].sort((a, b) => rank.get(a.id)! - rank.get(b.id)!).slice(0, MOST_PAGES);
  const chosen = new Set(worst.map((p) => p.id));
  return failed.filter((p) => chosen.has(p.id));
}

function pagesWords(failed: number, shown: number): string {
  if (failed === 0) return 'No penetration failed, so no pages on single penetrations follow.';
  if (failed === shown) return `A page follows for each of ${counted(failed, 'failed penetration')}.`;
  return `Pages follow for the ${shown} most serious of ${failed} failed penetrations; the register has the other ${failed - shown}.`;
}
