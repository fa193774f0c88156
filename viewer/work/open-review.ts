/** The review that is open: tried under other choices, its brief written on, its findings sent out and back. */
import { once } from '../../src/collect.js';
import { type BcfFile, readBcf } from '../../src/report/bcf/archive.js';
import { topicsIn } from '../../src/report/bcf/finding-topics.js';
import { isTopic } from '../../src/report/bcf/own-topics.js';
import { topicGuid } from '../../src/report/bcf/topic-guid.js';
import { writeBcf } from '../../src/report/bcf/write-bcf.js';
import { withTopics } from '../../src/report/comments.js';
import type { Report, ReportFinding } from '../../src/report/schema.js';
import { type BriefEntries, writeBriefText } from '../../src/review/brief-text.js';
import type { Choosable } from '../../src/review/choosable.js';
import type { ReviewFacts } from '../../src/review/facts-file.js';
import { FactsAgain, withWordsOf } from '../../src/review/judge-again.js';
import { readGeometry } from '../model/geometry.js';
import { withEntries } from '../state/entries.js';
import type { NewConcession } from '../state/state.js';
import type { Answers, Asks } from './protocol.js';
import { sceneOfGeometry } from './scene-of-geometry.js';

/** What the person asked for can't be done; one line. */
export class WorkError extends Error {}

export class OpenReview {
  /** Loaded when it is first asked for: what is shown at once needs neither facts nor rules. */
  private readonly again: () => FactsAgain | undefined;

  /** @param facts throws FactsError where they are damaged, or of another review */
  constructor(
    private report: Report,
    facts: () => ReviewFacts | undefined,
  ) {
    this.again = once(() => {
      const read = facts();
      return read && new FactsAgain(read);
    });
  }

  /** Null: without facts nothing can be tried. @throws FactsError; RuleDocumentError where a document is no longer taken */
  get choosable(): Choosable | null {
    return this.again()?.choosable ?? null;
  }

  /** So that the first trial takes no longer than the others. */
  prepare(): void {
    this.again()?.prepare();
  }

  /** @throws AssumptionError, WorkError */
  async try({ assumptions }: Asks<'try'>): Promise<Answers<'try'>> {
    const again = this.again();
    if (!again) throw new WorkError('Nothing can be tried: facts.json is missing; check the models again.');
    return { report: withWordsOf(this.report, await again.under(assumptions)) };
  }

  /** @throws RuleDocumentError, AssumptionError */
  brief({ assumptions, concessions, comments, day, written }: Asks<'brief'>): Answers<'brief'> {
    const brief = written ?? this.again()?.facts.brief ?? null;
    // Where only the report is there, its brief's text is not.
    const missing = brief === null && this.report.brief !== null ? this.report.brief.file : null;
    const entries: BriefEntries = {
      assumptions,
      concessions: concessions.map((one) => ({ ...one, ...this.judgedOf(one) })),
      comments: comments.map(({ finding, ...one }) => ({ key: finding, ...one })),
    };
    const text = writeBriefText({ brief, missing, entries, day, rules: this.again()?.rules });
    const name = brief?.file ?? this.report.brief?.file ?? 'project-brief.yaml';
    return { file: name.slice(name.lastIndexOf('/') + 1), text };
  }

  bcf({ concessions, comments, geometry, previous }: Asks<'bcf'>): Answers<'bcf'> {
    const report = withEntries(this.report, { concessions, comments });
    const scene = geometry ? sceneOfGeometry(readGeometry(geometry)) : { origin: [0, 0, 0] as const, elements: [] };
    const bytes = writeBcf(report, { scene, previous: previous ? readBcf(previous) : undefined });
    return { bytes, topics: report.findings.filter(isTopic).length };
  }

  /** @throws BcfError */
  bcfIn({ file, entries }: Asks<'bcfIn'>): Answers<'bcfIn'> {
    const sent = readBcf(file.bytes);
    this.report = withTopics(withEntries(this.report, entries), topicsIn(sent));
    const topics = this.topicsKnown(sent);
    return { report: this.report, topics, others: sent.topics.length - topics };
  }

  private topicsKnown({ topics }: BcfFile): number {
    const { findings, penetrations } = this.report;
    const own = new Set([
      ...findings.map(({ key }) => topicGuid({ kind: 'finding', key })),
      ...penetrations.map(({ key }) => topicGuid({ kind: 'penetration', key })),
    ]);
    return topics.filter(({ topic }) => own.has(topic.guid)).length;
  }

  private judgedOf({ key }: NewConcession): Pick<ReportFinding, 'measured' | 'limit'> {
    const finding = this.report.findings.find((one) => one.key === key);
    if (!finding) throw new WorkError(`The report lists no finding with the key ${key}, so it can't be conceded.`);
    return { measured: finding.measured, limit: finding.limit };
  }
}
