/**
 * The topics of this review and those of an earlier file that people went on with, together. What people said stays:
 * nothing is closed for them, nothing of theirs is left out.
 */
import type { Outcome } from '../../model.js';
import { OUTCOME_WORDS } from '../../words/values.js';
import type { Report } from '../schema.js';
import type { BcfFile, StoredTopic } from './archive.js';
import { AUTHOR, type OwnTopic } from './own-topics.js';
import type { Comment, Topic } from './topic.js';
import { partGuid, subjectOf } from './topic-guid.js';

export interface Merged {
  readonly own: readonly OwnTopic[];
  /** Topics of ours from earlier whose finding is no longer there: only their markup changes. */
  readonly answered: readonly StoredTopic[];
}

const GONE = 'No longer found in the review of ';
const STILL = 'Still found in the review of ';
const AGAIN = 'Found again in the review of ';

export function merge(own: readonly OwnTopic[], previous: BcfFile | undefined, report: Report): Merged {
  const earlier = new Map(previous?.topics.map((stored) => [stored.topic.guid, stored]));
  const now = new Set(own.map(({ topic }) => topic.guid));
  const failing = new Set([
    ...own.flatMap(({ findings }) => findings.map((finding) => finding.key)),
    ...own.flatMap(({ penetrations }) => penetrations.map((penetration) => penetration.key)),
  ]);
  const isGone = ({ topic }: StoredTopic): boolean => {
    const subject = subjectOf(topic.guid);
    // Where the other kind of topic was asked for, a topic that still holds stays as it is.
    return subject !== undefined && !now.has(topic.guid) && !failing.has(subject.key);
  };
  return {
    own: own.map((one) => {
      const before = earlier.get(one.topic.guid)?.topic;
      return before ? { ...one, topic: carriedOn(one, before, report) } : one;
    }),
    answered: [...earlier.values()].filter(isGone).flatMap((stored) => {
      const after = answered(stored.topic, report);
      return after ? [{ ...stored, topic: after }] : [];
    }),
  };
}

/** What the review says is new; what people say of it stays. */
function carriedOn({ topic, findings }: OwnTopic, before: Topic, report: Report): Topic {
  const { status, comment } = afterwards(before, findings[0]!.outcome, report);
  const known = new Set(before.comments.map(({ guid }) => guid));
  const added = topic.comments.filter(({ guid }) => !known.has(guid));
  const comments = [...before.comments, ...added, ...(comment ? [comment] : [])];
  const isChanged =
    comment !== undefined ||
    added.length > 0 ||
    topic.title !== before.title ||
    topic.description !== before.description?.trim();
  return {
    ...topic,
    serverAssignedId: before.serverAssignedId,
    type: before.type ?? topic.type,
    status,
    referenceLinks: before.referenceLinks,
    priority: before.priority ?? topic.priority,
    index: before.index,
    labels: union(topic.labels, before.labels),
    creationDate: before.creationDate,
    creationAuthor: before.creationAuthor,
    modifiedDate: isChanged ? report.createdAt : before.modifiedDate,
    modifiedAuthor: isChanged ? AUTHOR : before.modifiedAuthor,
    dueDate: before.dueDate,
    assignedTo: before.assignedTo,
    stage: before.stage ?? topic.stage,
    bimSnippet: before.bimSnippet,
    documentReferences: before.documentReferences,
    relatedTopics: union(topic.relatedTopics, before.relatedTopics),
    comments,
    viewpoints: before.viewpoints,
  };
}

/** The finding is there. Only what we answered ourselves is opened again; of what people answered or closed it is said. */
function afterwards(before: Topic, outcome: Outcome, report: Report): { status: string; comment?: Comment } {
  const status = before.status ?? 'Open';
  const last = before.comments.at(-1);
  if (status === 'Answered' && isOurs(last, GONE))
    return { status: 'Open', comment: ourComment(before, AGAIN, report, 'The topic is open again.') };
  if ((status !== 'Answered' && status !== 'Closed') || isOurs(last, STILL)) return { status };
  const words = `The topic stays "${status}", as it was set; the outcome of the check is still: ${OUTCOME_WORDS[outcome].toLowerCase()}.`;
  return { status, comment: ourComment(before, STILL, report, words) };
}

/** Undefined where people answered or closed it themselves, or opened it again after we had said so. */
function answered(topic: Topic, report: Report): Topic | undefined {
  if (topic.status === 'Answered' || topic.status === 'Closed' || isOurs(topic.comments.at(-1), GONE)) return undefined;
  const files = report.models.map((model) => model.file).join(', ');
  const words = `Reviewed were ${files}. See whether it was put right, or is only no longer in these files or can no longer be told; this is no approval.`;
  return {
    ...topic,
    status: 'Answered',
    modifiedDate: report.createdAt,
    modifiedAuthor: AUTHOR,
    comments: [...topic.comments, ourComment(topic, GONE, report, words)],
  };
}

const isOurs = (comment: Comment | undefined, lead: string): boolean =>
  comment?.author === AUTHOR && comment.text?.trimStart().startsWith(lead) === true;

const ourComment = ({ guid }: Topic, lead: string, { createdAt }: Report, words: string): Comment => ({
  guid: partGuid(guid, `${lead}${createdAt}`),
  date: createdAt,
  author: AUTHOR,
  text: `${lead}${createdAt}. ${words}`,
  viewpoint: null,
  modifiedDate: null,
  modifiedAuthor: null,
});

const union = (first: readonly string[], second: readonly string[]): string[] => [...new Set([...first, ...second])];
