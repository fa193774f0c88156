/** `<ratedrun-viewer>`: the whole viewer as one element that any page may hold. See `host-api.ts` for what a page goes by. */
import { html, LitElement, nothing, type PropertyValues, type TemplateResult } from 'lit';
import type { Report } from '../src/report/schema.js';
import { bindKeys } from './bind-keys.js';
import type { SelectedPlace } from './host-api.js';
import { DropTarget } from './parts/drop-target.js';
import './regions/barrier-faces.js';
import './regions/building-section.js';
import './regions/finding-sheet.js';
import './regions/findings-table.js';
import './regions/model-region.js';
import './regions/opening-page.js';
import './regions/status-line.js';
import './regions/trial-bar.js';
import './regions/unsaved-bar.js';
import { rowNamed, selectedPlace } from './state/selected.js';
import { type Filter, NOTHING_SELECTED, shownIn, type ViewerState } from './state/state.js';
import { Store, Watching } from './state/store.js';
import { addFonts } from './style/fonts.js';
import { layout } from './style/layout.js';
import { base, tokens } from './style/tokens.js';
import { WORDS } from './words.js';
import { ViewerActions } from './work/actions.js';
import { WorkClient } from './work/client.js';

/** px; narrower than this, model and sheet take turns: a tablet held upright, or a page that leaves little room. */
const NARROW = 1000;
type Turn = 'model' | 'sheet';

export class RatedrunViewer extends LitElement {
  static override styles = [tokens, base, layout];
  static override properties = {
    src: { type: String },
    saveTo: { type: String, attribute: 'save-to' },
    theme: { type: String, reflect: true },
    narrow: { state: true },
    turn: { state: true },
  };
  declare src: string | null;
  declare saveTo: string | null;
  declare theme: 'light' | 'dark';
  declare narrow: boolean;
  declare turn: Turn;
  readonly store = new Store();
  private readonly work = new WorkClient();
  readonly actions = new ViewerActions({ store: this.store, work: this.work });
  private readonly drop = new DropTarget(this, (files) => void this.actions.open(files));
  private readonly until: (() => void)[] = [];

  constructor() {
    super();
    this.src = null;
    this.saveTo = null;
    this.narrow = false;
    this.turn = 'sheet';
    new Watching(this, ({ phase, faces }) => [phase, faces]);
    this.store.listen((state, before) => this.tellHost(state, before));
    bindKeys(this);
  }

  // --------------------------------------------------------------------------------------------- for pages, see host-api.ts

  get report(): Report | null {
    return shownIn(this.store.state)?.report ?? null;
  }

  get selected(): SelectedPlace | null {
    return selectedPlace(shownIn(this.store.state), this.store.state.selection);
  }

  get filter(): Filter {
    return this.store.state.filter;
  }

  set filter(part: Partial<Filter>) {
    this.store.filter(part);
  }

  select(name: string | null): boolean {
    if (name === null) {
      this.store.select(NOTHING_SELECTED);
      return true;
    }
    const open = shownIn(this.store.state);
    const row = open ? rowNamed(open, name) : undefined;
    if (row !== undefined) this.store.selectRow(row);
    return row !== undefined;
  }

  selectElement(globalId: string): boolean {
    const p = this.report?.penetrations.find(
      ({ elements, barrier }) => barrier.globalId === globalId || elements.some((one) => one.globalId === globalId),
    );
    return p !== undefined && this.select(p.key);
  }

  openFiles(files: readonly File[]): Promise<void> {
    return this.actions.open(files);
  }

  // ------------------------------------------------------------------------------------------------------------ as an element

  override connectedCallback(): void {
    super.connectedCallback();
    addFonts();
    const sizes = new ResizeObserver(() => {
      this.narrow = this.clientWidth > 0 && this.clientWidth < NARROW;
    });
    sizes.observe(this);
    this.until.push(() => sizes.disconnect());
    if (this.hasAttribute('theme')) return;
    this.follow(matchMedia('(prefers-color-scheme: dark)'), (isDark) => {
      this.theme = isDark ? 'dark' : 'light';
    });
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    for (const stop of this.until.splice(0)) stop();
    this.work.stop();
  }

  override updated(changed: PropertyValues): void {
    if (changed.has('src') && this.src)
      void this.actions.openFolder(
        new URL(this.src.replace(/\/?$/, '/'), document.baseURI),
        this.saveTo === null ? null : new URL(this.saveTo, document.baseURI),
      );
  }

  override render(): TemplateResult {
    const { phase, faces } = this.store.state;
    if (phase.kind !== 'ready')
      return html`<rr-opening-page .store=${this.store} .actions=${this.actions}></rr-opening-page>${this.held()}`;
    const { store, narrow, turn } = this;
    const shows = (one: Turn): boolean => !narrow || turn === one;
    return html`<main class="regions" data-faces=${faces} ?data-narrow=${narrow}>
      <div class="notices">
        <rr-trial-bar .store=${store} .actions=${this.actions}></rr-trial-bar>
        <rr-unsaved-bar .store=${store} .actions=${this.actions}></rr-unsaved-bar>
      </div>
      <rr-building-section class="section" role="region" aria-label=${WORDS.regions.section} ?row=${narrow} .store=${store}>
      </rr-building-section>
      ${
        faces === 'table'
          ? html`<rr-findings-table class="faces" role="region" aria-label=${WORDS.regions.table} .store=${store}
              ?inset=${!narrow}>
            </rr-findings-table>`
          : html`<rr-barrier-faces class="faces" role="region" aria-label=${WORDS.regions.faces} .store=${store}>
            </rr-barrier-faces>`
      }
      ${narrow && faces === 'drawings' ? this.turns() : nothing}
      ${
        (faces === 'table' ? !narrow : shows('model'))
          ? html`<rr-model class="model" role="region" aria-label=${WORDS.regions.model} .store=${store}
              ?inset=${faces === 'table'}></rr-model>`
          : nothing
      }
      ${
        faces === 'drawings' && shows('sheet')
          ? html`<rr-finding-sheet class="sheet" role="region" aria-label=${WORDS.regions.sheet} .store=${store}
              .actions=${this.actions}>
            </rr-finding-sheet>`
          : nothing
      }
      <rr-status-line class="status" role="region" aria-label=${WORDS.regions.status} .store=${store}></rr-status-line>
    </main>${this.held()}`;
  }

  /** While files are held over the page: what letting go would do. */
  private held(): TemplateResult | typeof nothing {
    if (!this.drop.isOver) return nothing;
    const { reviewed, unsaved } = this.store.state;
    const { letGo, letGoOpen, unsaved: lost } = WORDS.opening;
    const isLost = unsaved.concessions.length + unsaved.comments.length > 0;
    return html`<p class="held" role="status">${reviewed ? letGoOpen : letGo} ${isLost ? lost : ''}</p>`;
  }

  private turns(): TemplateResult {
    const button = (one: Turn): TemplateResult => html`<button
      type="button"
      aria-pressed=${this.turn === one}
      @click=${() => {
        this.turn = one;
      }}
    >
      ${WORDS.turns[one]}
    </button>`;
    return html`<div class="turns">${button('sheet')} ${button('model')}</div>`;
  }

  private follow(query: MediaQueryList, act: (matches: boolean) => void): void {
    const hear = (): void => act(query.matches);
    query.addEventListener('change', hear);
    this.until.push(() => query.removeEventListener('change', hear));
    hear();
  }

  private tellHost(state: ViewerState, before: ViewerState): void {
    const tell = (name: string, detail: unknown): void => void this.dispatchEvent(new CustomEvent(name, { detail }));
    if (state.reviewed && state.reviewed !== before.reviewed) tell('ratedrun-open', { report: state.reviewed.report });
    if (state.selection !== before.selection) tell('ratedrun-select', this.selected);
    if (state.filter !== before.filter) tell('ratedrun-filter', state.filter);
    if (state.phase.kind === 'failed' && state.phase !== before.phase)
      tell('ratedrun-fault', { message: state.phase.message });
  }
}
customElements.define('ratedrun-viewer', RatedrunViewer);
