/** The storey plans of report.html: a page for each sheet, tags leading to the pages of their penetrations. */
import { planName } from '../draw/paper/plan-column.js';
import { drawStoreyPlan } from '../draw/paper/storey-plan.js';
import type { StoreyPlan } from '../scene/storey-plan.js';
import { listed } from '../words/text.js';
import { paragraph, tag, text } from './html-markup.js';
import type { Report } from './schema.js';
import { CAUTION_IN_BRIEF, DEMONSTRATION } from './words.js';

/** Of the section with the page of a penetration. */
export const pageId = (penetration: string): string => `page-${penetration}`;

/**
 * Storeys without any penetration are named on the first page instead.
 *
 * @param paged ids of the penetrations that have pages
 */
export function planPages(report: Report, plans: readonly StoreyPlan[], paged: ReadonlySet<string>): string[] {
  const drawn = plans.filter((plan) => plan.penetrations.length > 0);
  const without = plans.filter((plan) => plan.penetrations.length === 0).map(planName);
  const pages = drawn.flatMap((plan, i) =>
    drawStoreyPlan(plan, {
      ...{ id: `l${i}`, createdAt: report.createdAt, revision: report.revision, caution: CAUTION_IN_BRIEF },
      stamp: report.demonstration ? DEMONSTRATION : null,
      link: ({ id }) => (paged.has(id) ? `#${pageId(id)}` : undefined),
    }).map((svg) => ({ plan, svg })),
  );
  return pages.map(({ plan, svg }, i) =>
    [
      tag('h2', {}, 'Plan of ', text(planName(plan))),
      ...(i === 0 && without.length > 0 ? [paragraph(withoutWords(without))] : []),
      tag('figure', { class: 'plan' }, svg),
    ].join('\n'),
  );
}

const MOST_NAMED = 12;

function withoutWords(names: readonly string[]): string {
  const more = names.length - MOST_NAMED;
  const shown = more > 0 ? [...names.slice(0, MOST_NAMED), `${more} more`] : names;
  return `Nothing is marked on, so not drawn: ${listed(shown)}.`;
}
