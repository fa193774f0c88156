/** `<rr-try-form>`: another tested system or another choice of the brief. Fires `done` with the assumptions, `cancel` without. */
import { html, LitElement, nothing, type TemplateResult } from 'lit';
import type { Assumption } from '../../src/index.js';
import type { ReportPenetration } from '../../src/report/schema.js';
import type { Choosable } from '../../src/review/choosable.js';
import { STATUS_WORDS, valueWords } from '../../src/words/values.js';
import { base } from '../style/tokens.js';
import { WORDS } from '../words.js';
import { field, focusFault, formStyles, typedIn } from './form-parts.js';
import {
  ChoiceError,
  type CommonChoice,
  choiceAssumption,
  commonChoices,
  penetrationsIn,
  SCOPES,
  type Scope,
  standing,
  testedSystemAssumptions,
  together,
} from './try.js';

const { try: words, sheet } = WORDS;
/** What is chosen first in the form, beside the names of common choices. */
const SYSTEM = 'testedSystem';
const OTHER = 'other';

export class TryForm extends LitElement {
  static override styles = [base, formStyles];
  static override properties = {
    choosable: { attribute: false },
    penetration: { attribute: false },
    penetrations: { attribute: false },
    tried: { attribute: false },
    run: { attribute: false },
    what: { state: true },
    fault: { state: true },
    isJudging: { state: true },
  };
  declare choosable: Choosable;
  /** At hand; null: none. */
  declare penetration: ReportPenetration | null;
  /** All of the report. */
  declare penetrations: readonly ReportPenetration[];
  /** What is tried already. */
  declare tried: readonly Assumption[];
  /** Judges by the assumptions; rejects with one clear line. */
  declare run: (assumptions: readonly Assumption[]) => Promise<void>;
  declare private what: string;
  declare private fault: string | undefined;
  declare private isJudging: boolean;

  constructor() {
    super();
    this.what = SYSTEM;
    this.isJudging = false;
  }

  override render(): TemplateResult {
    const common = this.common();
    return html`<form novalidate @submit=${this.submit}>
      <h2 id="title">${sheet.actions.try}</h2>
      <p>${words.about}</p>
      <div>
        <label for="what">${words.what}</label>
        <select id="what" name="what" .value=${this.what} @change=${this.choose}>
          <option value=${SYSTEM}>${words.testedSystem}</option>
          <optgroup label=${words.choices}>
            ${common.map(({ name, says }) => html`<option value=${name}>${says}</option>`)}
          </optgroup>
          <option value=${OTHER}>${words.other}</option>
        </select>
      </div>
      ${this.what === SYSTEM ? this.systems() : this.values(common.find(({ name }) => name === this.what))}
      <div class="ends">
        <button type="button" @click=${() => this.dispatchEvent(new Event('cancel'))}>${sheet.cancel}</button>
        <button class="main" ?disabled=${this.isJudging}>${this.isJudging ? words.judging : words.submit}</button>
      </div>
    </form>`;
  }

  private common(): CommonChoice[] {
    return commonChoices(this.choosable.choices, this.penetration?.duct.system ?? null);
  }

  private systems(): TemplateResult {
    const { systems } = this.choosable;
    if (systems.length === 0) return html`<p>${words.noSystem}</p>`;
    const now = this.penetration?.treatment.chosen?.system;
    const scopes = this.penetration ? SCOPES : (['all'] as const);
    return html`<div>
        <label for="system">${words.testedSystem}</label>
        <select id="system" name="system">
          ${systems.map(({ id, name, status }) => html`<option value=${id} ?selected=${id === now}>${name}, ${STATUS_WORDS[status]}</option>`)}
        </select>
      </div>
      <fieldset>
        <legend>${words.for}</legend>
        ${scopes.map(
          (scope, i) =>
            html`<label><input type="radio" name="scope" value=${scope} ?checked=${i === 0} />${this.scopeWords(scope)}</label>`,
        )}
      </fieldset>
      ${this.fault === undefined ? nothing : html`<p class="fault" role="alert">${this.fault}</p>`}`;
  }

  private scopeWords(scope: Scope): string {
    const { penetration, penetrations } = this;
    if (scope === 'penetration' || !penetration) return words.scopes[scope];
    return words.inScope(words.scopes[scope], penetrationsIn(scope, penetration, penetrations).length);
  }

  /** @param choice undefined: one that is called by its name */
  private values(choice: CommonChoice | undefined): TemplateResult {
    const now = choice ? (choice.now === undefined ? words.nothingNow : words.now(nowWords(choice))) : '';
    const hint = [now, words.leftOut].join(' ').trim();
    if (choice?.values)
      return html`<div>
        <label for="value">${words.value}</label>
        <select id="value" name="value">
          ${choice.values.map((one) => html`<option value=${String(one)} ?selected=${one === choice.now}>${valueWords(one)}</option>`)}
          <option value="">${words.nothing}</option>
        </select>
        <p class="secondary small">${now}</p>
        ${this.fault === undefined ? nothing : html`<p class="fault" role="alert">${this.fault}</p>`}
      </div>`;
    return html`${choice ? nothing : field({ name: 'name', label: words.name })}
    ${field({ name: 'value', label: words.valueOf(choice?.unit ?? null), hint, fault: this.fault })}`;
  }

  private choose(event: Event): void {
    this.what = (event.target as HTMLSelectElement).value;
    this.fault = undefined;
  }

  private async submit(event: SubmitEvent): Promise<void> {
    event.preventDefault();
    const typed = typedIn(event.target as HTMLFormElement);
    this.fault = undefined;
    this.isJudging = true;
    try {
      await this.run(together(this.tried, this.assumed(typed)));
      this.dispatchEvent(new CustomEvent('done'));
    } catch (error) {
      this.fault = error instanceof Error ? error.message : String(error);
      await this.updateComplete;
      focusFault(this.renderRoot);
    } finally {
      this.isJudging = false;
    }
  }

  /** @throws ChoiceError */
  private assumed(typed: (name: string) => string): Assumption[] {
    const { what, penetration, penetrations } = this;
    if (what !== SYSTEM) return [choiceAssumption(what === OTHER ? typed('name') : what, typed('value'))];
    const scope = SCOPES.find((one) => one === typed('scope'));
    if (!scope || typed('system') === '') throw new ChoiceError(words.noSystem);
    const tags =
      scope === 'all' || !penetration ? null : penetrationsIn(scope, penetration, penetrations).map(({ tag }) => tag);
    return testedSystemAssumptions(typed('system'), tags, standing(this.choosable, this.tried));
  }
}
customElements.define('rr-try-form', TryForm);

const nowWords = ({ now, unit }: CommonChoice): string => {
  const said =
    Array.isArray(now) || typeof now !== 'object' ? valueWords(now as Parameters<typeof valueWords>[0]) : words.bySize;
  return unit === null ? said : `${said}\u2009${unit}`;
};
