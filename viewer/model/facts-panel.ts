/** What is known of a picked element: sentences, where it passes, what was found. */
import { html, nothing, type TemplateResult } from 'lit';
import { mark } from '../parts/mark.js';
import { WORDS } from '../words.js';
import type { Facts } from './facts.js';

/** Findings that are listed before the rest is only counted. */
const LISTED = 5;

export interface FactsActions {
  readonly close: () => void;
  /** @param id of a penetration, or of a row of the table */
  readonly selectPenetration: (id: string) => void;
  readonly selectFinding: (id: string) => void;
}

export function factsPanel({ sentences, penetrations, findings }: Facts, on: FactsActions): TemplateResult {
  const words = WORDS.model.facts;
  return html`<section class="facts small" aria-label=${words.heading}>
    <p>${sentences.join(' ')}</p>
    ${
      penetrations.length === 0
        ? nothing
        : html`<h3>${words.passes}</h3>
          <ul>
            ${penetrations.slice(0, LISTED).map(
              ({ id, tag, outcome }) => html`<li>
                ${mark(outcome)} <button @click=${() => on.selectPenetration(id)}>${tag}</button>
                ${WORDS.outcomeInText(outcome)}
              </li>`,
            )}
          </ul>
          ${penetrations.length > LISTED ? html`<p>${words.morePlaces(penetrations.length - LISTED)}</p>` : nothing}`
    }
    ${
      findings.length === 0
        ? html`<p>${words.none}</p>`
        : html`<h3>${words.findings}</h3>
          <ul>
            ${findings.slice(0, LISTED).map(
              ({ id, outcome, message }) => html`<li>
                ${mark(outcome)} <button @click=${() => on.selectFinding(id)}>${id}</button> ${message}
              </li>`,
            )}
          </ul>
          ${findings.length > LISTED ? html`<p>${words.more(findings.length - LISTED)}</p>` : nothing}`
    }
    <button @click=${on.close}>${WORDS.model.close}</button>
  </section>`;
}
