/** The title block of a drawing sheet: always in sight. */
import { html, nothing, type TemplateResult } from 'lit';
import { mark } from '../parts/mark.js';
import { WORDS } from '../words.js';
import type { TitleBlock } from './content.js';

const { sheet } = WORDS;

/** @param conceded the finding that is shown has a concession, and no penetration speaks for others beside it */
export function titleBlock(title: TitleBlock, conceded: boolean): TemplateResult {
  const cell = (name: keyof typeof sheet.titleBlock, value: unknown): TemplateResult | typeof nothing =>
    value === null
      ? nothing
      : html`<div class=${name}><dt>${sheet.titleBlock[name]}</dt><dd title=${typeof value === 'string' ? value : nothing}>${value}</dd></div>`;
  const { outcome } = title;
  return html`<dl class="title-block">
    ${cell('reference', title.reference)} ${cell('storey', title.storey)} ${cell('barrier', title.barrier)}
    ${cell('rating', title.rating)}
    ${cell('outcome', outcome === null ? sheet.notGiven : html`${mark(outcome, { conceded })} ${WORDS.outcomes[outcome]}`)}
    ${cell('revision', title.revision)}
  </dl>`;
}
