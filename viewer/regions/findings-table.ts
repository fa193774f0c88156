/** All findings as a table: only the lines in sight are in the page. */
import { html, LitElement, nothing, type PropertyValues, type TemplateResult } from 'lit';
import { TO_SHEET } from '../bind-keys.js';
import '../parts/filter-list.js';
import { number } from '../format.js';
import { facesHead, facesHeadStyle } from '../parts/faces-head.js';
import type { FilterList } from '../parts/filter-list.js';
import { shownRows } from '../state/filter.js';
import type { Row } from '../state/rows.js';
import { type OpenReport, type Selection, shownIn } from '../state/state.js';
import { type Store, Watching } from '../state/store.js';
import { base } from '../style/tokens.js';
import { COLUMNS, type Column } from '../table/columns.js';
import { reading } from '../table/reading.js';
import { NARROW, ROW_HEIGHT, tableStyle } from '../table/style.js';
import { WORDS } from '../words.js';

/** Rows over and under those in sight, so that a turn of the wheel shows no gap. */
const SPARE = 6;

export class FindingsTable extends LitElement {
  static override styles = [base, facesHeadStyle, tableStyle];
  static override properties = {
    store: { attribute: false },
    narrow: { type: Boolean, reflect: true },
    inset: { type: Boolean, reflect: true },
    first: { state: true },
    inSight: { state: true },
  };
  declare store: Store;
  /** Sentences get lines of their own. */
  declare narrow: boolean;
  /** Whether the model stands in the corner. */
  declare inset: boolean;
  /** Number of the first row in the page, from 0. */
  declare first: number;
  declare inSight: number;
  private readonly measuring = new ResizeObserver(() => this.measure());
  /** What was last brought into sight. */
  private broughtTo: Row | undefined;

  constructor() {
    super();
    this.narrow = false;
    this.inset = false;
    this.first = 0;
    this.inSight = 0;
    new Watching(this, ({ filter, sort, selection, reviewed, trial }) => [filter, sort, selection, reviewed, trial]);
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.measuring.disconnect();
  }

  /** Puts the keyboard into the search. */
  search(): void {
    this.renderRoot.querySelector<HTMLInputElement>('input')!.focus();
  }

  private get grid(): HTMLElement {
    return this.renderRoot.querySelector<HTMLElement>('[role=grid]')!;
  }

  private get rowHeight(): number {
    return this.narrow ? ROW_HEIGHT.narrow : ROW_HEIGHT.wide;
  }

  private get rows(): readonly Row[] {
    const open = shownIn(this.store.state);
    return open ? shownRows(open, this.store.state) : [];
  }

  protected override firstUpdated(): void {
    this.measuring.observe(this);
    this.measuring.observe(this.grid);
  }

  private measure(): void {
    this.narrow = this.clientWidth < NARROW;
    this.inSight = Math.ceil(this.grid.clientHeight / this.rowHeight);
    this.look();
  }

  private look(): void {
    this.first = Math.max(0, Math.floor(this.grid.scrollTop / this.rowHeight) - SPARE);
  }

  protected override updated(changed: PropertyValues): void {
    const { rows } = this;
    const at = this.renderRoot.querySelector<HTMLElement>('.rows')!;
    at.style.setProperty('height', `${rows.length * this.rowHeight}px`);
    at.querySelector<HTMLElement>('.window')!.style.setProperty(
      'transform',
      `translateY(${this.first * this.rowHeight}px)`,
    );
    const selected = selectedIn(rows, this.store.state.selection);
    if (selected && (selected !== this.broughtTo || changed.has('narrow')) && this.inSight > 0) {
      this.broughtTo = selected;
      this.bring(rows.indexOf(selected));
    }
    this.look();
  }

  /** Scrolls no further than it has to. */
  private bring(number: number): void {
    const { grid, rowHeight } = this;
    const head = this.renderRoot.querySelector<HTMLElement>('.heads')!.offsetHeight;
    const top = number * rowHeight;
    const room = grid.clientHeight - head;
    if (top < grid.scrollTop) grid.scrollTop = top;
    else if (top + rowHeight > grid.scrollTop + room) grid.scrollTop = top + rowHeight - room;
  }

  private readonly pressed = (event: KeyboardEvent): void => {
    if (event.target !== this.grid || event.ctrlKey || event.metaKey || event.altKey) return;
    const { rows } = this;
    const selected = selectedIn(rows, this.store.state.selection);
    const to = target(event.key, selected ? rows.indexOf(selected) : -1, rows.length, this.inSight - 2);
    if (to === undefined) return;
    event.preventDefault();
    const row = rows[to];
    if (row) this.store.selectRow(row.id);
  };

  private openSheet(): void {
    this.dispatchEvent(new Event(TO_SHEET, { bubbles: true, composed: true }));
  }

  private choose(event: Event, column: Column): void {
    void this.renderRoot
      .querySelector<FilterList>('rr-filter-list')!
      .show(column.part!, event.currentTarget as Element);
  }

  private sortBy({ sort }: Column): void {
    const { column, descending } = this.store.state.sort;
    if (sort) this.store.change({ sort: { column: sort, descending: column === sort && !descending } });
  }

  override render(): TemplateResult {
    const open = shownIn(this.store.state);
    const { rows } = this;
    const selected = selectedIn(rows, this.store.state.selection);
    const seen = rows.slice(this.first, this.first + this.inSight + 2 * SPARE);
    return html`${this.bar(rows, open)}
      <div
        role="grid"
        tabindex="0"
        aria-label=${WORDS.table.label}
        aria-rowcount=${rows.length + 1}
        aria-colcount=${COLUMNS.length}
        aria-activedescendant=${selected && seen.includes(selected) ? 'selected' : nothing}
        @scroll=${this.look}
        @keydown=${this.pressed}
      >
        <div class="heads" role="row" aria-rowindex="1">${COLUMNS.map((column) => this.head(column))}</div>
        <div class="rows" role="rowgroup">
          <div class="window" role="presentation">
            ${open ? seen.map((row, i) => this.row(row, this.first + i, row === selected, open)) : nothing}
          </div>
        </div>
        ${rows.length === 0 ? html`<p class="none secondary">${WORDS.table.none}</p>` : nothing}
      </div>
      <div class="foot">
        <section class="reading" aria-label=${WORDS.table.reading} tabindex="0">
          ${open ? reading(selected, open, () => this.openSheet()) : nothing}
        </section>
      </div>
      <rr-filter-list .store=${this.store}></rr-filter-list>`;
  }

  private bar(rows: readonly Row[], open: OpenReport | null): TemplateResult {
    const { table } = WORDS;
    const { filter } = this.store.state;
    return html`<div class="bar">
      ${facesHead(this.store)}
      <span class="secondary" role="status">${table.rows(number(rows.length), number(open?.rows.length ?? 0))}</span>
      <label>
        ${table.search}
        <input
          type="search"
          placeholder=${table.searchHint}
          .value=${filter.text}
          @input=${({ target }: Event) => this.store.filter({ text: (target as HTMLInputElement).value })}
        />
      </label>
    </div>`;
  }

  private head(column: Column): TemplateResult {
    const { sort, filter } = this.store.state;
    const { id, part } = column;
    const name = WORDS.table.columns[id];
    const isSorted = column.sort !== null && sort.column === column.sort;
    const chosen = part ? filter[part].length : 0;
    const values = chosen === 0 ? WORDS.table.any : WORDS.table.only(chosen);
    return html`<div
      class=${id}
      role="columnheader"
      aria-sort=${isSorted ? (sort.descending ? 'descending' : 'ascending') : nothing}
    >
      ${
        column.sort
          ? html`<button class="name" @click=${() => this.sortBy(column)}>
              ${name}${isSorted ? html`<span aria-hidden="true"> ${sort.descending ? '\u2191' : '\u2193'}</span>` : nothing}
            </button>`
          : html`<span class="name">${name}</span>`
      }
      ${
        part
          ? html`<button
              class="values ${chosen > 0 ? 'chosen' : ''}"
              aria-haspopup="dialog"
              aria-label=${WORDS.table.choose(name, values)}
              @click=${(event: Event) => this.choose(event, column)}
            >
              ${values}
            </button>`
          : nothing
      }
    </div>`;
  }

  private row(row: Row, at: number, isSelected: boolean, open: OpenReport): TemplateResult {
    return html`<div
      role="row"
      id=${isSelected ? 'selected' : nothing}
      aria-rowindex=${at + 2}
      aria-selected=${isSelected}
      @click=${() => this.store.selectRow(row.id)}
      @dblclick=${this.openSheet}
    >
      ${COLUMNS.map(
        ({ id, cell, title }) =>
          html`<div class=${id} role="gridcell" title=${title?.(row) || nothing}>${cell(row, open)}</div>`,
      )}
    </div>`;
  }
}
customElements.define('rr-findings-table', FindingsTable);

/** The row of the finding that is selected, else the first of the penetration. */
function selectedIn(rows: readonly Row[], { finding, penetration }: Selection): Row | undefined {
  if (finding !== null) return rows.find((row) => row.finding?.id === finding);
  return penetration === null ? undefined : rows.find((row) => row.penetration?.id === penetration);
}

/** Number of the row that a key leads to; undefined: the key is not the table's. */
function target(key: string, at: number, count: number, page: number): number | undefined {
  const last = count - 1;
  switch (key) {
    case 'ArrowDown':
      return Math.min(last, at + 1);
    case 'ArrowUp':
      return Math.max(0, at - 1);
    case 'PageDown':
      return Math.min(last, at + page);
    case 'PageUp':
      return Math.max(0, at - page);
    case 'Home':
      return 0;
    case 'End':
      return last;
    default:
      return undefined;
  }
}
