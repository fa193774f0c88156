/** What a person can do beside looking: asks the worker, changes the state, gives files out. */
import type { Assumption } from '../../src/index.js';
import type { Report } from '../../src/report/schema.js';
import type { Actions } from '../state/actions.js';
import { isNone, joined, NO_ENTRIES, withEntries } from '../state/entries.js';
import { openReport } from '../state/open-report.js';
import { selectFirst } from '../state/select-first.js';
import type { NewComment, NewConcession, OpenReport, Progress } from '../state/state.js';
import { NO_FILTER, NOTHING_SELECTED } from '../state/state.js';
import type { Store } from '../state/store.js';
import { sameFinding } from '../state/trial.js';
import { WORDS } from '../words.js';
import { Stopped, type WorkClient, WorkFault } from './client.js';
import { type Dropped, droppedIs } from './dropped.js';
import { bytesOf, download, droppedFile, fetched, geometryOf, nameOf, saveText } from './files.js';
import type { Answers, Asks, ReviewFiles } from './protocol.js';
import { type Opened, ReviewInWorker } from './review-in-worker.js';

export interface ActionsOptions {
  readonly store: Store;
  readonly work: WorkClient;
}

export class ViewerActions implements Actions {
  private readonly review: ReviewInWorker;
  /** Counts what was asked: only the answer to the latest is shown. */
  private asked = 0;

  constructor(private readonly options: ActionsOptions) {
    this.review = new ReviewInWorker(options.work);
    // Only while something would be lost: a page that listens for it is never kept for going back.
    options.store.listen(({ unsaved }, before) => {
      if (unsaved === before.unsaved) return;
      if (isNone(unsaved)) removeEventListener('beforeunload', askBeforeLeaving);
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
    this.review.stop();
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
      const { report } = await this.review.ask('try', { assumptions });
      if (asked !== this.asked) return;
      this.show({ trial: { assumptions, open: this.opened(report) } });
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

  takeBack(entry: NewConcession | NewComment): void {
    const { concessions, comments } = this.state.unsaved;
    const isKept = (one: NewConcession | NewComment): boolean => one !== entry;
    this.store.change({ unsaved: { concessions: concessions.filter(isKept), comments: comments.filter(isKept) } });
  }

  async saveBrief(): Promise<string> {
    const { unsaved, trial } = this.state;
    const assumptions = this.review.notKept(trial?.assumptions ?? []);
    const day = new Date().toISOString().slice(0, 10);
    return this.saying(async () => {
      const written = await this.review.ask('brief', {
        ...{ assumptions, ...unsaved, day },
        written: this.review.opened?.written ?? null,
      });
      const saved = await saveText(this.review.opened?.saveTo ?? null, written.file, written.text);
      this.review.wrote(written, unsaved, assumptions);
      // What was added while it was being saved is not in the file.
      const { concessions, comments } = this.state.unsaved;
      this.store.change({
        unsaved: {
          concessions: concessions.filter((one) => !unsaved.concessions.includes(one)),
          comments: comments.filter((one) => !unsaved.comments.includes(one)),
        },
        said: WORDS.opening.saved(saved),
      });
      // It stands beside the findings now, as the next review will have it.
      const { reviewed, trial: now } = this.state;
      if (!isNone(unsaved) && reviewed)
        this.store.change({
          reviewed: this.opened(reviewed.report),
          trial: now?.open ? { ...now, open: this.opened(now.open.report) } : now,
        });
      return saved.file;
    });
  }

  async saveTopics(): Promise<void> {
    const { unsaved } = this.state;
    const { geometry = null, sentBack = null, saved = NO_ENTRIES } = this.review.opened ?? {};
    await this.saying(async () => {
      const asks = { ...joined(saved, unsaved), geometry, previous: sentBack?.bytes ?? null };
      const { bytes, topics } = await this.review.ask('bcf', asks);
      download('findings.bcf', bytes);
      this.store.change({ said: WORDS.opening.topicsSaved(topics) });
    });
  }

  /** With what was saved here since it was reviewed. */
  private opened(report: Report): OpenReport {
    return openReport(withEntries(report, this.review.opened?.saved ?? NO_ENTRIES));
  }

  private async saying<T>(act: () => Promise<T>): Promise<T> {
    try {
      return await act();
    } catch (error) {
      this.store.change({ said: lineOf(error) });
      throw error;
    }
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
      return { report, opened: { ...NOTHING_WRITTEN, files, geometry, saveTo: null } };
    });
  }

  private async openBytes(
    saveTo: URL | null,
    get: () => Promise<ReviewFiles & { readonly geometry: ArrayBuffer | null }>,
  ): Promise<void> {
    await this.opening(async (progress) => {
      progress({ stage: WORDS.opening.opening, share: 0, read: null });
      const { geometry, ...files } = await get();
      const { report } = await this.options.work.ask('open', files);
      return { report, opened: { ...NOTHING_WRITTEN, files, geometry, saveTo } };
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
      const { report, opened } = await open(progress);
      if (asked !== this.asked) return;
      const geometry = opened.geometry ? geometryOf(opened.geometry) : null;
      await breath();
      const reviewed = openReport(report);
      await breath();
      const isAnother = this.state.reviewed !== null;
      this.review.keep(opened);
      this.store.change({
        ...{ phase: { kind: 'ready' }, reviewed, trial: null, choosable: undefined, geometry },
        // The first one is looked at as the address says.
        ...(isAnother && { filter: NO_FILTER, selection: NOTHING_SELECTED }),
        unsaved: NO_ENTRIES,
        savesTo: opened.saveTo && nameOf(opened.saveTo),
      });
      selectFirst(this.store);
      void this.askChoosable(opened);
    } catch (error) {
      if (asked === this.asked && !(error instanceof Stopped)) this.fail(lineOf(error));
    }
  }

  private async askChoosable({ files }: Opened): Promise<void> {
    const isStillOpen = (): boolean => this.review.opened?.files === files;
    try {
      const { choosable } = await this.review.ask('choosable', {});
      if (isStillOpen()) this.store.change({ choosable });
    } catch (error) {
      if (isStillOpen() && !(error instanceof Stopped)) this.store.change({ choosable: null, said: lineOf(error) });
    }
  }

  private async readTopics(file: File): Promise<void> {
    const asked = ++this.asked;
    try {
      const sentBack = await droppedFile(file);
      const { report, topics, others } = await this.review.ask('bcfIn', {
        file: sentBack,
        entries: this.review.opened?.saved ?? NO_ENTRIES,
      });
      if (asked !== this.asked) return;
      if (this.review.opened) this.review.keep({ ...this.review.opened, sentBack });
      this.show({
        reviewed: this.opened(report),
        trial: null,
        said: WORDS.opening.topicsRead(file.name, topics, others),
      });
    } catch (error) {
      if (asked === this.asked && !(error instanceof Stopped)) this.store.change({ said: lineOf(error) });
    }
  }

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

const NOTHING_WRITTEN = { sentBack: null, written: null, saved: NO_ENTRIES, kept: [] } as const;

/** The browser asks in words of its own. */
const askBeforeLeaving = (event: BeforeUnloadEvent): void => event.preventDefault();

const lineOf = (error: unknown): string => (error instanceof Error ? error.message : String(error));

/** Lets the page draw and answer between two steps that each take a while. */
const breath = (): Promise<void> => new Promise((go) => setTimeout(go));
