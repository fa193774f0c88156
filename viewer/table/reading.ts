/** The selected row, whole: what the table cuts off, and what would mend it. */
import { html, nothing, type TemplateResult } from 'lit';
import { concessionWords } from '../../src/report/concession-words.js';
import { basisWords } from '../../src/report/words.js';
import { oneLine } from '../../src/words/text.js';
import { limitWords, valueWords } from '../../src/words/values.js';
import { mark } from '../parts/mark.js';
import type { Row } from '../state/rows.js';
import type { OpenReport } from '../state/state.js';
import { WORDS } from '../words.js';
import { checkOf, saidOf } from './columns.js';

export function reading(row: Row | undefined, open: OpenReport, toSheet: () => void): TemplateResult {
  const { table } = WORDS;
  if (!row) return html`<p class="secondary">${table.select}</p>`;
  const { finding } = row;
  const check = checkOf(row, open);
  const unit = check?.unit ?? undefined;
  const line = (name: string, value: string | null | undefined): TemplateResult | typeof nothing =>
    value ? html`<dt>${name}</dt><dd>${value}</dd>` : nothing;
  return html`<header>
      ${mark(row.outcome, { conceded: row.concession === 'inForce' })}
      <strong>${[WORDS.outcomes[row.outcome], row.tag, row.barrierName].filter(Boolean).join(' · ')}</strong>
      <button @click=${toSheet}>${table.toSheet}</button>
    </header>
    <p>${saidOf(row)}</p>
    <dl>
      ${line(table.columns.check, row.checkTitle)} ${line(table.remedy, finding?.remedy)}
      ${line(table.measured, finding?.measured === null || !finding ? null : valueWords(finding.measured, unit))}
      ${line(table.allowed, finding?.limit ? limitWords(finding.limit, unit) : null)}
      ${line(table.missing, finding?.missing.map(oneLine).join(', '))} ${line(table.basis, check && basisWords(check.basis))}
      ${line(table.columns.concession, finding?.concession && concessionWords(finding.concession))}
    </dl>`;
}
