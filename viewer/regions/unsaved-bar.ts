/** What is not saved in any file yet, and the last thing that was done. */
import { css, html, LitElement, nothing, type TemplateResult } from 'lit';
import type { Actions } from '../state/actions.js';
import { isSaid } from '../state/actions.js';
import type { NewComment, NewConcession, Unsaved } from '../state/state.js';
import { type Store, Watching } from '../state/store.js';
import { base } from '../style/tokens.js';
import { WORDS } from '../words.js';

const { unsaved: words } = WORDS;

export class UnsavedBar extends LitElement {
  static override styles = [
    base,
    css`
      :host {
        display: block;
      }
      section,
      .said {
        display: flex;
        flex-wrap: wrap;
        gap: 0 16px;
        align-items: baseline;
        margin: 0;
        padding: 4px 12px;
        background: var(--raised);
        border-bottom: 1px solid var(--rule);
      }
      .said:empty {
        display: none;
      }
      details {
        flex: 1;
        min-width: 0;
      }
      ul {
        margin: 4px 0;
        padding-left: 24px;
        max-height: 160px;
        overflow: auto;
      }
      li {
        overflow-wrap: anywhere;
      }
    `,
  ];
  static override properties = { store: { attribute: false }, actions: { attribute: false } };
  declare store: Store;
  declare actions: Actions;

  constructor() {
    super();
    new Watching(this, ({ unsaved, said, reviewed, savesTo }) => [unsaved, said, reviewed, savesTo]);
  }

  override render(): TemplateResult {
    const { unsaved, said, savesTo } = this.store.state;
    const { concessions, comments } = unsaved;
    return html`${
      concessions.length + comments.length === 0
        ? nothing
        : html`<section aria-label=${words.heading}>
            <details>
              <summary>${words.heading}: ${words.entries(concessions.length, comments.length)}</summary>
              <ul>
                ${this.entries(unsaved)}
              </ul>
            </details>
            <button type="button" @click=${() => this.actions.saveBrief().catch(isSaid)}>
              ${savesTo === null ? words.save : words.saveTo(savesTo)}
            </button>
            <button type="button" @click=${() => this.actions.saveTopics().catch(isSaid)}>${words.send}</button>
          </section>`
    }<p class="said" role="status" aria-live="polite">${said}</p>`;
  }

  private entries({ concessions, comments }: Unsaved): TemplateResult[] {
    const findings = this.store.state.reviewed?.report.findings ?? [];
    const message = (key: string): string => findings.find((one) => one.key === key)?.message ?? key;
    const line = (text: string, entry: NewConcession | NewComment): TemplateResult => html`<li>
      ${text} <button type="button" @click=${() => this.actions.takeBack(entry)}>${words.takeBack}</button>
    </li>`;
    return [
      ...concessions.map((one) => line(words.concession(message(one.key), one.grantedBy, one.reason), one)),
      ...comments.map((one) => line(words.comment(message(one.finding), one.author, one.text), one)),
    ];
  }
}
customElements.define('rr-unsaved-bar', UnsavedBar);
