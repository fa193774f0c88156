/** The topics of a report: one for each finding that failed or is spoken about, or one for each penetration of such. */
import { fileUnder } from '../../collect.js';
import { HOLD_POINTS, type HoldPoint } from '../../model.js';
import { brief, counted } from '../../words/text.js';
import { type Said, timeOf } from '../comments.js';
import { isGlobalId } from '../global-id.js';
import { relate } from '../penetration-outcome.js';
import { penetrationPlace } from '../place-words.js';
import type { Report, ReportFinding, ReportPenetration } from '../schema.js';
import { describeTopic } from './describe-topic.js';
import type { Comment, HeaderFile, Topic } from './topic.js';
import { partGuid, type TopicKind, type TopicSubject, topicGuid } from './topic-guid.js';

export const TOPIC_TYPE = 'Fire separation';
export const STATUSES = ['Open', 'Answered', 'Closed'] as const;
export const STAGE = 'Coordination';
export const PRIORITIES: { readonly [H in HoldPoint]: string } = {
  formingOpening: 'Before forming opening',
  closingUp: 'Before closing up',
  handover: 'Before handover',
};
export const DEMONSTRATION_LABEL = 'DEMONSTRATION DATA';
/** Who writes topics and comments for a review. */
export const AUTHOR = 'Ratedrun';

const TITLE_LENGTH = 110;
const LABEL_LENGTH = 60;

export interface OwnTopic {
  readonly subject: TopicSubject;
  readonly topic: Topic;
  /** What it says, the worst first. */
  readonly findings: readonly ReportFinding[];
  /** Those it is about, its own one first. */
  readonly penetrations: readonly ReportPenetration[];
}

/** What has failed; of the rest only what people said something of. */
export const isTopic = ({ outcome, comments }: ReportFinding): boolean => outcome === 'failed' || comments.length > 0;

export function ownTopics(report: Report, per: TopicKind): OwnTopic[] {
  const concerned = relate(report.penetrations);
  const groups = new Map<string, Omit<OwnTopic, 'topic'>>();
  for (const finding of report.findings.filter(isTopic)) {
    const penetrations = concerned(finding);
    const own = finding.subject.type === 'penetration' ? penetrations[0] : undefined;
    const subject: TopicSubject =
      per === 'penetration' && own ? { kind: per, key: own.key } : { kind: 'finding', key: finding.key };
    const group = groups.get(topicGuid(subject));
    groups.set(topicGuid(subject), {
      subject,
      findings: [...(group?.findings ?? []), finding],
      penetrations: [...new Set([...(group?.penetrations ?? []), ...penetrations])],
    });
  }
  return relatedByPlace([...groups.values()].map((group) => ({ ...group, topic: topicOf(report, group) })));
}

function topicOf(report: Report, group: Omit<OwnTopic, 'topic'>): Topic {
  return {
    guid: topicGuid(group.subject),
    serverAssignedId: null,
    type: TOPIC_TYPE,
    status: 'Open',
    referenceLinks: [],
    title: titleOf(report, group),
    priority: priorityOf(report, group.findings),
    index: null,
    labels: labelsOf(report, group),
    creationDate: report.createdAt,
    creationAuthor: AUTHOR,
    modifiedDate: null,
    modifiedAuthor: null,
    dueDate: null,
    assignedTo: null,
    stage: STAGE,
    description: describeTopic(report, group),
    bimSnippet: null,
    documentReferences: [],
    relatedTopics: [],
    comments: group.findings.flatMap((finding) => finding.comments.map((one) => commentOf(group.subject, one))),
    viewpoints: [],
    files: filesOf(report, group),
  };
}

/** Its GUID is the same whenever it is sent, so that it stands there once. */
function commentOf(subject: TopicSubject, { date, author, text }: Said): Comment {
  return {
    guid: partGuid(topicGuid(subject), JSON.stringify(['comment', timeOf(date), author, text])),
    ...{ date: timeOf(date), author, text, viewpoint: null, modifiedDate: null, modifiedAuthor: null },
  };
}

/** The tag leads, since it is what stands on drawings and on the wall. */
function titleOf(report: Report, { subject, findings, penetrations }: Omit<OwnTopic, 'topic'>): string {
  const [finding] = findings;
  const [own] = penetrations;
  const isOwn = own !== undefined && finding!.subject.type === 'penetration';
  const failed = findings.filter(({ outcome }) => outcome === 'failed').length;
  const words =
    subject.kind === 'penetration' && isOwn && failed > 0
      ? `${counted(failed, 'check')} failed: ${penetrationPlace(own)}`
      : finding!.message;
  const lead = [...(isOwn ? [own.tag] : []), ...(report.demonstration ? ['(demonstration)'] : [])];
  return brief([...lead, words].join(' '), TITLE_LENGTH);
}

/** By the earliest work that one of the findings stops; null where no rule document says. */
function priorityOf(report: Report, findings: readonly ReportFinding[]): string | null {
  const stops = findings.map((finding) => report.checks.find((check) => check.id === finding.check)?.stops ?? null);
  const earliest = HOLD_POINTS.find((point) => stops.includes(point));
  return earliest === undefined ? null : PRIORITIES[earliest];
}

function labelsOf(report: Report, { findings, penetrations }: Omit<OwnTopic, 'topic'>): string[] {
  const [own] = penetrations;
  const place = own ? [own.storey?.name, own.duct.system] : [];
  const words = [...place, ...findings.map((finding) => finding.check)].flatMap((word) =>
    word === null || word === undefined ? [] : brief(word, LABEL_LENGTH),
  );
  const labels = report.demonstration ? [DEMONSTRATION_LABEL, ...words] : words;
  return [...new Set(labels)].filter((label) => label !== '');
}

/** The files that the elements are in; where none is named, all. */
function filesOf(report: Report, { findings, penetrations }: Omit<OwnTopic, 'topic'>): HeaderFile[] {
  const named = new Set([
    ...findings.flatMap((finding) => finding.subject.elements.map((ref) => ref.model)),
    ...penetrations.slice(0, 1).flatMap((p) => [p.duct.model, p.barrier.model]),
  ]);
  return report.models
    .filter((model) => named.size === 0 || named.has(model.id))
    .map((model) => ({
      ifcProject: model.projectGlobalId !== null && isGlobalId(model.projectGlobalId) ? model.projectGlobalId : null,
      ifcSpatialStructureElement: null,
      isExternal: true,
      filename: model.file,
      date: model.writtenAt,
      reference: null,
    }));
}

/** Topics of one penetration name each other. */
function relatedByPlace(topics: readonly OwnTopic[]): OwnTopic[] {
  const at = new Map<string, string[]>();
  for (const { topic, penetrations } of topics) {
    const [own] = penetrations;
    if (own) fileUnder(at, own.id, topic.guid);
  }
  return topics.map((one) => {
    const beside = one.penetrations.slice(0, 1).flatMap((p) => at.get(p.id) ?? []);
    return { ...one, topic: { ...one.topic, relatedTopics: beside.filter((guid) => guid !== one.topic.guid) } };
  });
}
