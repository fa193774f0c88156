/** `<ratedrun-viewer>`: the whole viewer as one element that any page may hold. */
import { html, LitElement, nothing, type PropertyValues, type TemplateResult } from 'lit';
import './regions/barrier-faces.js';
import './regions/building-section.js';
import './regions/finding-sheet.js';
import './regions/findings-table.js';
import './regions/model-region.js';
import './regions/status-line.js';
import { readGeometry } from './model/geometry.js';
import { openReport } from './state/open-report.js';
import { Store, Watching } from './state/store.js';
import { layout } from './style/layout.js';
import { base, tokens } from './style/tokens.js';
import { WORDS } from './words.js';
import { WorkClient } from './work/client.js';

export class RatedrunViewer extends LitElement {
  static override styles = [tokens, base, layout];
  static override properties = { src: { type: String }, theme: { type: String, reflect: true } };
  /** Folder of a report, as a URL: report.json, geometry.glb and facts.json are fetched from it. */
  declare src: string | null;
  declare theme: 'light' | 'dark';
  readonly store = new Store();
  private readonly work = new WorkClient();

  constructor() {
    super();
    this.src = null;
    this.theme = matchMedia('(prefers-color-scheme: dark)').matches ? 'dark' : 'light';
    new Watching(this, ({ phase, faces }) => [phase, faces]);
  }

  override updated(changed: PropertyValues): void {
    if (changed.has('src') && this.src) void this.openFolder(this.src);
  }

  override render(): TemplateResult {
    const { phase, faces } = this.store.state;
    if (phase.kind === 'empty') return html`<main class="blank"><p>${WORDS.page.empty}</p></main>`;
    if (phase.kind === 'failed') return html`<main class="blank" role="alert"><p>${phase.message}</p></main>`;
    if (phase.kind === 'loading') return html`<main class="blank" role="status"><p>${phase.stage}</p></main>`;
    const { store } = this;
    return html`<div class="regions" data-faces=${faces}>
      <rr-building-section class="section" .store=${store}></rr-building-section>
      ${
        faces === 'table'
          ? html`<rr-findings-table class="faces" .store=${store}></rr-findings-table>`
          : html`<rr-barrier-faces class="faces" .store=${store}></rr-barrier-faces>`
      }
      <rr-model class="model" .store=${store}></rr-model>
      ${faces === 'table' ? nothing : html`<rr-finding-sheet class="sheet" .store=${store}></rr-finding-sheet>`}
      <rr-status-line class="status" .store=${store}></rr-status-line>
    </div>`;
  }

  private async openFolder(folder: string): Promise<void> {
    const at = (file: string): URL => new URL(file, new URL(folder.replace(/\/?$/, '/'), document.baseURI));
    this.store.change({ phase: { kind: 'loading', stage: 'Opening the report', share: 0 } });
    try {
      const [report, facts, geometry] = await Promise.all([
        fetched(at('report.json')),
        fetched(at('facts.json')),
        fetched(at('geometry.glb')),
      ]);
      if (!report) throw new Error(`${at('report.json').pathname} is not there; check the models first.`);
      const [reportText, factsText] = [await report.text(), facts ? await facts.text() : null];
      const opened = await this.work.ask('open', { reportText, factsText });
      this.store.change({
        phase: { kind: 'ready' },
        reviewed: openReport(opened.report),
        canTry: opened.canTry,
        geometry: geometry ? readGeometry(await geometry.arrayBuffer()) : null,
      });
      const [worst] = opened.report.findings;
      if (worst) this.store.selectRow(worst.id);
    } catch (error) {
      this.store.change({ phase: { kind: 'failed', message: error instanceof Error ? error.message : String(error) } });
    }
  }
}
customElements.define('ratedrun-viewer', RatedrunViewer);

/** Undefined: it is not there. */
async function fetched(url: URL): Promise<Response | undefined> {
  const response = await fetch(url);
  if (response.status === 404) return undefined;
  if (!response.ok) throw new Error(`${url.pathname} can not be read (${response.status}).`);
  return response;
}
