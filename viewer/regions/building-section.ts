/** Storeys to relative height, upwards, with what was found on each; on a tablet in a row, from the lowest on. */
import { css, html, LitElement, nothing, type SVGTemplateResult, svg, type TemplateResult } from 'lit';
import { MARK_GRID } from '../../src/draw/marks.js';
import type { OutcomeCounts, Report } from '../../src/report/schema.js';
import { oneLine } from '../../src/words/text.js';
import {
  COUNT_LINE,
  COUNTED,
  chosenStoreys,
  FOOT,
  hasAny,
  NAME_LINE,
  type PlacedStorey,
  placeSection,
  type Section,
  sectionOf,
} from '../faces/section.js';
import { fittedTo, widthOf } from '../faces/text.js';
import { level } from '../format.js';
import { markShape } from '../parts/mark.js';
import { type Building, worstOf } from '../state/building.js';
import { latest } from '../state/memo.js';
import { shownIn } from '../state/state.js';
import { type Store, Watching } from '../state/store.js';
import { base } from '../style/tokens.js';
import { WORDS } from '../words.js';

/** px. */
const WIDTH = 136;
const LEFT = 14;
const SHAFT = 8;
const MARK = 16;
const TEXT = 12;
/** Wider than this, storeys stand in a row. */
const ROW_FROM = 2 * WIDTH;

export class BuildingSection extends LitElement {
  static override styles = [
    base,
    css`
      :host {
        display: flex;
        flex-direction: column;
        height: 100%;
      }
      header {
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
  private readonly section = latest((report: Report, building: Building) => sectionOf(report, building));
  private readonly placed = latest((section: Section, height: number) => placeSection(section, height));
  private readonly resized = new ResizeObserver(() => this.measure());

  constructor() {
    super();
    this.size = { width: WIDTH, height: 0 };
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
    return html`<header>
        <h2>${WORDS.regions.section}</h2>
        <button type="button" aria-pressed=${chosen.length === 0} @click=${() => this.store.filter({ storeys: [] })}>
          ${WORDS.section.all}
        </button>
      </header>
      <div class="scroll">${open && this.size.height > 0 ? this.drawing(this.section(open.report, open.building)) : nothing}</div>`;
  }

  private drawing(section: Section): TemplateResult {
    const { width, height } = this.size;
    const isRow = width > ROW_FROM;
    const placed = this.placed(section, isRow ? 0 : height);
    const cells: readonly Cell[] = isRow
      ? [...placed.storeys]
          .reverse()
          .map((storey, i) => ({ storey: { ...storey, y: 0, height: height - 2 }, x: i * WIDTH }))
      : placed.storeys.map((storey) => ({ storey, x: 0 }));
    return html`<svg
      role="listbox"
      aria-multiselectable="true"
      aria-label=${`${WORDS.regions.section}. ${WORDS.section.hint}`}
      width=${isRow ? cells.length * WIDTH : WIDTH}
      height=${isRow ? height - 2 : placed.height + 2}
    >
      ${cells.map((cell) => this.cell(cell, section, isRow || placed.isFull))}
    </svg>`;
  }

  private cell({ storey, x }: Cell, { shafts }: Section, isFull: boolean): SVGTemplateResult {
    const { filter, selection } = this.store.state;
    const { key, name, elevation } = storey.storey;
    const { y, height } = storey;
    const isChosen = filter.storeys.includes(key);
    const isHere = shownIn(this.store.state)?.building.barriers.get(selection.barrier ?? '')?.storey === key;
    const words = oneLine(name) || WORDS.section.noStorey;
    const room = WIDTH - LEFT - 4 - shafts.length * SHAFT;
    const shownName = fittedTo(words, room, TEXT, true);
    const levelWords = elevation === null ? '' : level(elevation);
    const hasRoom = widthOf(shownName, TEXT, true) + 6 + widthOf(levelWords, TEXT) <= room;
    const foot = y + height - FOOT;
    const slabLine = isFull ? foot - NAME_LINE + 2 : foot;
    const counts = isFull ? COUNTED.filter((outcome) => storey.walls[outcome] > 0) : worstFirst(storey.walls);
    const total = sum(storey.walls);
    return svg`<g
      class=${['storey', ...(isChosen ? ['chosen'] : []), ...(filter.storeys.length > 0 && !isChosen ? ['others'] : [])].join(' ')}
      role="option"
      aria-selected=${isChosen}
      aria-current=${isHere ? 'location' : 'false'}
      aria-label=${this.nameOf(storey, words, levelWords, shafts, isHere)}
      tabindex=${this.isTabStop(key) ? 0 : -1}
      data-storey=${key}
      @click=${(event: MouseEvent) => this.choose(key, event.shiftKey)}
      @keydown=${(event: KeyboardEvent) => this.pressed(event, key)}
    >
      <rect class="ground" x=${x} y=${y} width=${WIDTH} height=${height}></rect>
      <path d=${`M${x} ${y + height}h${WIDTH}`} stroke="var(--ink)" stroke-width="3"></path>
      ${storey.shafts.map((i) =>
        drawShaft(
          WORDS.section.shaft(shafts[i]!.names.map(oneLine).join(', ')),
          x + WIDTH - 4 - (shafts.length - i) * SHAFT,
          y,
          height,
        ),
      )}
      ${isChosen ? svg`<rect x=${x} y=${y} width="4" height=${height} fill="var(--accent)"></rect>` : nothing}
      ${isHere ? svg`<path d=${`M${x + 5} ${y + 5}l7 5l-7 5z`} fill="var(--accent)"></path>` : nothing}
      <text x=${x + LEFT} y=${y + 14} class="name">${shownName}</text>
      ${
        isFull
          ? svg`<text x=${x + LEFT} y=${foot + 3}>${levelWords}</text>`
          : hasRoom
            ? svg`<text x=${x + LEFT + room} y=${y + 14} text-anchor="end">${levelWords}</text>`
            : nothing
      }
      ${counts.map((outcome, i) =>
        counted(outcome, WORDS.section.ofAll(storey.walls[outcome], outcome, isFull ? storey.walls[outcome] : total), [
          x + LEFT,
          y + NAME_LINE + i * COUNT_LINE,
        ]),
      )}
      ${hasAny(storey.slab) ? slabCount(storey.slab, [x + LEFT, slabLine - MARK]) : nothing}
      <rect class="ring" x=${x + 2} y=${y + 2} width=${WIDTH - 4} height=${height - 4}></rect>
    </g>`;
  }

  private nameOf(
    { walls, slab, shafts: here }: PlacedStorey,
    name: string,
    levelWords: string,
    shafts: Section['shafts'],
    isHere: boolean,
  ): string {
    return [
      name,
      ...(levelWords ? [levelWords] : []),
      hasAny(walls) || hasAny(slab) ? WORDS.counts(walls) : WORDS.section.nothing,
      ...(hasAny(slab) ? [WORDS.section.inFloor(WORDS.counts(slab))] : []),
      ...here.map((i) => WORDS.section.shaft(shafts[i]!.names.map(oneLine).join(', '))),
      ...(isHere ? [WORDS.section.selectedHere] : []),
    ]
      .filter(Boolean)
      .join('; ');
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

const sum = (counts: OutcomeCounts): number => COUNTED.reduce((total, outcome) => total + counts[outcome], 0);
const worstFirst = (counts: OutcomeCounts) => COUNTED.filter((outcome) => outcome === worstOf(counts));

const counted = (
  outcome: (typeof COUNTED)[number],
  words: string,
  [x, y]: readonly [number, number],
): SVGTemplateResult =>
  svg`<g transform=${`translate(${x - 4} ${y}) scale(${MARK / MARK_GRID})`}>${markShape(outcome)}</g>
    <text x=${x + MARK} y=${y + 12}>${words}</text>`;

/** What passes a floor stands on its line. */
function slabCount(counts: OutcomeCounts, at: readonly [number, number]): SVGTemplateResult {
  const worst = worstOf(counts)!;
  return counted(worst, WORDS.section.ofAll(counts[worst], worst, sum(counts)), at);
}

/** Open through the slab. */
const drawShaft = (name: string, x: number, y: number, height: number): SVGTemplateResult =>
  svg`<g><title>${name}</title><path d=${`M${x} ${y + height}h${SHAFT - 3}`} stroke="var(--page)" stroke-width="3"></path>
    <path d=${`M${x} ${y}v${height + 1.5}m${SHAFT - 3} 0v${-height - 1.5}`} fill="none" stroke="var(--ink)" stroke-width="1"></path></g>`;
