/** Barriers of the storeys that are shown, each drawn flat as one stands before it. Only what is in sight is in the page. */
import { html, LitElement, nothing, type TemplateResult } from 'lit';
import { repeat } from 'lit/directives/repeat.js';
import { drawRow } from '../faces/draw.js';
import { gapDimensions } from '../faces/gap-dimensions.js';
import { hatchPatterns } from '../faces/hatches.js';
import { holdTicks } from '../faces/hold-ticks.js';
import { placeRow } from '../faces/layout.js';
import type { PlacedMark } from '../faces/placed.js';
import { newPenetrations } from '../faces/revision.js';
import { separatingScale } from '../faces/scales.js';
import { barrierHead, facing, storeyHead } from '../faces/strip-head.js';
import {
  Flats,
  headOf,
  type Item,
  inSight,
  type Planned,
  plannedItems,
  scrollFor,
  tabStopIn,
  turnedItems,
} from '../faces/strips.js';
import { facesStyle } from '../faces/styles.js';
import { facesHead, facesHeadStyle } from '../parts/faces-head.js';
import type { BuildingBarrier } from '../state/building.js';
import { keepLast } from '../state/keep-last.js';
import { NO_FILTER, type OpenReport, type Side, shownIn, type ViewerState } from '../state/state.js';
import { type Store, Watching } from '../state/store.js';
import { seenPenetrations } from '../state/walk.js';
import { base } from '../style/tokens.js';
import { WORDS } from '../words.js';

/** Of the region, at both sides of what is drawn, px. */
const MARGIN = 12;
/** Beyond the edges of what is in sight that is drawn too, px. */
const BEYOND = 300;

export class BarrierFaces extends LitElement {
  static override styles = [base, facesHeadStyle, facesStyle];
  static override properties = {
    store: { attribute: false },
    size: { state: true },
    from: { state: true },
    enlarged: { state: true },
  };
  declare store: Store;
  /** px of the list as it is seen, without margins and scroll bar. */
  declare private size: { readonly width: number; readonly height: number };
  /** px that it is scrolled. */
  declare private from: number;
  /** Scales of barriers that somebody looks at larger. */
  declare private enlarged: ReadonlyMap<string, number>;
  /** What came into sight last, and in which plan. */
  private followed: { readonly wished: string; readonly plan: Planned } | null = null;
  private focusNext = false;
  private readonly flats = keepLast((open: OpenReport, geometry: ViewerState['geometry']) => new Flats(open, geometry));
  private readonly planned = keepLast(
    (flats: Flats, seen: ReadonlySet<string>, width: number, enlarged: ReadonlyMap<string, number>) =>
      plannedItems({ flats, seen, width, enlarged }),
  );
  private readonly turned = keepLast(turnedItems);
  private readonly newOnes = keepLast(newPenetrations);
  private readonly resized = new ResizeObserver(() => this.measure());

  constructor() {
    super();
    this.size = { width: 0, height: 0 };
    this.from = 0;
    this.enlarged = new Map();
    new Watching(this, (state) => [shownIn(state), state.geometry, state.selection, state.filter]);
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.resized.disconnect();
    this.followed = null;
  }

  override render(): TemplateResult {
    const open = shownIn(this.store.state);
    return html`<section class="region" aria-label=${WORDS.regions.faces}>
      ${facesHead(this.store)}${open ? this.list(open) : nothing}
    </section>`;
  }

  private list(open: OpenReport): TemplateResult {
    const { summary, penetrations } = open.report;
    if (penetrations.length === 0) return html`<p class="empty">${WORDS.drawn.noPenetrations}</p>`;
    const said =
      summary.outcomes.failed === 0
        ? html`<p class="said">${WORDS.noneFailed(summary.outcomes.cantTell)}</p>`
        : nothing;
    const isEmpty = seenPenetrations(open, this.store.state.filter).size === 0;
    return html`${said}
      <p class="legend small secondary">${WORDS.drawn.legend}</p>
      <div class="scroll" @scroll=${this.scrolled}>
        ${isEmpty ? this.empty() : this.size.width > 0 ? this.inSight(open) : nothing}
      </div>`;
  }

  private empty(): TemplateResult {
    return html`<p>${WORDS.drawn.nothing}</p>
      <button type="button" @click=${() => this.store.change({ filter: NO_FILTER })}>${WORDS.drawn.clear}</button>`;
  }

  private plan(open: OpenReport): Planned {
    const { geometry, filter, selection } = this.store.state;
    const flats = this.flats(open, geometry);
    const planned = this.planned(flats, seenPenetrations(open, filter), this.size.width, this.enlarged);
    return this.turned(planned, selection.side === 'B' ? selection.barrier : null);
  }

  private inSight(open: OpenReport): TemplateResult {
    const planned = this.plan(open);
    const [first, end] = inSight(planned, this.from - BEYOND, this.from + this.size.height + BEYOND);
    const items = planned.items.slice(first, end);
    const last = items.at(-1);
    const after = planned.height - (last ? last.top + last.height : 0);
    const barriers = items.flatMap((item) => (item.kind === 'row' ? [item.barrier.barrier] : []));
    const tabStop = tabStopIn(items, this.store.state.selection);
    // The head of the barrier stays over its rows.
    const head = headOf(planned, first);
    const drawn = head ? [head, ...items] : items;
    let bottom = 0;
    // By what they show: scrolled, a mark under the pointer or with the focus goes on standing for the same place.
    const list = repeat(drawn, nameOf, (item) => {
      const blank = spacer(item.top - bottom);
      bottom = item.top + item.height;
      return [blank, this.item(open, item, tabStop)];
    });
    return html`${hatchPatterns(barriers)}${list}${spacer(after)}`;
  }

  private item(open: OpenReport, item: Item, tabStop: string | null): TemplateResult {
    if (item.kind === 'storey') return storeyHead(item.storey);
    const { barrier, plan } = item;
    const side = this.sideOf(barrier);
    if (item.kind === 'barrier')
      return barrierHead({
        ...{ barrier, plan, side, isSelected: this.store.state.selection.barrier === barrier.key },
        turn: () => this.turn(barrier),
        whole: this.enlarged.has(barrier.key)
          ? {
              scale: this.flats(open, this.store.state.geometry).ownScale(barrier, this.size.width),
              show: () => this.show(barrier, null),
            }
          : null,
      });
    const { penetration: selected } = this.store.state.selection;
    const row = placeRow(plan, item.index, side);
    const findings = (selected !== null && open.building.lookup.findings.get(selected)) || [];
    const fresh = this.newOnes(open.report);
    return html`<div class="rows">
      ${drawRow({
        ...{ row, barrier, selected, tabStop },
        label: `${barrier.name}, ${facing(barrier, side)}`,
        dimensions: selected === null ? [] : gapDimensions(plan, item.index, side, row, selected, findings),
        ticks: ({ penetration }) => holdTicks(penetration, open.building),
        newIn: ({ penetration }) => (fresh.has(penetration.id) ? open.report.revision : null),
        choose: (mark) => this.choose(mark, barrier, plan.scale),
      })}${spacer(item.height - row.height - MARGIN)}
    </div>`;
  }

  private sideOf({ key }: BuildingBarrier): Side {
    const { barrier, side } = this.store.state.selection;
    return barrier === key ? side : 'A';
  }

  private choose({ penetration, members }: PlacedMark, barrier: BuildingBarrier, scale: number): void {
    if (members.length === 1) {
      this.store.selectPenetration(penetration.id);
      return;
    }
    const larger = separatingScale(members, scale);
    if (larger < scale) this.show(barrier, larger);
    // In one place: one after the other.
    const ids = members.map((one) => one.penetration.id);
    const at = ids.indexOf(this.store.state.selection.penetration ?? '');
    this.store.selectPenetration(larger < scale ? penetration.id : ids[(at + 1) % ids.length]!);
    this.followed = null;
  }

  private show({ key }: BuildingBarrier, scale: number | null): void {
    const enlarged = new Map(this.enlarged);
    if (scale === null) enlarged.delete(key);
    else enlarged.set(key, scale);
    this.enlarged = enlarged;
    this.followed = null;
  }

  /** Whoever turns a barrier stands before it. */
  private turn({ key, penetrations }: BuildingBarrier): void {
    const open = shownIn(this.store.state)!;
    const seen = seenPenetrations(open, this.store.state.filter);
    if (this.store.state.selection.barrier !== key)
      this.store.selectPenetration(penetrations.find(({ id }) => seen.has(id))!.id);
    this.store.turn();
  }

  private readonly scrolled = (event: Event): void => {
    this.from = (event.currentTarget as HTMLElement).scrollTop;
  };

  override willUpdate(): void {
    const { penetration } = this.store.state.selection;
    const focused = this.shadowRoot?.activeElement?.getAttribute('data-id');
    if (focused && penetration !== null && !focused.split(' ').includes(penetration)) this.focusNext = true;
  }

  override updated(): void {
    const scroll = this.scrollArea;
    if (!scroll) return;
    this.resized.observe(scroll);
    this.follow(scroll);
    if (this.focusNext) this.focusSelected();
  }

  private get scrollArea(): HTMLElement | null {
    return this.renderRoot.querySelector('.scroll');
  }

  private measure(): void {
    const scroll = this.scrollArea;
    if (!scroll) return;
    const [width, height] = [scroll.clientWidth - 2 * MARGIN, scroll.clientHeight];
    if (width !== this.size.width || height !== this.size.height) this.size = { width, height };
  }

  /** What is selected comes into sight, with the head of its barrier where both fit. */
  private follow(scroll: HTMLElement): void {
    const { barrier, penetration, side } = this.store.state.selection;
    const open = shownIn(this.store.state);
    if (!open || barrier === null || this.size.width === 0) return;
    const plan = this.plan(open);
    const wished = `${barrier} ${penetration} ${side}`;
    if (this.followed?.wished === wished && this.followed.plan === plan) return;
    this.followed = { wished, plan };
    const top = scrollFor(plan, barrier, penetration, side, scroll.scrollTop, this.size.height);
    if (top !== null) scroll.scrollTop = top;
  }

  /** Focus goes with the selection where it was on a penetration. */
  private focusSelected(): void {
    const { penetration } = this.store.state.selection;
    const place = [...this.renderRoot.querySelectorAll<SVGGElement>('[data-id]')].find((one) =>
      one.dataset.id!.split(' ').includes(penetration ?? ''),
    );
    // Not yet drawn, and nobody has gone elsewhere meanwhile.
    const elsewhere = (this.getRootNode() as Document | ShadowRoot).activeElement;
    if (!place && (elsewhere === null || elsewhere === this)) return;
    this.focusNext = false;
    place?.focus({ preventScroll: true });
  }
}
customElements.define('rr-barrier-faces', BarrierFaces);

/** Stands for what is not drawn; no style attribute is allowed in the page. */
const spacer = (height: number): TemplateResult | typeof nothing =>
  height > 0 ? html`<svg class="spacer" aria-hidden="true" width="1" height=${height}></svg>` : nothing;

const nameOf = (item: Item): string =>
  item.kind === 'storey'
    ? `storey ${item.storey.key}`
    : `${item.kind} ${item.barrier.key} ${item.kind === 'row' ? item.index : ''}`;
