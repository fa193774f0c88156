/** The numbered notes of a sheet, in the order in which they are read: measured, allowed, basis, remedy, details, materials. */
import { html, nothing, type TemplateResult } from 'lit';
import type { ReportFinding, ReportPenetration } from '../../src/report/schema.js';
import { oneLine } from '../../src/words/text.js';
import { valueWords } from '../../src/words/values.js';
import { tape } from '../parts/tape.js';
import type { OpenReport } from '../state/state.js';
import { WORDS } from '../words.js';
import { allowedWords, amount, offWords } from './amounts.js';
import { basisTexts, detailTexts, type MaterialTexts, materialTexts } from './note-texts.js';

const { sheet } = WORDS;
type Note = keyof typeof sheet.notes;

const note = (name: Note, ...content: readonly unknown[]): TemplateResult =>
  html`<li class="note"><h3>${sheet.notes[name]}</h3>${content}</li>`;

const texts = (all: readonly string[]): TemplateResult[] => all.map((one) => html`<p>${one}</p>`);

const listOf = (all: readonly string[]): TemplateResult | typeof nothing =>
  all.length === 0 ? nothing : html`<ul>${all.map((one) => html`<li>${one}</li>`)}</ul>`;

/** 1 and 2, with the tape; they stand beside the drawings. */
export function measuredNotes(open: OpenReport, finding: ReportFinding): TemplateResult {
  const { measured, limit, outcome, side } = finding;
  const unit = open.building.lookup.checks.get(finding.check)?.unit ?? null;
  const off = measured === null || limit === null ? '' : offWords(measured, limit, unit);
  return html`<ol class="measured">
    ${note(
      'measured',
      measured === null
        ? html`<p>${sheet.notMeasured}</p>`
        : html`<p class="value">${amount(measured, unit)}${side === null ? nothing : html` <span class="side">${valueWords(side)}</span>`}</p>`,
      // Of words and yes or no the two notes say all that a tape could.
      typeof measured === 'number' && limit !== null ? tape({ measured, limit, unit, outcome }) : nothing,
    )}
    ${note('allowed', html`<p>${limit === null ? sheet.noLimit : allowedWords(limit, unit)}${off === '' ? nothing : html`; <b>${off}</b>`}</p>`)}
  </ol>`;
}

/** 3 to 6. @param isTrial remedies are proven on the models, so that none is worked out for what is only tried */
export function furtherNotes(
  open: OpenReport,
  finding: ReportFinding | null,
  p: ReportPenetration | null,
  isTrial: boolean,
): TemplateResult {
  const run = finding?.subject.type === 'run' ? finding.subject.id : null;
  const materials = p
    ? materialTexts(open.report, 'penetration', p.id)
    : run === null
      ? undefined
      : materialTexts(open.report, 'run', run);
  return html`<ol class="further" start=${finding ? 3 : 1}>
    ${
      finding
        ? [
            note('basis', texts(basisTexts(open, finding))),
            note(
              'remedy',
              html`<p>${finding.remedy === null ? (isTrial ? sheet.notApplied : sheet.noRemedy) : oneLine(finding.remedy)}</p>`,
            ),
          ]
        : nothing
    }
    ${p ? note('nearest', details(p)) : nothing}
    ${materials === undefined ? nothing : note('materials', materialTable(materials))}
  </ol>`;
}

const details = (p: ReportPenetration): TemplateResult[] =>
  detailTexts(p).map(({ lead, list }) => html`<p>${lead}</p>${listOf(list)}`);

function materialTable(materials: MaterialTexts | null): TemplateResult {
  if (!materials) return html`<p>${sheet.notQuantified}</p>`;
  const { rows, uncounted } = materials;
  if (rows.length + uncounted.length === 0) return html`<p>${sheet.noMaterials}</p>`;
  return html`${
    rows.length === 0
      ? nothing
      : html`<table>
          <tbody>
            ${rows.map(({ kind, name, amount: counted }) => html`<tr><td class="secondary">${kind}</td><td>${name}</td><td class="amount">${counted}</td></tr>`)}
          </tbody>
        </table>`
  }${listOf(uncounted)}
    <p class="secondary small">${sheet.materialCaution}</p>`;
}
