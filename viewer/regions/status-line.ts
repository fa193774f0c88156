/** The filter as a sentence that is edited in place, then what the report is and is not. */
import { css, html, LitElement, nothing, type TemplateResult } from 'lit';
import '../parts/filter-list.js';
import '../parts/key-list.js';
import { CAUTION_IN_BRIEF } from '../../src/report/words.js';
import { oneLine } from '../../src/words/text.js';
import { number } from '../format.js';
import type { FilterList, FilterListOf } from '../parts/filter-list.js';
import type { KeyList } from '../parts/key-list.js';
import { allOf, DIMENSIONS, type Shown, shownBy, without } from '../state/filter.js';
import { NO_FILTER, type OpenReport, shownIn } from '../state/state.js';
import { type Store, Watching } from '../state/store.js';
import { type Part, sentenceOf } from '../state/values.js';
import { base } from '../style/tokens.js';
import { WORDS } from '../words.js';

export class StatusLine extends LitElement {
  static override styles = [
    base,
    css`
:host {
        display: flex;
        flex-wrap: wrap;
        align-items: center;
        gap: 0 16px;
        padding: 0 12px;
        background: var(--page);
      }
      .sentence {
        display: flex;
        flex: 1 1 auto;
        flex-wrap: wrap;
        align-items: baseline;
        gap: 0 6px;
        min-height: 27px;
        padding: 1px 0;
      }
      .sentence button {
        max-width: 320px;
        overflow: hidden;
        text-overflow: ellipsis;
        white-space: nowrap;
      }
      .about {
        display: flex;
        flex: 0 1 auto;
        align-items: center;
        gap: 12px;
        white-space: nowrap;
      }
      /* Two lines in the height of one row. */
      .about .caution {
        max-width: 372px;
        padding: 0;
        border: 0;
        font-size: 12px;
        line-height: 13px;
        text-align: left;
        text-decoration: underline dotted;
        text-underline-offset: 2px;
        white-space: normal;
      }
      .about .caution:hover {
        text-decoration-style: solid;
      }
      .not-here {
        flex: 1 0 100%;
      }
      dialog {
        max-width: min(640px, calc(100vw - 32px));
        padding: 16px 20px;
        border: 1px solid var(--rule);
        color: var(--ink);
        background: var(--sheet);
      }
      dialog::backdrop {
        background: rgb(0 0 0 / 35%);
      }
      ul {
        margin: 8px 0;
        padding-left: 20px;
      }
      li {
        margin-bottom: 6px;
      }
    `,
  ];
  static override properties = { store: { attribute: false } };
  declare store: Store;

  constructor() {
    super();
    new Watching(this, ({ filter, notHere, reviewed, trial }) => [filter, notHere, reviewed, trial]);
  }

  /** The list of the keys; `?` opens it too. */
  showKeys(): void {
    this.renderRoot.querySelector<KeyList>('rr-key-list')!.show();
  }

  private edit(of: FilterListOf, event: Event): void {
    void this.renderRoot.querySelector<FilterList>('rr-filter-list')!.show(of, event.currentTarget as Element);
  }

  private get cautions(): HTMLDialogElement {
    return this.renderRoot.querySelector('dialog')!;
  }

  override render(): TemplateResult {
    const open = shownIn(this.store.state);
    if (!open) return html``;
    return html`<h2 class="hidden">${WORDS.regions.status}</h2>
      ${this.notHere()}${this.sentence(open)}${this.about(open)}
      <rr-filter-list .store=${this.store}></rr-filter-list>
      <rr-key-list></rr-key-list>
      <dialog aria-labelledby="cautions">
        <h2 id="cautions">${WORDS.filter.cautions}</h2>
        <ul>
          ${open.report.cautions.map((caution) => html`<li>${caution}</li>`)}
        </ul>
        <button @click=${() => this.cautions.close()}>${WORDS.filter.close}</button>
      </dialog>`;
  }

  private notHere(): TemplateResult | typeof nothing {
    const { notHere } = this.store.state;
    if (notHere.length === 0) return nothing;
    return html`<div class="not-here" role="status">
      ${WORDS.filter.notHere(notHere)}
      <button @click=${() => this.store.change({ notHere: [] })}>${WORDS.filter.dismiss}</button>
    </div>`;
  }

  private sentence(open: OpenReport): TemplateResult {
    const { filter } = this.store.state;
    const words = WORDS.filter;
    const parts = sentenceOf(open, filter, DIMENSIONS);
    const shown = shownBy(open, filter);
    const add = (label: string): TemplateResult =>
      html`<button aria-haspopup="dialog" @click=${(event: Event) => this.edit('add', event)}>${label}</button>`;
    if (parts.length === 0)
      return html`<div class="sentence">
        <span>${words.everything}: <span role="status">${counts(shown)}</span></span> · ${add(words.only)}
      </div>`;
    return html`<div class="sentence">
      ${parts.map((part) => html`${this.partOf(part)} · `)}${add(words.and)} ·
      <button @click=${() => this.store.change({ filter: NO_FILTER })}>${words.clear}</button> ·
      <span role="status">${shown.findings + shown.penetrations === 0 ? words.nothing : counts(shown, allOf(open))}</span>
    </div>`;
  }

  private partOf({ of, words }: Part): TemplateResult {
    const { parts, words: text, moving } = WORDS.filter;
    const name = of === 'text' ? text : of === 'keys' ? moving : parts[of];
    const pressed = ({ key }: KeyboardEvent): void => {
      if (key === 'Delete' || key === 'Backspace') this.store.filter(without(of));
    };
    return html`<button
      aria-haspopup="dialog"
      aria-label=${WORDS.filter.change(name, words)}
      title=${WORDS.filter.change(name, words)}
      @click=${(event: Event) => this.edit(of, event)}
      @keydown=${pressed}
    >
      ${words}
    </button>`;
  }

  private about({ report }: OpenReport): TemplateResult {
    const { revision } = report;
    return html`<div class="about small">
      ${report.demonstration ? html`<strong>${WORDS.page.demonstration}</strong>` : nothing}
      ${revision === null ? nothing : html`<span>${WORDS.filter.revision(oneLine(revision))}</span>`}
      <button class="caution" aria-haspopup="dialog" @click=${() => this.cautions.showModal()}>${CAUTION_IN_BRIEF}</button>
      <button aria-haspopup="dialog" @click=${() => this.showKeys()}>${WORDS.keys.open}</button>
    </div>`;
  }
}
customElements.define('rr-status-line', StatusLine);

/** `134 findings at 110 penetrations`, `12 of 134 findings at 9 of 110 penetrations`. */
function counts(shown: Shown, all?: Shown): string {
  const said = (of: keyof Shown, noun: string): string => {
    const most = all?.[of] ?? shown[of];
    const nouns = `${number(most)} ${most === 1 ? noun : `${noun}s`}`;
    return all ? `${number(shown[of])} of ${nouns}` : nouns;
  };
  return WORDS.filter.shown(said('findings', 'finding'), said('penetrations', 'penetration'));
}
