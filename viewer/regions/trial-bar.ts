/** While a trial is on: what is assumed, what comes of it, and what that is not. */
import { css, html, LitElement, nothing, type TemplateResult } from 'lit';
import type { Assumed } from '../../src/report/schema.js';
import { kindSumWords } from '../../src/report/takeoff-words.js';
import { ASSUMPTION } from '../../src/report/words.js';
import { number } from '../format.js';
import { mark } from '../parts/mark.js';
import type { Actions } from '../state/actions.js';
import { isSaid } from '../state/actions.js';
import type { OpenReport, Trial } from '../state/state.js';
import { type Store, Watching } from '../state/store.js';
import {
  choiceName,
  choiceWords,
  type MaterialChange,
  materialChanges,
  movedKeys,
  type OutcomeChange,
  outcomeChanges,
} from '../state/trial.js';
import { base } from '../style/tokens.js';
import { WORDS } from '../words.js';

const { trial: words } = WORDS;

/** More quantities than these are one line no longer. */
const MOST = 3;

export class TrialBar extends LitElement {
  static override styles = [
    base,
    css`
      :host {
        display: block;
      }
      section {
        display: grid;
        grid-template-columns: minmax(0, 1fr) auto;
        gap: 4px 24px;
        padding: 8px 12px;
        background: var(--raised);
        border-bottom: 3px double var(--accent);
      }
      dl {
        display: grid;
        grid-template-columns: auto minmax(0, 1fr);
        gap: 0 12px;
        margin: 0;
      }
      dl button {
        min-height: 20px;
        padding: 0;
      }
      @container (min-width: 1001px) {
        dl {
          grid-template-columns: auto auto auto minmax(0, 1fr);
          column-gap: 16px;
        }
        dd.wide {
          grid-column: 2 / -1;
        }
      }
      dt {
        color: var(--secondary);
      }
      dd {
        display: flex;
        flex-wrap: wrap;
        align-content: start;
        gap: 0 16px;
        margin: 0;
      }
      .count {
        display: inline-flex;
        gap: 4px;
        align-items: center;
      }
      details[open] {
        display: flex;
        flex-wrap: wrap;
        gap: 0 16px;
        width: 100%;
      }
      .actions {
        display: flex;
        flex-wrap: wrap;
        gap: 0 16px;
        align-content: start;
        justify-content: end;
      }
      .not {
        grid-column: 1 / -1;
        margin: 0;
        color: var(--secondary);
      }
    `,
  ];
  static override properties = { store: { attribute: false }, actions: { attribute: false } };
  declare store: Store;
  declare actions: Actions;
  private changes: { readonly of: OpenReport; readonly materials: readonly MaterialChange[] } | undefined;

  constructor() {
    super();
    new Watching(this, ({ trial, reviewed, filter, savesTo }) => [trial, reviewed, filter.keys, savesTo]);
  }

  override render(): TemplateResult | typeof nothing {
    const { trial, reviewed } = this.store.state;
    if (!trial || !reviewed) return nothing;
    const assumed = trial.open?.report.assumed;
    return html`<section aria-label=${words.heading}>
      <div>
        <h2>${words.heading}</h2>
        <div role="status" aria-live="polite">
          ${trial.open && assumed ? this.told(trial.open, assumed, reviewed) : this.judging(trial)}
        </div>
      </div>
      <div class="actions">
        <button type="button" ?disabled=${!assumed} @click=${() => this.actions.saveBrief().catch(isSaid)}>${words.keep}</button>
        <button type="button" @click=${() => this.actions.endTrial()}>${words.end}</button>
      </div>
      <p class="not small">${words.notThis}: ${ASSUMPTION}</p>
    </section>`;
  }

  private judging({ assumptions }: Trial): TemplateResult {
    return html`<p>${words.judging}: ${assumptions.map(({ name, value }) => `${choiceName(name)} ${choiceWords(value)}`).join(', ')}</p>`;
  }

  private told(open: OpenReport, assumed: Assumed, reviewed: OpenReport): TemplateResult {
    const { choices, penetrationOutcomes, outcomes, goes, comes } = assumed;
    const isFiltered = this.store.state.filter.keys.length > 0;
    return html`<dl>
      <dt>${words.assumed}</dt>
      <dd class="wide">${choices.map(({ name, before, value }) => html`<span>${words.choice(choiceName(name), choiceWords(value), before === null ? null : choiceWords(before))}</span>`)}</dd>
      <dt>${words.penetrations}</dt>
      <dd>${outcomeChanges(penetrationOutcomes).map(outcomeChange)}</dd>
      <dt>${words.results}</dt>
      <dd>${outcomeChanges(outcomes).map(outcomeChange)}</dd>
      <dt>${words.findings}</dt>
      <dd class="wide">
        <span>${words.moved(goes.length, comes.length)}</span>
        ${
          goes.length + comes.length === 0
            ? nothing
            : html`<button
                type="button"
                aria-pressed=${isFiltered}
                @click=${() => this.store.filter({ keys: isFiltered ? [] : movedKeys(assumed) })}
              >
                ${words.showMoved}
              </button>`
        }
      </dd>
      <dt>${words.materials}</dt>
      <dd class="wide">${this.materials(open, reviewed)}</dd>
    </dl>`;
  }

  private materials(open: OpenReport, { report }: OpenReport): TemplateResult {
    if (this.changes?.of !== open) this.changes = { of: open, materials: materialChanges(report, open.report) };
    const { materials } = this.changes;
    if (materials.length === 0) return html`<span>${words.noMaterials}</span>`;
    const lines = materials.map(({ before, after }) => `${sumWords(before)} → ${sumWords(after)}`);
    const shown = (some: readonly string[]): TemplateResult[] => some.map((line) => html`<span>${line}</span>`);
    if (lines.length <= MOST) return html`${shown(lines)}`;
    const more = lines.slice(MOST);
    return html`${shown(lines.slice(0, MOST))}
      <details>
        <summary>${words.more(more.length)}</summary>
        ${shown(more)}
      </details>`;
  }
}
customElements.define('rr-trial-bar', TrialBar);

const sumWords = (sum: MaterialChange['before']): string => (sum ? kindSumWords(sum) : words.none);

function outcomeChange({ outcome, before, after }: OutcomeChange): TemplateResult {
  const counts = before === after ? words.asNow(number(after)) : words.becomes(number(before), number(after));
  return html`<span class="count">${mark(outcome)} ${WORDS.outcomes[outcome]} ${counts}</span>`;
}
