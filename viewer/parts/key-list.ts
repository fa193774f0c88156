/** The list of the keys, in a dialogue. */
import { css, html, LitElement, type TemplateResult } from 'lit';
import { KEYS } from '../state/keys.js';
import { base } from '../style/tokens.js';
import { WORDS } from '../words.js';

export class KeyList extends LitElement {
  static override styles = [
    base,
    css`
      dialog {
        max-width: min(560px, calc(100vw - 32px));
        max-height: calc(100vh - 32px);
        padding: 16px 20px;
        overflow: auto;
        border: 1px solid var(--rule);
        color: var(--ink);
        background: var(--sheet);
      }
      dialog::backdrop {
        background: rgb(0 0 0 / 35%);
      }
      header {
        display: flex;
        align-items: baseline;
        justify-content: space-between;
        gap: 24px;
        margin-bottom: 8px;
      }
      dl {
        display: grid;
        grid-template-columns: auto 1fr;
        gap: 0 20px;
        margin: 0 0 12px;
      }
      dl > * {
        margin: 0;
        padding: 4px 0;
        border-top: 1px solid var(--raised);
      }
      dt {
        white-space: nowrap;
      }
      kbd {
        font: inherit;
        font-weight: 700;
      }
      p {
        margin: 0;
      }
    `,
  ];

  show(): void {
    this.renderRoot.querySelector('dialog')!.showModal();
  }

  override render(): TemplateResult {
    const { keys, filter } = WORDS;
    return html`<dialog aria-labelledby="title">
      <header>
        <h2 id="title">${keys.title}</h2>
        <button @click=${() => this.renderRoot.querySelector('dialog')!.close()}>${filter.close}</button>
      </header>
      <dl>
        ${KEYS.map(
          ({ shown, does, keys: { length } }) =>
            html`<dt>
                ${shown.map(
                  (key, i) =>
                    html`${i === 0 ? '' : length > 2 && shown.length > 1 ? ` ${keys.to} ` : ' '}<kbd>${key}</kbd>`,
                )}
              </dt>
              <dd>${does}</dd>`,
        )}
      </dl>
      <p class="small secondary">${keys.note}</p>
    </dialog>`;
  }
}
customElements.define('rr-key-list', KeyList);
