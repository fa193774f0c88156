/** The building in three dimensions, as one stands before the penetration. */
import { html, LitElement, nothing, render, type TemplateResult } from 'lit';
import { keyed } from 'lit/directives/keyed.js';
import { createRef, ref } from 'lit/directives/ref.js';
import type { Vec2 } from '../../src/model.js';
import { factsOf } from '../model/facts.js';
import { factsPanel } from '../model/facts-panel.js';
import { Measuring } from '../model/measuring.js';
import { overlay } from '../model/overlay.js';
import { selectionAt } from '../model/picking.js';
import { Picture } from '../model/picture.js';
import { proposalArrows } from '../model/proposal.js';
import { regionStyle } from '../model/region-style.js';
import { hereList, modelTools, viewWords } from '../model/region-tools.js';
import { drawing, drawingStyles } from '../parts/drawing.js';
import { shownIn } from '../state/state.js';
import { type Store, Watching } from '../state/store.js';
import { base } from '../style/tokens.js';
import { WORDS } from '../words.js';

export class ModelRegion extends LitElement {
  static override styles = [base, drawingStyles, regionStyle];
  static override properties = { store: { attribute: false }, isHereOpen: { state: true } };
  declare store: Store;
  declare isHereOpen: boolean;
  private picture: Picture | undefined;
  private readonly measuring = new Measuring();
  private readonly canvas = createRef<HTMLCanvasElement>();
  private readonly drawing = createRef<SVGSVGElement>();
  /** A canvas whose context is gone can not be drawn on again: each stay on the page has its own. */
  private stay = 0;

  constructor() {
    super();
    this.isHereOpen = false;
    new Watching(this, (s) => [
      ...[s.selection, s.view, s.geometry, s.proposed, s.protection, s.onlyStorey, s.filter.storeys],
      ...[shownIn(s)],
    ]);
  }

  /** How often the canvas was drawn: it does not grow while nothing changes. */
  get framesDrawn(): number {
    return this.picture?.view?.framesDrawn ?? 0;
  }

  /** Of the last frame. */
  get drawCalls(): number {
    return this.picture?.view?.drawCalls ?? 0;
  }

  /** ms that making the meshes took; null: not yet made. */
  get builtIn(): number | null {
    return this.picture?.builtIn ?? null;
  }

  /** Where one stands; without what is being measured. */
  get cameraWords(): string {
    return this.picture?.viewpoint?.caption ?? '';
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.leave();
  }

  override render(): TemplateResult {
    const { geometry } = this.store.state;
    const { picture } = this;
    const problem = geometry ? (picture?.problem ?? null) : 'none';
    const measured = this.measuring.isOn ? this.measuring.words(picture?.viewpoint?.place) : null;
    const isReady = picture !== undefined && picture.builtIn !== null;
    const caption = measured ?? (isReady ? this.cameraWords : WORDS.model.preparing);
    return html`${problem ? this.instead(WORDS.model[problem]) : [viewWords(this.store), html`<p class="caption" role="status">${caption}</p>`]}
      <div class="picture" ?hidden=${problem !== null} @keydown=${this.escape}>
        ${keyed(
          this.stay,
          html`<canvas
            ${ref(this.canvas)}
            class=${this.measuring.isOn ? 'measuring' : ''}
            tabindex="0"
            role="application"
            aria-label=${WORDS.model.canvas}
            aria-description=${WORDS.model.canvasKeys}
          ></canvas>`,
        )}
        <svg ${ref(this.drawing)} aria-hidden="true"></svg>
        ${this.facts()} ${this.isHereOpen && picture ? hereList(this.store, picture) : nothing}
      </div>
      ${problem || !picture ? nothing : this.tools(picture)}`;
  }

  override updated(): void {
    const canvas = this.canvas.value;
    if (!this.picture && canvas && this.isConnected && this.store.state.geometry) {
      this.picture = new Picture(canvas, {
        state: () => this.store.state,
        changed: () => this.requestUpdate(),
        restored: () => this.leave(),
        afterFrame: () => this.write(),
        clicked: (at) => this.clicked(at),
        hovered: (at) => this.hovered(at),
      });
      void this.picture.start();
    } else this.picture?.update();
  }

  private leave(): void {
    this.picture?.stop();
    this.picture = undefined;
    this.stay++;
    this.requestUpdate();
  }

  private tools(picture: Picture): TemplateResult {
    return modelTools({
      ...{ store: this.store, picture, measuring: this.measuring, isHereOpen: this.isHereOpen },
      toggleHere: () => {
        this.isHereOpen = !this.isHereOpen;
      },
      measured: () => this.measured(),
    });
  }

  /** The drawing of the penetration with a sentence that says why it stands here. */
  private instead(why: string): TemplateResult {
    const open = shownIn(this.store.state);
    const p = open?.building.lookup.penetrations.get(this.store.state.selection.penetration ?? '');
    return html`<div class="said" tabindex="0" role="region" aria-label=${WORDS.regions.model}>
      <p>${why}</p>
      ${open && p ? drawing(open, p, 'elevation', 'flat') : html`<p>${WORDS.model.nothingSelected}</p>`}
    </div>`;
  }

  private facts(): TemplateResult | typeof nothing {
    const { state } = this.store;
    const { elements } = this.picture ?? {};
    const [open, picked] = [shownIn(state), state.selection.element];
    const id = picked && elements?.find(picked);
    if (!open || !elements || id === null || id === undefined || !state.geometry) return nothing;
    return factsPanel(factsOf(id, elements, open, state.geometry.protection), {
      close: () => this.store.select({ ...state.selection, element: null }),
      selectPenetration: (one) => this.store.selectPenetration(one),
      selectFinding: (one) => this.store.selectRow(one),
    });
  }

  /** What is written over the canvas follows every frame. */
  private write(): void {
    const { picture, measuring } = this;
    const view = picture?.view;
    if (!picture || !view || !this.drawing.value) return;
    const { viewpoint, change } = picture;
    const { place, penetration, side } = viewpoint ?? {};
    const arrows =
      this.store.state.proposed && change?.change && place && penetration && side
        ? proposalArrows(change.change, penetration, place, side)
        : [];
    render(
      overlay([...arrows, ...measuring.dimensions], measuring.points, (p) => view.project(p)),
      this.drawing.value as unknown as HTMLElement,
    );
  }

  private clicked(at: Vec2): void {
    const { picture } = this;
    const { state } = this.store;
    const open = shownIn(state);
    if (!picture?.elements || !state.geometry) return;
    if (this.measuring.isOn) {
      this.measuring.choose(picture.measureAt(at));
      this.measured();
      return;
    }
    const hit = picture.pickAt(at);
    if (!hit || !open) this.store.select({ ...state.selection, element: null });
    else this.store.select(selectionAt(hit, picture.elements, open, state.geometry.origin, state.selection));
  }

  private hovered(at: Vec2): void {
    if (!this.measuring.isOn) return;
    this.measuring.hovered = this.picture?.measureAt(at);
    this.write();
  }

  private measured(): void {
    this.requestUpdate();
    this.write();
  }

  private escape(event: KeyboardEvent): void {
    if (event.key === 'Enter' && event.target === this.canvas.value) {
      const [width, height] = this.picture?.view?.pixels ?? [0, 0];
      this.clicked([width / 2, height / 2]);
      event.stopPropagation();
    }
    if (event.key !== 'Escape' || !this.measuring.isOn) return;
    this.measuring.end();
    this.measured();
    event.stopPropagation();
  }
}
customElements.define('rr-model', ModelRegion);
