/** What people said of findings in an exchange file, for the report. */
import type { TopicOf } from '../comments.js';
import type { BcfFile } from './archive.js';
import { topicGuid } from './topic-guid.js';

/** Looks up the topic of a finding, or of a penetration, by its key. */
export function topicsIn(file: BcfFile): TopicOf {
  const topics = new Map(file.topics.map(({ topic }) => [topic.guid, topic]));
  return (subject) => {
    const topic = topics.get(topicGuid(subject));
    if (!topic) return null;
    return {
      guid: topic.guid,
      status: topic.status,
      assignedTo: topic.assignedTo,
      comments: topic.comments.map(({ date, author, text }) => ({ date, author, text: text ?? '' })),
    };
  };
}
