/** What people said of findings: in the brief, and in issue exchanges. Outcomes are not touched. */
import { compareTexts, fileUnder } from '../collect.js';
import type { Finding } from '../model.js';
import type { BriefComment } from '../rules/index.js';
import { oneLine } from '../words/text.js';
import type { ListedComment, Report, ReportFinding } from './schema.js';

export type Said = ReportFinding['comments'][number];
export type FindingTopic = NonNullable<ReportFinding['topic']>;

/** What people said of a finding, or of a penetration, in an issue exchange; null where nothing is known. */
export type TopicOf = (about: {
  readonly kind: 'finding' | 'penetration';
  readonly key: string;
}) => FindingTopic | null;

export interface Comments {
  readonly list: readonly ListedComment[];
  readonly beside: (finding: Pick<Finding, 'key'>) => readonly Said[];
}

/** @param findings those that are listed: beside others nobody would see what is said */
export function commentsOn(given: readonly BriefComment[], findings: readonly Pick<Finding, 'id' | 'key'>[]): Comments {
  const ids = new Map<string, string>();
  for (const { id, key } of findings) if (!ids.has(key)) ids.set(key, id);
  const byKey = new Map<string, Said[]>();
  for (const { key, date, author, text } of given) fileUnder(byKey, key, { date, author, text });
  return {
    list: given.map(({ key, date, author, text }) => ({ key, date, author, text, finding: ids.get(key) ?? null })),
    beside: ({ key }) => byKey.get(key) ?? [],
  };
}

/** A topic on the finding itself, else one on its penetration; without what the brief says too. */
export function topicsOn(
  topicOf: TopicOf | undefined,
  penetrations: readonly { readonly id: string; readonly key: string }[],
): (finding: Pick<Finding, 'key' | 'subject'>, comments: readonly Said[]) => FindingTopic | null {
  if (!topicOf) return () => null;
  const keys = new Map(penetrations.map(({ id, key }) => [id, key]));
  return ({ key, subject }, comments) => {
    const place = subject.type === 'penetration' ? keys.get(subject.id) : undefined;
    const topic = topicOf({ kind: 'finding', key }) ?? (place ? topicOf({ kind: 'penetration', key: place }) : null);
    if (!topic) return null;
    const known = new Set(comments.map(sameAs));
    return { ...topic, comments: topic.comments.filter((one) => !known.has(sameAs(one))) };
  };
}

/** The report with what an issue exchange says of its findings. */
export function withTopics(report: Report, topicOf: TopicOf): Report {
  const topic = topicsOn(topicOf, report.penetrations);
  return {
    ...report,
    findings: report.findings.map((one) => ({ ...one, topic: topic(one, one.comments) ?? one.topic })),
  };
}

/** A comment that went out and came back is the same one, though the exchange knows no days without a time. */
const sameAs = ({ date, author, text }: Said): string => JSON.stringify([timeOf(date), author.trim(), text.trim()]);

/** `2026-03-02T00:00:00Z`, whatever part of it was said. */
export const timeOf = (date: string): string => (/^\d{4}-\d\d-\d\d$/.test(date) ? `${date}T00:00:00Z` : date);

/** All that was said of a finding, the earliest first. */
export const saidOf = ({ comments, topic }: Pick<ReportFinding, 'comments' | 'topic'>): Said[] =>
  [...comments, ...(topic?.comments ?? [])].sort((a, b) => compareTexts(timeOf(a.date), timeOf(b.date)));

/** `Comment by A. Person, 2026-03-02: asked the fabricator`. */
export const commentWords = ({ date, author, text }: Said): string =>
  `Comment by ${oneLine(author)}, ${date.slice(0, 10)}: ${oneLine(text)}`;
