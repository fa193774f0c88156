/** `<rr-concession-form>`: what an authority granted for one finding. Fires `done` with the concession, `cancel` without. */
import { html, LitElement, type TemplateResult } from 'lit';
import type { Unit } from '../../src/model.js';
import type { ReportFinding } from '../../src/report/schema.js';
import { tapeWords } from '../parts/tape.js';
import { base } from '../style/tokens.js';
import { WORDS } from '../words.js';
import { amount } from './amounts.js';
import {
  CONCESSION_FIELDS,
  type ConcessionFaults,
  type ConcessionField,
  concessionOf,
  type Typed,
} from './concession.js';
import { field, focusFault, formStyles, typedIn } from './form-parts.js';

const { concession: words, sheet } = WORDS;

export class ConcessionForm extends LitElement {
  static override styles = [base, formStyles];
  static override properties = {
    finding: { attribute: false },
    unit: { attribute: false },
    faults: { state: true },
  };
  declare finding: ReportFinding;
  declare unit: Unit | null;
  declare private faults: ConcessionFaults;

  constructor() {
    super();
    this.faults = {};
  }

  override render(): TemplateResult {
    const { finding, unit } = this;
    const { measured, limit, message } = finding;
    const known =
      measured !== null && limit !== null
        ? words.rests(tapeWords({ ...finding, measured, limit, unit }))
        : [measured === null ? sheet.notMeasured : words.rests(amount(measured, unit)), sheet.noLimit].join(' ');
    return html`<form novalidate @submit=${this.submit}>
      <h2 id="title">${sheet.actions.concede}</h2>
      <p>${words.about}</p>
      <div class="rests">
        <p>${message}</p>
        <p>${known}</p>
      </div>
      ${CONCESSION_FIELDS.map((name) => this.field(name))}
      <div class="ends">
        <button type="button" @click=${() => this.dispatchEvent(new Event('cancel'))}>${sheet.cancel}</button>
        <button class="main">${words.submit}</button>
      </div>
    </form>`;
  }

  private field(name: ConcessionField): TemplateResult {
    const type = name === 'reason' ? 'lines' : name === 'date' || name === 'expires' ? 'date' : 'text';
    return field({ name, type, label: words.fields[name], fault: this.faults[name] });
  }

  private async submit(event: SubmitEvent): Promise<void> {
    event.preventDefault();
    const typed = typedIn(event.target as HTMLFormElement);
    const given = Object.fromEntries(CONCESSION_FIELDS.map((name) => [name, typed(name)])) as Typed;
    const made = concessionOf(this.finding.key, given, new Date().toISOString().slice(0, 10));
    if ('faults' in made) {
      this.faults = made.faults;
      await this.updateComplete;
      focusFault(this.renderRoot);
    } else this.dispatchEvent(new CustomEvent('done', { detail: made.concession }));
  }
}
customElements.define('rr-concession-form', ConcessionForm);
