/** What a person can do beside looking: asks the worker, changes the state, gives files out. */
import type { Assumption } from '../../src/index.js';
import { type Geometry, GeometryError, readGeometry } from '../model/geometry.js';
import type { Actions } from '../state/actions.js';
import { openReport } from '../state/open-report.js';
import type { NewComment, NewConcession, OpenReport, Progress, Selection, Unsaved } from '../state/state.js';
import { NO_FILTER, NOTHING_SELECTED } from '../state/state.js';
import type { Store } from '../state/store.js';
import { WORDS } from '../words.js';
import { Stopped, type WorkClient, WorkFault } from './client.js';
import { type Dropped, droppedIs } from './dropped.js';
import { download, fetched, type Saved, saveText } from './files.js';
import type { Answers, Asks, DroppedFile, RequestName, ReviewFiles } from './protocol.js';

export interface ActionsOptions {
  readonly store: Store;
  readonly work: WorkClient;
}

/** What the worker has open, kept so that another one can open it after a stop. */
interface Opened {
  readonly files: ReviewFiles;
  /** geometry.glb; null: there is none. */
  readonly geometry: ArrayBuffer | null;
  /** The BCF file that came back last. */
  readonly sentBack: DroppedFile | null;
  /** Where its server takes the changed brief; null: it is downloaded. */
  readonly saveTo: URL | null;
}

export class ViewerActions implements Actions {
  private opened: Opened | null = null;
  private isOpenInWorker = false;
  /** Counts what was asked: only the answer to the latest is shown. */
  private asked = 0;

  constructor(private readonly options: ActionsOptions) {
    // Only while something would be lost: a page that listens for it is never kept for going back.
    options.store.listen(({ unsaved }, before) => {
      if (unsaved === before.unsaved) return;
      if (isEmpty(unsaved)) removeEventListener('beforeunload', askBeforeLeaving);
      else addEventListener('beforeunload', askBeforeLeaving);
    });
  }

  async open(files: readonly File[]): Promise<void> {
    const dropped = droppedIs(files, this.state.reviewed !== null);
    if (dropped.kind === 'refused') this.fail(dropped.why);
    else if (dropped.kind === 'check') await this.check(dropped);
    else if (dropped.kind === 'topics') await this.readTopics(dropped.file);
    else
      await this.openBytes(null, async () => ({
        report: await bytesOf(dropped.report),
        facts: dropped.facts && (await bytesOf(dropped.facts)),
        geometry: dropped.geometry && (await dropped.geometry.arrayBuffer()),
      }));
  }

  /**
   * Opens what a server has of a review.
   *
   * @param folder with report.json, and facts.json and geometry.glb where they are; a slash at the end
   * @param saveTo where the server takes a brief that was changed; null: it is downloaded
   */
  openFolder(folder: URL, saveTo: URL | null = null): Promise<void> {
    return this.openBytes(saveTo, async () => {
      const [report, facts, geometry] = await Promise.all(
        ['report.json', 'facts.json', 'geometry.glb'].map((file) => fetched(new URL(file, folder))),
      );
      if (!report) throw new WorkFault(WORDS.opening.noReport(new URL('report.json', folder).pathname));
      return {
        report: new Uint8Array(report),
        facts: facts ? new Uint8Array(facts) : null,
        geometry: geometry ?? null,
      };
    });
  }

  stop(): void {
    this.asked += 1;
    this.options.work.stop();
    this.isOpenInWorker = false;
    const { reviewed, trial } = this.state;
    this.store.change({
      phase: { kind: reviewed ? 'ready' : 'empty' },
      // A trial that was still being judged came to nothing.
      trial: trial?.open ? trial : null,
      said: WORDS.opening.stopped(reviewed !== null),
    });
  }

  backToReview(): void {
    if (this.state.reviewed) this.store.change({ phase: { kind: 'ready' } });
    else this.store.change({ phase: { kind: 'empty' } });
  }

  async tryChoices(assumptions: readonly Assumption[]): Promise<void> {
    if (assumptions.length === 0) return this.endTrial();
    const asked = ++this.asked;
    const { reviewed, trial } = this.state;
    if (!reviewed) return;
    this.store.change({ trial: { assumptions, open: trial?.open }, said: '' });
    try {
      const { report } = await this.ask('try', { assumptions });
      if (asked !== this.asked) return;
      this.show({ trial: { assumptions, open: openReport(report) } });
    } catch (error) {
      if (asked !== this.asked || error instanceof Stopped) return;
      this.store.change({ trial: trial?.open ? trial : null, said: lineOf(error) });
    }
  }

  endTrial(): void {
    this.asked += 1;
    if (!this.state.trial) return;
    this.store.filter({ keys: [] });
    this.show({ trial: null });
  }

  /** A later one for the same finding takes the place of the earlier. */
  addConcession(concession: NewConcession): void {
    const { concessions, comments } = this.state.unsaved;
    const others = concessions.filter(({ key }) => key !== concession.key);
    this.store.change({ unsaved: { concessions: [...others, concession], comments } });
  }

  addComment(comment: Omit<NewComment, 'date'>): void {
    const { concessions, comments } = this.state.unsaved;
    const date = new Date().toISOString().replace(/\.\d{3}Z$/, 'Z');
    this.store.change({ unsaved: { concessions, comments: [...comments, { ...comment, date }] } });
  }

  async saveBrief(): Promise<string> {
    const { unsaved, trial } = this.state;
    const assumptions = trial?.assumptions ?? [];
    const day = new Date().toISOString().slice(0, 10);
    const { file, text } = await this.ask('brief', { assumptions, ...unsaved, day });
    const saved: Saved = await saveText(this.opened?.saveTo ?? null, file, text);
    // What was added while it was being saved is not in the file.
    const { concessions, comments } = this.state.unsaved;
    this.store.change({
      unsaved: {
        concessions: concessions.filter((one) => !unsaved.concessions.includes(one)),
        comments: comments.filter((one) => !unsaved.comments.includes(one)),
      },
      said: WORDS.opening.saved(saved),
    });
    return saved.file;
  }

  async saveTopics(): Promise<void> {
    const { unsaved } = this.state;
    const { geometry, sentBack } = this.opened ?? { geometry: null, sentBack: null };
    const { bytes, topics } = await this.ask('bcf', { ...unsaved, geometry, previous: sentBack?.bytes ?? null });
    download('findings.bcf', bytes);
    this.store.change({ said: WORDS.opening.topicsSaved(topics) });
  }

  // --------------------------------------------------------------------------------------------------------- opening

  private get store(): Store {
    return this.options.store;
  }

  private get state() {
    return this.options.store.state;
  }

  private async check({ models, brief, previous }: Extract<Dropped, { kind: 'check' }>): Promise<void> {
    await this.opening(async (progress) => {
      const asks: Asks<'check'> = {
        models: await Promise.all(models.map(droppedFile)),
        brief: brief && (await droppedFile(brief)),
        previous: previous && (await droppedFile(previous)),
      };
      // A worker that something is open in keeps it if the check comes to nothing.
      const { report, geometry, files } = await this.options.work.ask('check', asks, progress);
      return { report, canTry: true, opened: { files, geometry, sentBack: null, saveTo: null } };
    });
  }

  private async openBytes(
    saveTo: URL | null,
    get: () => Promise<ReviewFiles & { readonly geometry: ArrayBuffer | null }>,
  ): Promise<void> {
    await this.opening(async (progress) => {
      progress({ stage: WORDS.opening.opening, share: 0, read: null });
      const { geometry, ...files } = await get();
      const { report, canTry } = await this.options.work.ask('open', files);
      return { report, canTry, opened: { files, geometry, sentBack: null, saveTo } };
    });
  }

  /** What was open before stays so until the other is there whole. */
  private async opening(
    open: (progress: (progress: Progress) => void) => Promise<Answers<'open'> & { readonly opened: Opened }>,
  ): Promise<void> {
    const asked = ++this.asked;
    const progress = (one: Progress): void => {
      if (asked === this.asked) this.store.change({ phase: { kind: 'loading', ...one } });
    };
    this.store.change({ said: '' });
    progress({ stage: WORDS.opening.opening, share: 0, read: null });
    try {
      const { report, canTry, opened } = await open(progress);
      if (asked !== this.asked) return;
      const geometry = opened.geometry ? geometryOf(opened.geometry) : null;
      await breath();
      const reviewed = openReport(report);
      await breath();
      [this.opened, this.isOpenInWorker] = [opened, true];
      this.store.change({
        ...{ phase: { kind: 'ready' }, reviewed, trial: null, canTry, geometry },
        ...{ filter: NO_FILTER, selection: NOTHING_SELECTED },
        unsaved: { concessions: [], comments: [] },
        savesTo: opened.saveTo && nameOf(opened.saveTo),
      });
      // Something to look at: the worst place.
      const worst = reviewed.rows.find(({ penetration }) => penetration !== null);
      if (worst) this.store.selectRow(worst.id);
    } catch (error) {
      if (asked === this.asked && !(error instanceof Stopped)) this.fail(lineOf(error));
    }
  }

  private async readTopics(file: File): Promise<void> {
    const asked = ++this.asked;
    try {
      const sentBack = await droppedFile(file);
      const { report, topics, others } = await this.ask('bcfIn', { file: sentBack });
      if (asked !== this.asked) return;
      if (this.opened) this.opened = { ...this.opened, sentBack };
      this.show({
        reviewed: openReport(report),
        trial: null,
        said: WORDS.opening.topicsRead(file.name, topics, others),
      });
    } catch (error) {
      if (asked === this.asked && !(error instanceof Stopped)) this.store.change({ said: lineOf(error) });
    }
  }

  /** Asks a worker that has the review open: after a stop, or a fault, it is opened again first. */
  private async ask<N extends RequestName>(name: N, asks: Asks<N>): Promise<Answers<N>> {
    const { work } = this.options;
    if (!(this.isOpenInWorker && work.isRunning) && this.opened) {
      const { files, sentBack } = this.opened;
      // Questions are answered in the order in which they are asked.
      const again = [work.ask('open', files), ...(sentBack ? [work.ask('bcfIn', { file: sentBack })] : [])];
      this.isOpenInWorker = true;
      const [answer] = await Promise.all([work.ask(name, asks), ...again]);
      return answer;
    }
    return work.ask(name, asks);
  }

  /** Ids of findings go by what is listed, keys stay: what is selected stays selected. */
  private show(part: Partial<Pick<Store['state'], 'reviewed' | 'trial' | 'said'>>): void {
    const { selection, reviewed, trial } = this.state;
    const before = trial?.open ?? reviewed;
    const next = { reviewed, trial, ...part };
    const after = next.trial?.open ?? next.reviewed;
    this.store.change({ ...part, selection: before && after ? sameFinding(selection, before, after) : selection });
  }

  private fail(message: string): void {
    this.store.change({ phase: { kind: 'failed', message } });
  }
}

function sameFinding(selection: Selection, before: OpenReport, after: OpenReport): Selection {
  const key = before.report.findings.find(({ id }) => id === selection.finding)?.key;
  const now = key === undefined ? undefined : after.report.findings.find((one) => one.key === key);
  return { ...selection, finding: now?.id ?? null };
}

const droppedFile = async (file: File): Promise<DroppedFile> => ({ name: file.name, bytes: await bytesOf(file) });
const bytesOf = async (file: File): Promise<Uint8Array> => new Uint8Array(await file.arrayBuffer());
const nameOf = ({ pathname }: URL): string => pathname.slice(pathname.lastIndexOf('/') + 1);

function geometryOf(bytes: ArrayBuffer): Geometry {
  try {
    return readGeometry(bytes);
  } catch (error) {
    throw error instanceof GeometryError ? new WorkFault(`geometry.glb ${error.message}`) : error;
  }
}

const isEmpty = ({ concessions, comments }: Unsaved): boolean => concessions.length + comments.length === 0;

/** The browser asks in words of its own. */
const askBeforeLeaving = (event: BeforeUnloadEvent): void => event.preventDefault();

const lineOf = (error: unknown): string => (error instanceof Error ? error.message : String(error));

/** Lets the page draw and answer between two steps that each take a while. */
const breath = (): Promise<void> => new Promise((go) => setTimeout(go));
