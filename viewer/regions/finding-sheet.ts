/** What was found at one place, as a ruled drawing sheet: drawings and numbered notes over a title block and what to do. */
import { html, LitElement, nothing, type PropertyValues, type TemplateResult } from 'lit';
import '../sheet/comment-form.js';
import '../sheet/concession-form.js';
import '../sheet/try-form.js';
import type { Assumption } from '../../src/index.js';
import type { ReportPenetration } from '../../src/report/schema.js';
import { type DrawingKind, drawing, drawingStyles } from '../parts/drawing.js';
import type { TypedComment } from '../sheet/comment-form.js';
import { whyNoConcession } from '../sheet/concession.js';
import { type SheetContent, sheetContent } from '../sheet/content.js';
import { dialogStyles } from '../sheet/dialog-styles.js';
import {
  cautions,
  commentList,
  findingList,
  head,
  isConceded,
  placeList,
  stamps,
  unsavedList,
  unsavedOf,
} from '../sheet/here.js';
import { furtherNotes, measuredNotes } from '../sheet/notes.js';
import { printStyles } from '../sheet/print-styles.js';
import { sheetStyles } from '../sheet/styles.js';
import { titleBlock } from '../sheet/title-block.js';
import type { Actions } from '../state/actions.js';
import { type NewConcession, type OpenReport, shownIn } from '../state/state.js';
import { type Store, Watching } from '../state/store.js';
import { base } from '../style/tokens.js';
import { WORDS } from '../words.js';

const { sheet: words } = WORDS;
const KINDS: readonly DrawingKind[] = ['elevation', 'section'];
type Form = 'try' | 'concede' | 'comment';
/** Over the page, until it is closed. */
type Opened = Form | 'drawings';

export class FindingSheet extends LitElement {
  static override styles = [base, drawingStyles, sheetStyles, dialogStyles, printStyles];
  static override properties = {
    store: { attribute: false },
    actions: { attribute: false },
    opened: { state: true },
    why: { state: true },
  };
  declare store: Store;
  declare actions: Actions;
  declare private opened: Opened | null;
  /** What came of the last saving. */
  /** Why what was asked for can't be done here. */
  declare private why: string;
  private place = '';

  constructor() {
    super();
    this.opened = null;
    this.why = '';
    new Watching(this, (state) => [shownIn(state), state.selection, state.unsaved, state.choosable]);
  }

  /** To the heading, from which the notes are read on. */
  focusSheet(): void {
    this.renderRoot.querySelector<HTMLElement>('#heading')?.focus();
  }

  override focus(): void {
    this.focusSheet();
  }

  override updated(changed: PropertyValues): void {
    const { penetration, finding } = this.store.state.selection;
    const place = `${penetration} ${finding}`;
    if (place !== this.place) {
      this.renderRoot.querySelector('.paper')?.scrollTo({ top: 0 });
      this.why = '';
    }
    this.place = place;
    if (changed.has('opened') && this.opened) this.renderRoot.querySelector('dialog')?.showModal();
  }

  override render(): TemplateResult {
    const open = shownIn(this.store.state);
    const content = open && sheetContent(open, this.store.state.selection);
    if (!open || !content) return html`<p class="paper" id="heading" tabindex="-1">${words.nothing}</p>`;
    const { title, finding, penetration } = content;
    return html`<article class="sheet" aria-label=${words.of(title.reference)}>
        <div class="printed">${stamps(open, this.isTrial)}</div>
        <div class="paper" tabindex="0" role="group" aria-label=${WORDS.regions.sheet}>${this.paper(open, content)}</div>
        <div class="foot">${titleBlock(title, penetration === null && finding !== null && isConceded(finding))}</div>
        ${this.footer(content)}
      </article>
      ${this.opened ? this.dialog(open, content, this.opened) : nothing}`;
  }

  private get isTrial(): boolean {
    return this.store.state.trial?.open !== undefined;
  }

  private paper(open: OpenReport, content: SheetContent): TemplateResult {
    const { finding, findings, others, penetration, places } = content;
    const { unsaved } = this.store.state;
    const { isTrial } = this;
    const rest = findings.filter((one) => one !== finding);
    return html`
      ${head(open, finding, penetration)}
      <div class="first ${penetration ? '' : 'without'}">
        ${penetration ? KINDS.map((kind) => this.plate(open, penetration, kind)) : nothing}
        ${finding ? measuredNotes(open, finding) : nothing}
      </div>
      ${furtherNotes(open, finding, penetration, isTrial)}
      ${findingList(words.others(rest.length), rest, this.chooseFinding)}
      ${placeList(places, (id) => this.store.selectPenetration(id))}
      ${finding ? commentList(finding) : nothing}
      ${unsavedList(unsavedOf(unsaved, finding))}
      ${others.length === 0 ? nothing : html`<details class="block"><summary>${words.unlisted}</summary>${findingList('', others, this.chooseFinding)}</details>`}
      ${cautions(open, isTrial)}
    `;
  }

  private readonly chooseFinding = (id: string): void => {
    const { selection } = this.store.state;
    this.store.select({ ...selection, finding: id });
  };

  private readonly open = (what: Opened) => (): void => {
    this.opened = what;
  };

  /** Small: a sheet at a glance. Opened, both are as large as they can be read. */
  private plate(open: OpenReport, p: ReportPenetration, kind: DrawingKind): TemplateResult {
    return html`<button class="plate" aria-haspopup="dialog" @click=${this.open('drawings')}>
      <span class="name">${words[kind]}<span class="hint">: ${words.enlarge}</span></span>${drawing(open, p, kind)}
    </button>`;
  }

  /** What can't be done here keeps its place among the keys, and says why when it is asked for. */
  private footer({ finding }: SheetContent): TemplateResult {
    const { choosable, unsaved } = this.store.state;
    const action = (name: keyof typeof words.actions, act: () => void, why: string | null = null): TemplateResult =>
      html`<button
        aria-disabled=${why === null ? nothing : 'true'}
        @click=${() => {
          this.why = why ?? '';
          if (why === null) act();
        }}
      >
        ${words.actions[name]}
      </button>`;
    return html`<nav class="actions" aria-label=${words.toDo}>
      ${action('try', this.open('try'), choosable ? null : choosable === null ? words.cannotTry : words.cannotTryYet)}
      ${action('concede', this.open('concede'), whyNoConcession(finding, unsaved, this.isTrial))}
      ${action('comment', this.open('comment'), finding ? null : words.cannotComment)}
      ${action('print', () => window.print())}
      <span role="status">${this.why}</span>
    </nav>`;
  }

  /** Keys within it are its own; the browser closes it by Esc and gives the focus back. */
  private dialog(open: OpenReport, content: SheetContent, opened: Opened): TemplateResult {
    return html`<dialog
      class=${opened === 'drawings' ? 'drawings' : ''}
      aria-label=${opened === 'drawings' ? words.drawings(content.title.reference) : words.actions[opened]}
      @keydown=${(event: KeyboardEvent) => event.stopPropagation()}
      @close=${() => {
        this.opened = null;
      }}
    >
      ${opened === 'drawings' ? this.drawings(open, content) : this.formOf(open, content, opened)}
    </dialog>`;
  }

  private readonly close = (): void => this.renderRoot.querySelector('dialog')?.close();

  /** What was written is seen, and read on from there. */
  private async written(): Promise<void> {
    this.close();
    await this.updateComplete;
    this.renderRoot.querySelector('.unsaved')?.scrollIntoView({ block: 'nearest' });
    this.focusSheet();
  }

  private drawings(open: OpenReport, { penetration, title }: SheetContent): TemplateResult | typeof nothing {
    if (!penetration) return nothing;
    return html`<h2>${words.drawings(title.reference)}</h2>
      <div class="pair">
        ${KINDS.map((kind) => html`<figure><figcaption>${words[kind]}</figcaption>${drawing(open, penetration, kind, 'large')}</figure>`)}
      </div>
      <p class="ends"><button @click=${this.close}>${words.close}</button></p>`;
  }

  private formOf(
    open: OpenReport,
    { finding, penetration }: SheetContent,
    form: Form,
  ): TemplateResult | typeof nothing {
    const { choosable, trial } = this.store.state;
    if (form === 'try')
      return html`<rr-try-form
        .choosable=${choosable}
        .penetration=${penetration}
        .penetrations=${open.report.penetrations}
        .tried=${trial?.assumptions ?? []}
        .run=${this.tryChoices}
        @done=${this.close}
        @cancel=${this.close}
      ></rr-try-form>`;
    if (!finding) return nothing;
    if (form === 'concede')
      return html`<rr-concession-form
        .finding=${finding}
        .unit=${open.building.lookup.checks.get(finding.check)?.unit ?? null}
        @done=${({ detail }: CustomEvent<NewConcession>) => {
          this.actions.addConcession(detail);
          void this.written();
        }}
        @cancel=${this.close}
      ></rr-concession-form>`;
    return html`<rr-comment-form
      .message=${finding.message}
      @done=${({ detail }: CustomEvent<TypedComment>) => {
        this.actions.addComment({ finding: finding.key, ...detail });
        void this.written();
      }}
      @cancel=${this.close}
    ></rr-comment-form>`;
  }

  /** @throws Error that says in one line why nothing came of it */
  private readonly tryChoices = async (assumptions: readonly Assumption[]): Promise<void> => {
    await this.actions.tryChoices(assumptions);
    const { trial, said } = this.store.state;
    if (trial?.assumptions !== assumptions) throw new Error(said);
  };
}
customElements.define('rr-finding-sheet', FindingSheet);
