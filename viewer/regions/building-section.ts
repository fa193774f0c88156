/** Storeys to relative height, upwards, with what was found on each; on a tablet in a row, from the lowest on. */
import { css, html, LitElement, nothing, type SVGTemplateResult, svg, type TemplateResult } from 'lit';
import type { Report } from '../../src/report/schema.js';
import {
  chosenStoreys,
  type PlacedStorey,
  placeRowOfStoreys,
  placeSection,
  type Section,
  sectionOf,
} from '../faces/section.js';
import { CELL_WIDTH, cellOf, drawCell } from '../faces/storey-cell.js';
import type { Building } from '../state/building.js';
import { keepLast } from '../state/keep-last.js';
import { shownIn } from '../state/state.js';
import { type Store, Watching } from '../state/store.js';
import { base } from '../style/tokens.js';
import { WORDS } from '../words.js';

/** Wider than this, px, storeys stand in a row. */
const ROW_FROM = 2 * CELL_WIDTH;
/** A row is no higher than this, px: it leaves room for what it is there for. */
const MOST_IN_ROW = 130;

const isRow = ({ width }: { readonly width: number }): boolean => width > ROW_FROM;

export class BuildingSection extends LitElement {
  static override styles = [
    base,
    css`
      :host {
        display: flex;
        flex-direction: column;
        height: 100%;
      }
      nav {
        display: contents;
      }
      .top {
        display: flex;
        flex-wrap: wrap;
        justify-content: space-between;
        align-items: baseline;
        gap: 0 12px;
        padding: 8px 8px 4px 14px;
      }
      h2 {
        font-size: 14px;
        line-height: 20px;
      }
      .scroll {
        flex: 1;
        min-height: 0;
        overflow: auto;
      }
      svg {
        display: block;
      }
      text {
        font-size: 12px;
        fill: var(--ink);
        /* Over the lines of shafts. */
        paint-order: stroke;
        stroke: var(--page);
        stroke-width: 4;
      }
      .chosen text {
        stroke: var(--sheet);
      }
      .storey:hover text {
        stroke: var(--raised);
      }
      .name {
        font-weight: 700;
      }
      .storey {
        cursor: pointer;
        outline: none;
      }
      .ground {
        fill: transparent;
      }
      .storey:hover .ground {
        fill: var(--raised);
      }
      .chosen .ground {
        fill: var(--sheet);
      }
      .others text {
        fill: var(--secondary);
      }
      .ring {
        fill: none;
      }
      .storey:focus-visible .ring {
        stroke: var(--accent);
        stroke-width: 3;
      }
    `,
  ];
  static override properties = {
    store: { attribute: false },
    size: { state: true },
    at: { state: true },
  };
  declare store: Store;
  declare private size: { readonly width: number; readonly height: number };
  /** Key of the storey that Tab leads to, and from which a range begins. */
  declare private at: string | null;
  private readonly section = keepLast((report: Report, building: Building) => sectionOf(report, building));
  private readonly placed = keepLast((section: Section, height: number) => placeSection(section, height));
  private readonly resized = new ResizeObserver(() => this.measure());

  constructor() {
    super();
    this.size = { width: CELL_WIDTH, height: 0 };
    this.at = null;
    new Watching(this, (state) => [shownIn(state), state.filter.storeys, state.selection.barrier]);
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.resized.disconnect();
  }

  override updated(): void {
    const scroll = this.renderRoot.querySelector('.scroll');
    if (scroll) this.resized.observe(scroll);
  }

  private measure(): void {
    const scroll = this.renderRoot.querySelector('.scroll');
    if (scroll) this.size = { width: scroll.clientWidth, height: scroll.clientHeight };
  }

  override render(): TemplateResult {
    const open = shownIn(this.store.state);
    const { storeys: chosen } = this.store.state.filter;
    return html`<nav aria-label=${WORDS.regions.section}>
      <div class="top">
        <h2>${WORDS.regions.section}</h2>
        <button type="button" aria-pressed=${chosen.length === 0} @click=${() => this.store.filter({ storeys: [] })}>
          ${WORDS.section.all}
        </button>
      </div>
      <div class="scroll">${open && (isRow(this.size) || this.size.height > 0) ? this.drawing(this.section(open.report, open.building)) : nothing}</div>
    </nav>`;
  }

  private drawing(section: Section): TemplateResult {
    const inRow = isRow(this.size);
    const placed = inRow ? placeRowOfStoreys(section, MOST_IN_ROW) : this.placed(section, this.size.height);
    const cells: readonly Cell[] = inRow
      ? [...placed.storeys].reverse().map((storey, i) => ({ storey, x: i * CELL_WIDTH }))
      : placed.storeys.map((storey) => ({ storey, x: 0 }));
    return html`<svg
      role="listbox"
      aria-multiselectable="true"
      aria-label=${`${WORDS.regions.section}. ${WORDS.section.hint}`}
      width=${inRow ? cells.length * CELL_WIDTH : CELL_WIDTH}
      height=${placed.height + 2}
    >
      ${cells.map((cell) => this.cell(cell, section, placed.isFull))}
    </svg>`;
  }

  private cell({ storey, x }: Cell, { shafts }: Section, isFull: boolean): SVGTemplateResult {
    const { filter, selection } = this.store.state;
    const { key } = storey.storey;
    const isChosen = filter.storeys.includes(key);
    const isHere = shownIn(this.store.state)?.building.barriers.get(selection.barrier ?? '')?.storey === key;
    const cell = cellOf(storey, shafts, isFull);
    const others = filter.storeys.length > 0 && !isChosen;
    return svg`<g
      class=${`storey${isChosen ? ' chosen' : ''}${others ? ' others' : ''}`}
      role="option"
      aria-selected=${isChosen}
      aria-current=${isHere ? 'location' : 'false'}
      aria-label=${[cell.label, ...(isHere ? [WORDS.section.selectedHere] : [])].join('; ')}
      tabindex=${this.isTabStop(key) ? 0 : -1}
      data-storey=${key}
      transform=${`translate(${x} ${storey.y})`}
      @click=${(event: MouseEvent) => this.choose(key, event.shiftKey)}
      @keydown=${(event: KeyboardEvent) => this.pressed(event, key)}
    >
      ${drawCell(cell, isChosen, isHere)}
    </g>`;
  }

  private keys(): readonly string[] {
    return shownIn(this.store.state)?.building.storeys.map(({ key }) => key) ?? [];
  }

  private isTabStop(key: string): boolean {
    const keys = this.keys();
    const { storeys } = this.store.state.filter;
    return key === (this.at !== null && keys.includes(this.at) ? this.at : (storeys[0] ?? keys[0]));
  }

  private choose(key: string, isRange: boolean): void {
    const storeys = chosenStoreys(this.keys(), this.store.state.filter.storeys, key, this.at, isRange);
    if (!isRange) this.at = key;
    this.store.filter({ storeys });
  }

  private pressed(event: KeyboardEvent, key: string): void {
    const by = { ArrowUp: -1, ArrowRight: -1, ArrowDown: 1, ArrowLeft: 1 }[event.key];
    if (by !== undefined) {
      const next = this.keys()[this.keys().indexOf(key) + by];
      if (next !== undefined) this.focusStorey(next);
    } else if (event.key === 'Enter' || event.key === ' ') this.choose(key, event.shiftKey);
    else return;
    event.preventDefault();
    event.stopPropagation();
  }

  private focusStorey(key: string): void {
    const all = this.renderRoot.querySelectorAll<SVGGElement>('[data-storey]');
    [...all].find((one) => one.dataset.storey === key)?.focus();
  }
}
customElements.define('rr-building-section', BuildingSection);

interface Cell {
  readonly storey: PlacedStorey;
  readonly x: number;
}
