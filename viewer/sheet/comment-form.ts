/** `<rr-comment-form>`: what somebody says of a finding. Fires `done` with text and author, `cancel` without. */
import { html, LitElement, type TemplateResult } from 'lit';
import { base } from '../style/tokens.js';
import { WORDS } from '../words.js';
import { field, focusFault, formStyles, typedIn } from './form-parts.js';

const { comment: words, sheet } = WORDS;

export interface TypedComment {
  readonly text: string;
  readonly author: string;
}

/** As long as the page is open: whoever comments goes on to comment. */
let lastAuthor = '';

export class CommentForm extends LitElement {
  static override styles = [base, formStyles];
  static override properties = { message: { type: String }, faults: { state: true } };
  /** Sentence of the finding. */
  declare message: string;
  declare private faults: Partial<TypedComment>;

  constructor() {
    super();
    this.message = '';
    this.faults = {};
  }

  override render(): TemplateResult {
    return html`<form novalidate @submit=${this.submit}>
      <h2 id="title">${sheet.actions.comment}</h2>
      <p class="rests">${this.message}</p>
      ${field({ name: 'text', label: words.text, type: 'lines', fault: this.faults.text, hint: words.about })}
      ${field({ name: 'author', label: words.author, value: lastAuthor, autocomplete: 'name', fault: this.faults.author })}
      <div class="ends">
        <button type="button" @click=${() => this.dispatchEvent(new Event('cancel'))}>${sheet.cancel}</button>
        <button class="main">${words.submit}</button>
      </div>
    </form>`;
  }

  private async submit(event: SubmitEvent): Promise<void> {
    event.preventDefault();
    const typed = typedIn(event.target as HTMLFormElement);
    const detail: TypedComment = { text: typed('text').trim(), author: typed('author').trim() };
    this.faults = {
      ...(detail.text === '' ? { text: words.faults.text } : {}),
      ...(detail.author === '' ? { author: words.faults.author } : {}),
    };
    if (Object.keys(this.faults).length > 0) {
      await this.updateComplete;
      focusFault(this.renderRoot);
      return;
    }
    lastAuthor = detail.author;
    this.dispatchEvent(new CustomEvent('done', { detail }));
  }
}
customElements.define('rr-comment-form', CommentForm);
