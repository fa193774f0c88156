/** The building in three dimensions, as one stands before the penetration. */
import { html, LitElement, type TemplateResult } from 'lit';
import { type Store, Watching } from '../state/store.js';
import { base } from '../style/tokens.js';
import { WORDS } from '../words.js';

export class ModelRegion extends LitElement {
  static override styles = [base];
  static override properties = { store: { attribute: false } };
  declare store: Store;

  constructor() {
    super();
    new Watching(this);
  }

  override render(): TemplateResult {
    return html`<h2>${WORDS.regions.model}</h2>`;
  }
}
customElements.define('rr-model', ModelRegion);
