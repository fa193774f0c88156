/** What else stands on a sheet: other findings, places, comments, what is not saved yet, cautions. */
import { html, nothing, type TemplateResult } from 'lit';
import { saidOf } from '../../src/report/comments.js';
import { concessionWords } from '../../src/report/concession-words.js';
import { penetrationPlace } from '../../src/report/place-words.js';
import type { ReportFinding, ReportPenetration } from '../../src/report/schema.js';
import { ASSUMPTION, CAUTION_IN_BRIEF, DEMONSTRATION } from '../../src/report/words.js';
import { oneLine } from '../../src/words/text.js';
import { holdTicks } from '../faces/hold-ticks.js';
import { holdLine } from '../parts/hold-line.js';
import { mark } from '../parts/mark.js';
import type { OpenReport, Unsaved } from '../state/state.js';
import { WORDS } from '../words.js';
import { checkedWords, needsWords } from './note-texts.js';

const { sheet } = WORDS;

/** Mark, word and sentence, what is missing, and the concession that stands beside it. */
function findingHead(finding: ReportFinding): TemplateResult {
  const { outcome, message, concession } = finding;
  const needs = needsWords(finding);
  return html`<h2 id="heading" tabindex="-1">
      ${mark(outcome, { conceded: isConceded({ concession }) })} ${WORDS.outcomes[outcome]}: ${oneLine(message)}
    </h2>
    ${needs === '' ? nothing : html`<p>${needs}</p>`}
    ${concession === null ? nothing : html`<p class="concession">${concessionWords(concession)}</p>`}`;
}

/** What it is about; without a finding what was checked. Of a penetration what of the work is at risk. */
export const head = (
  open: OpenReport,
  finding: ReportFinding | null,
  p: ReportPenetration | null,
): TemplateResult => html`
  ${finding ? findingHead(finding) : html`<h2 id="heading" tabindex="-1">${sheet.noFinding}</h2>`}
  ${p && !finding ? html`<p>${checkedWords(open, p)}</p>` : nothing}
  ${p ? html`<p>${holdLine(holdTicks(p, open.building))}</p>` : nothing}
`;

/** One that has lapsed stands beside the finding in words alone. */
export const isConceded = ({ concession }: Pick<ReportFinding, 'concession'>): boolean =>
  concession?.state === 'inForce';

type Choose = (id: string) => void;

export function findingList(
  title: string,
  findings: readonly ReportFinding[],
  choose: Choose,
): TemplateResult | typeof nothing {
  if (findings.length === 0) return nothing;
  return html`<section class="block findings">
    <h3>${title}</h3>
    ${findings.map(
      ({ id, outcome, message, concession }) =>
        html`<button @click=${() => choose(id)}>
          ${mark(outcome, { conceded: isConceded({ concession }) })} ${WORDS.outcomes[outcome]}: ${oneLine(message)}
        </button>`,
    )}
  </section>`;
}

export function placeList(places: readonly ReportPenetration[], choose: Choose): TemplateResult | typeof nothing {
  if (places.length === 0) return nothing;
  return html`<section class="block places">
    <h3>${sheet.places}: ${sheet.penetrations(places.length)}</h3>
    ${places.map(
      (p) =>
        html`<button @click=${() => choose(p.id)}>
          ${mark(p.outcome)} ${WORDS.outcomes[p.outcome]}: ${oneLine(p.tag)}, ${penetrationPlace(p)}
        </button>`,
    )}
  </section>`;
}

/** In the brief and in the exchange of topics, the oldest first. */
export function commentList(finding: ReportFinding): TemplateResult | typeof nothing {
  const said = saidOf(finding);
  const { status = null, assignedTo = null } = finding.topic ?? {};
  const state = [status ?? '', assignedTo === null ? '' : sheet.assignedTo(assignedTo)].filter((one) => one !== '');
  if (said.length + state.length === 0) return nothing;
  return html`<section class="block">
    <h3>${[sheet.comments, ...state].map(oneLine).join(', ')}</h3>
    ${said.map(
      ({ author, date, text }) =>
        html`<p><span class="secondary">${sheet.commented(oneLine(author), date.slice(0, 10))}</span> ${oneLine(text)}</p>`,
    )}
  </section>`;
}

/** What was written here of one finding. */
export const unsavedOf = ({ concessions, comments }: Unsaved, finding: ReportFinding | null): Unsaved => ({
  concessions: concessions.filter(({ key }) => key === finding?.key),
  comments: comments.filter((one) => one.finding === finding?.key),
});

/** A reminder beside the finding; it is saved, or taken back, at the head of the page. */
export const unsavedList = ({ concessions, comments }: Unsaved): TemplateResult | typeof nothing =>
  concessions.length + comments.length === 0
    ? nothing
    : html`<section class="block unsaved">
        <h3>${sheet.unsaved}</h3>
        <ul>
          ${concessions.map(({ grantedBy, reference }) => html`<li>${sheet.unsavedConcession(oneLine(grantedBy), oneLine(reference))}</li>`)}
          ${comments.map(({ author, text }) => html`<li>${sheet.unsavedComment(oneLine(author), oneLine(text))}</li>`)}
        </ul>
      </section>`;

/** What nobody may overlook, on every page that is printed too. */
export const stamps = ({ report }: OpenReport, isTrial: boolean): TemplateResult =>
  html`${report.demonstration ? html`<p class="stamp">${DEMONSTRATION}</p>` : nothing}
  ${isTrial ? html`<p class="stamp">${ASSUMPTION}</p>` : nothing}`;

export const cautions = (open: OpenReport, isTrial: boolean): TemplateResult =>
  html`<section class="block small">
    ${stamps(open, isTrial)}
    <p class="secondary">${CAUTION_IN_BRIEF}</p>
  </section>`;
