/** The sheet before there is a review on it: empty, while models are read and checked, and where something can't be opened. */
import { css, html, LitElement, nothing, type TemplateResult } from 'lit';
import { level } from '../format.js';
import type { Actions } from '../state/actions.js';
import type { Progress, ReadSoFar } from '../state/state.js';
import { type Store, Watching } from '../state/store.js';
import { base } from '../style/tokens.js';
import { WORDS } from '../words.js';
import { ACCEPTED } from '../work/dropped.js';

const { opening } = WORDS;

export class OpeningPage extends LitElement {
  static override styles = [
    base,
    css`
      :host {
        display: grid;
        height: 100%;
        padding: 24px;
        background: var(--page);
      }
      main {
        display: grid;
        grid-template-rows: minmax(0, 1fr) auto;
        min-height: 0;
        background: var(--sheet);
        border: 1px solid var(--rule);
      }
      .body {
        display: grid;
        align-content: center;
        justify-items: start;
        gap: 16px;
        min-height: 0;
        overflow: auto;
        padding: 32px max(32px, 12%);
      }
      .body.filling {
        align-content: start;
      }
      h1 {
        margin: 0;
        font-size: 22px;
        line-height: 28px;
        font-weight: 400;
        overflow-wrap: anywhere;
      }
      h2 {
        font-size: 14px;
        line-height: 20px;
      }
      ol,
      ul {
        margin: 0;
        padding: 0;
        list-style: none;
      }
      .notes {
        display: grid;
        gap: 4px;
        max-width: 72ch;
        padding-left: 24px;
        list-style: decimal;
        color: var(--secondary);
      }
      .actions {
        display: flex;
        gap: 24px;
      }
      .said {
        margin: 0;
        color: var(--secondary);
      }
      .share {
        width: min(480px, 100%);
        height: 8px;
        border-bottom: 1px solid var(--rule);
      }
      .share rect {
        fill: var(--ink);
      }
      .columns {
        display: grid;
        grid-template-columns: minmax(0, 1fr) minmax(0, 1fr);
        gap: 8px 48px;
        width: 100%;
      }
      @container (max-width: 1000px) {
        .columns {
          grid-template-columns: minmax(0, 1fr);
        }
      }
      .storeys li {
        display: grid;
        grid-template-columns: 72px minmax(0, 1fr) auto;
        gap: 12px;
        min-height: 32px;
        align-items: end;
        border-bottom: 2px solid var(--ink);
      }
      .files li {
        min-height: 32px;
        overflow-wrap: anywhere;
      }
      .block {
        justify-self: end;
        display: grid;
        grid-auto-flow: column;
        border: solid var(--rule);
        border-width: 1px 0 0 1px;
      }
      .block span {
        padding: 4px 16px;
      }
      .block span + span {
        border-left: 1px solid var(--rule);
        color: var(--secondary);
      }
      input {
        display: none;
      }
    `,
  ];
  static override properties = { store: { attribute: false }, actions: { attribute: false } };
  declare store: Store;
  declare actions: Actions;

  constructor() {
    super();
    new Watching(this, ({ phase, said, reviewed }) => [phase, said, reviewed]);
  }

  override render(): TemplateResult {
    const { phase } = this.store.state;
    // One region for whoever listens: it speaks when a stage begins, never of shares.
    const heard = phase.kind === 'loading' ? phase.stage : this.store.state.said;
    return html`<main>
      ${phase.kind === 'loading' ? this.loading(phase) : phase.kind === 'failed' ? this.failed(phase.message) : this.empty()}
      <footer class="block"><span>${WORDS.page.title}</span><span>${opening.local}</span></footer>
      <p class="hidden" role="status" aria-live="polite">${heard}</p>
    </main>`;
  }

  private empty(): TemplateResult {
    const { said } = this.store.state;
    return html`<section class="body">
      <h1>${opening.empty}</h1>
      ${this.picker(opening.pick)}
      <ol class="notes">
        ${opening.also.map((line) => html`<li>${line}</li>`)}
      </ol>
      ${said === '' ? nothing : html`<p class="said">${said}</p>`}
    </section>`;
  }

  private loading({ stage, share, read }: Progress): TemplateResult {
    return html`<section class="body filling" aria-busy="true">
      <h1>${stage}</h1>
      <svg class="share" role="progressbar" aria-label=${stage} aria-valuemin="0" aria-valuemax="100"
        aria-valuenow=${Math.round(100 * share)} viewBox="0 0 1 1" preserveAspectRatio="none">
        <rect width=${share} height="1"></rect>
      </svg>
      <button type="button" @click=${() => this.actions.stop()}>${opening.stop}</button>
      ${read && read.files.length > 0 ? this.filled(read) : nothing}
    </section>`;
  }

  private filled({ files, storeys }: ReadSoFar): TemplateResult {
    return html`<div class="columns">
      <section>
        <h2>${opening.storeys}</h2>
        <ol class="storeys">
          ${storeys.map(
            ({ name, elevation, ducts, barriers }) =>
              html`<li>
                <span class="secondary small">${level(elevation)}</span><span>${name}</span
                ><span>${opening.storeyRead(ducts, barriers)}</span>
              </li>`,
          )}
        </ol>
      </section>
      <section>
        <h2>${opening.files}</h2>
        <ul class="files">
          ${files.map(({ name, ducts, barriers }) => html`<li>${opening.fileRead(name, ducts, barriers)}</li>`)}
        </ul>
      </section>
    </div>`;
  }

  private failed(message: string): TemplateResult {
    return html`<section class="body" role="alert">
      <h1>${opening.failed}</h1>
      <p>${message}</p>
      <div class="actions">
        ${this.picker(opening.again)}
        ${
          this.store.state.reviewed
            ? html`<button type="button" @click=${() => this.actions.backToReview()}>${opening.back}</button>`
            : nothing
        }
      </div>
    </section>`;
  }

  private picker(words: string): TemplateResult {
    return html`<button type="button" @click=${() => this.renderRoot.querySelector('input')?.click()}>${words}</button>
      <input
        type="file"
        multiple
        tabindex="-1"
        aria-hidden="true"
        accept=${ACCEPTED}
        @change=${({ target }: { target: HTMLInputElement }) => {
          const files = [...(target.files ?? [])];
          target.value = ''; // else the same files could not be chosen again
          if (files.length > 0) void this.actions.open(files);
        }}
      />`;
  }
}
customElements.define('rr-opening-page', OpeningPage);
