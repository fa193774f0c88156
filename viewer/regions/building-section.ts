/** Storeys to relative height, upwards, with what was found on each. */
import { html, LitElement, type TemplateResult } from 'lit';
import { type Store, Watching } from '../state/store.js';
import { base } from '../style/tokens.js';
import { WORDS } from '../words.js';

export class BuildingSection extends LitElement {
  static override styles = [base];
  static override properties = { store: { attribute: false } };
  declare store: Store;

  constructor() {
    super();
    new Watching(this);
  }

  override render(): TemplateResult {
    return html`<h2>${WORDS.regions.section}</h2>`;
  }
}
customElements.define('rr-building-section', BuildingSection);
