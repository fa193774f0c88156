/** A small list beside the word that it belongs to: the values of a part of the filter with counts, typed into to narrow it. */
import { html, LitElement, nothing, type TemplateResult } from 'lit';
import { number } from '../format.js';
import { DIMENSIONS, type Dimension, type FilterPart, toggled, without } from '../state/filter.js';
import { shownIn } from '../state/state.js';
import { type Store, Watching } from '../state/store.js';
import { type Choice, choicesOf } from '../state/values.js';
import { base } from '../style/tokens.js';
import { WORDS } from '../words.js';
import { filterListStyle } from './filter-list-style.js';

/** Values beyond these are not in the page until somebody types. */
const MOST = 200;
/** px, from the edge of the page and from what it belongs to. */
const ROOM = 8;
const GAP = 4;

/** `add`: which part to begin with. */
export type FilterListOf = FilterPart | 'add';

export class FilterList extends LitElement {
  static override styles = [base, filterListStyle];
  static override properties = { store: { attribute: false }, of: { state: true }, typed: { state: true } };
  declare store: Store;
  declare of: FilterListOf;
  declare typed: string;
  private beside: Element | undefined;

  constructor() {
    super();
    this.of = 'add';
    this.typed = '';
    new Watching(this, ({ filter, reviewed, trial }) => [filter, reviewed, trial]);
  }

  override connectedCallback(): void {
    super.connectedCallback();
    // The browser closes it by Esc or a click elsewhere.
    this.popover = 'auto';
    this.addEventListener('keydown', this.walk);
    this.addEventListener('beforetoggle', this.giveBack);
  }

  /** @param beside what it belongs to */
  async show(of: FilterListOf, beside: Element): Promise<void> {
    this.beside = beside;
    await this.turnTo(of);
  }

  private async turnTo(of: FilterListOf): Promise<void> {
    this.of = of;
    this.typed = '';
    if (!this.matches(':popover-open')) this.showPopover();
    await this.updateComplete;
    this.place();
    const left = this.beside?.getBoundingClientRect().left ?? 0;
    this.style.setProperty('left', `${Math.max(ROOM, Math.min(left, innerWidth - this.offsetWidth - ROOM))}px`);
    const { renderRoot } = this;
    (renderRoot.querySelector<HTMLElement>('input') ?? renderRoot.querySelector('button'))?.focus();
  }

  /** Under what it belongs to, or over it where there is more room; what it belongs to may move as the sentence grows. */
  private place(): void {
    if (!this.beside?.isConnected) return;
    const beside = this.beside.getBoundingClientRect();
    const isUnder = innerHeight - beside.bottom > beside.top;
    this.style.setProperty('top', isUnder ? `${beside.bottom + GAP}px` : 'auto');
    this.style.setProperty('bottom', isUnder ? 'auto' : `${innerHeight - beside.top + GAP}px`);
  }

  protected override updated(): void {
    // Once the sentence stands as it is now.
    if (this.matches(':popover-open')) requestAnimationFrame(() => this.place());
  }

  /** The focus goes back to what opened it, unless a click has taken it elsewhere; browsers lose it between shadow trees. */
  private readonly giveBack = ({ newState }: ToggleEvent): void => {
    const { beside } = this;
    if (newState === 'closed' && this.matches(':focus-within') && beside instanceof HTMLElement)
      queueMicrotask(() => beside.focus());
  };

  private narrowed(of: Dimension): readonly Choice[] {
    const open = shownIn(this.store.state);
    if (!open) return [];
    const typed = this.typed.trim().toLowerCase();
    return choicesOf(open, this.store.state.filter, of).filter(({ label }) => label.toLowerCase().includes(typed));
  }

  private toggle(of: Dimension, value: string): void {
    this.store.filter(toggled(this.store.state.filter, of, value));
  }

  private readonly walk = (event: KeyboardEvent): void => {
    const by = { ArrowDown: 1, ArrowUp: -1 }[event.key];
    const from = event.composedPath()[0];
    if (event.key === 'Enter' && from instanceof HTMLInputElement) {
      event.preventDefault();
      if (from.type === 'checkbox') from.click();
      else this.take();
    } else if (by !== undefined) {
      event.preventDefault();
      const stops = [...this.renderRoot.querySelectorAll<HTMLElement>('input, .parts button')];
      const at = from instanceof HTMLElement ? stops.indexOf(from) : -1;
      stops[Math.max(0, Math.min(stops.length - 1, at + by))]?.focus();
    }
  };

  /** Enter in the field: what was typed stands for the first value that it leaves. */
  private take(): void {
    const { of } = this;
    if (isDimension(of) && this.typed.trim() !== '') {
      const [first] = this.narrowed(of);
      if (!first) return;
      if (!first.chosen) this.toggle(of, first.value);
    }
    this.hidePopover();
  }

  override render(): TemplateResult {
    const { of } = this;
    if (of === 'add') return this.parts();
    if (of === 'text') return this.words();
    const { moved, notOnlyMoved } = WORDS.filter;
    const count = this.store.state.filter.keys.length;
    return isDimension(of) ? this.values(of) : this.head(of, moved(count), notOnlyMoved);
  }

  private parts(): TemplateResult {
    const { filter } = this.store.state;
    const free = DIMENSIONS.filter((of) => filter[of].length === 0);
    const button = (of: Dimension | 'text', name: string): TemplateResult =>
      html`<button @click=${() => this.turnTo(of)}>${name}</button>`;
    return html`<strong id="name">${WORDS.filter.addPart}</strong>
      <div class="parts" role="group" aria-labelledby="name">
        ${free.map((of) => button(of, WORDS.filter.parts[of]))}
        ${filter.text === '' ? button('text', WORDS.filter.words) : nothing}
      </div>`;
  }

  /** @param any the words that take the part out */
  private head(of: FilterPart, name: string, any: string): TemplateResult {
    const isChosen = this.store.state.filter[of].length > 0;
    const out = (): void => {
      this.store.filter(without(of));
      this.hidePopover();
    };
    return html`<div class="head">
      <strong id="name">${name}</strong><button ?disabled=${!isChosen} @click=${out}>${any}</button>
    </div>`;
  }

  private words(): TemplateResult {
    const { words, anyWords, wordsHint } = WORDS.filter;
    const { text } = this.store.state.filter;
    const typed = ({ target }: Event): void => this.store.filter({ text: (target as HTMLInputElement).value });
    return html`${this.head('text', words, anyWords)}
      <input type="search" autocomplete="off" aria-label=${wordsHint} .value=${text} @input=${typed} />
      <p class="small secondary">${wordsHint}.</p>`;
  }

  private values(of: Dimension): TemplateResult {
    const { parts, any, narrow, noValue, firstOf } = WORDS.filter;
    const narrowed = this.narrowed(of);
    const typed = ({ target }: Event): void => {
      this.typed = (target as HTMLInputElement).value;
    };
    return html`${this.head(of, parts[of], any[of])}
      <input
        type="search"
        autocomplete="off"
        aria-label=${`${parts[of]}: ${narrow}`}
        placeholder=${narrow}
        .value=${this.typed}
        @input=${typed}
      />
      <div class="values" role="group" aria-labelledby="name">
        ${narrowed.slice(0, MOST).map(
          ({ value, label, count, chosen }) => html`<label>
            <input type="checkbox" .checked=${chosen} @change=${() => this.toggle(of, value)} />
            <span>${label}</span><span class="secondary">${number(count)}</span>
          </label>`,
        )}
        ${narrowed.length === 0 ? html`<p class="secondary">${noValue(this.typed.trim())}</p>` : nothing}
        ${narrowed.length > MOST ? html`<p class="small secondary">${firstOf(MOST, narrowed.length)}</p>` : nothing}
      </div>`;
  }
}
customElements.define('rr-filter-list', FilterList);

const isDimension = (of: FilterListOf): of is Dimension => (DIMENSIONS as readonly string[]).includes(of);
