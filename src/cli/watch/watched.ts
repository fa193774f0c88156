/** What a watched review holds in memory, and how it answers. */
import { relative } from 'node:path';
import { carryKeys } from '../../compare/carry-keys.js';
import type { CheckResult } from '../../model.js';
import type { FileChange } from '../../platform/file-watch.js';
import { outcomeChanges, outcomeChangesLine } from '../../report/outcome-changes.js';
import { sumOutcomes } from '../../report/outcome-counts.js';
import { writeSummary } from '../../report/summary.js';
import type { Found } from '../../review/found.js';
import { findingUnder } from '../../review/review.js';
import { judgeChecks, KeptCases } from '../../rules/index.js';
import { type CheckOptions, exitCode } from '../check.js';
import { CANNOT_REVIEW, faultLine } from '../fault-line.js';
import { standingIn, writeOutputs } from '../io.js';
import { findInModels, type Guidance, type ReviewOutputs, readGuidance } from '../make-review.js';
import { type Progress, startProgress } from '../progress.js';
import { readReportIn } from '../read-report.js';
import type { Streams } from '../streams.js';
import { OutputThread } from './output-thread.js';

export class Watched {
  /** Of the last answer; until there is one nothing was reviewed. */
  code = CANNOT_REVIEW;
  private found: { readonly under: string; readonly is: Found } | undefined;
  private checks: readonly CheckResult[] | undefined;
  private readonly kept = new KeptCases();
  private readonly thread = new OutputThread();
  private readonly stopping = new AbortController();
  private readonly progress: Progress;

  constructor(
    private readonly models: readonly string[],
    private readonly options: CheckOptions,
    private readonly io: Streams,
  ) {
    this.progress = startProgress(io.err, options.quiet ?? false);
  }

  /** @param modelsChanged whether one of the models is among what changed */
  async answer({ paths, noticed }: FileChange, modelsChanged: boolean): Promise<void> {
    this.thread.end();
    try {
      if (modelsChanged) this.found = undefined;
      const guidance = await readGuidance(this.options);
      const found = await this.foundUnder(guidance);
      const checks = await this.judged(found, guidance);
      this.progress.end();
      const milliseconds = Math.round(performance.now() - noticed);
      this.say(
        paths.map((path) => relative(standingIn(), path)),
        checks,
        milliseconds,
      );
      this.code = exitCode(sumOutcomes(checks), this.options.nonzeroFor);
      this.checks = checks;
      this.write(found);
    } catch (error) {
      // Whoever stopped it knows why it was not read.
      if (!this.stopping.signal.aborted) this.fail(faultLine(error), CANNOT_REVIEW);
    }
  }

  stop(): void {
    this.stopping.abort();
    this.thread.end();
    this.progress.end();
  }

  private async foundUnder(guidance: Guidance): Promise<Found> {
    const { documents, brief } = guidance;
    const { rules, constructions } = documents;
    const under = JSON.stringify([findingUnder({ rules, brief }), constructions]);
    if (this.found?.under === under) return this.found.is;
    const { signal } = this.stopping;
    const is = await findInModels(this.models, guidance, this.options, { onProgress: this.progress.report, signal });
    this.found = { under, is };
    return is;
  }

  private async judged({ crossings, federation }: Found, { documents, brief }: Guidance) {
    const { previous } = this.options;
    const named = previous === undefined ? crossings : carryKeys(crossings, await readReportIn(previous));
    return judgeChecks(named, documents.rules, { brief: brief?.brief, models: federation.models, kept: this.kept });
  }

  private say(changed: readonly string[], checks: readonly CheckResult[], milliseconds: number): void {
    const changes = outcomeChanges(this.checks, checks);
    const line = `${changed.join(', ')}: ${outcomeChangesLine(changes)} (answered in ${milliseconds} ms)`;
    this.io.out.write(this.options.json ? `${JSON.stringify({ changed, milliseconds, ...changes })}\n` : `${line}\n`);
  }

  private write({ federation, crossings }: Found): void {
    if (this.stopping.signal.aborted) return;
    this.thread.begin(
      { models: this.models, options: this.options, found: { federation, crossings } },
      {
        onProgress: this.progress.report,
        onOutputs: (outputs) => this.keep(outputs),
        onFault: (line, code) => this.fail(line, code),
      },
    );
  }

  private async keep({ report, files, outdated }: ReviewOutputs): Promise<void> {
    const written = await writeOutputs(this.options.out, files, { outdated });
    this.progress.end();
    if (!this.options.json) this.io.out.write(`\n${writeSummary(report, { files: written })}\n`);
  }

  private fail(line: string, code: number): void {
    this.progress.end();
    this.io.err.write(line);
    this.code = code;
  }
}
