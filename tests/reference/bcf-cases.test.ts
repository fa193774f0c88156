/** The published test cases of buildingSMART for BCF-XML 2.1 and 3.0: read, written again, validated. */
import { describe, expect, it } from 'vitest';
import { readBcf } from '../../src/report/bcf/archive.js';
import { readMarkup } from '../../src/report/bcf/read-markup.js';
import { subjectOf } from '../../src/report/bcf/topic-guid.js';
import { writeBcf } from '../../src/report/bcf/write-bcf.js';
import { writeMarkup } from '../../src/report/bcf/write-markup.js';
import { caseBytes, caseFiles, faultsOf, hasStandards } from '../report/bcf/bcf-schemas.js';
import { aReport } from '../report/factories.js';

const NOTHING = { origin: [0, 0, 0], elements: [] } as const;
const bytes = (text: string) => new TextEncoder().encode(text);

describe.skipIf(!hasStandards)('published BCF cases', () => {
  it('are all there', () => expect(caseFiles.length).toBe(34));

  it.each(caseFiles)('%s', (name) => {
    const file = readBcf(caseBytes(name));
    expect(file.version).toBe(/^v(\d\.\d)/.exec(name)![1]);
    const folders = new Set([...file.entries.keys()].filter((path) => path.endsWith('/markup.bcf')));
    expect(file.topics.length).toBe(folders.size);
    for (const { topic } of file.topics) {
      expect(subjectOf(topic.guid), 'no topic of others is taken for ours').toBeUndefined();
      // Through our own model and back: the same topic, and valid.
      const written = bytes(writeMarkup(topic, file.version));
      expect(readMarkup(written, 'markup.bcf')).toEqual(topic);
      expect(faultsOf(new Map([['x/markup.bcf', written]]), file.version)).toEqual([]);
    }
    // Beside topics of ours: every entry but the lists of words is written again byte for byte.
    const merged = readBcf(writeBcf(aReport(), { scene: NOTHING, previous: file }));
    for (const [path, content] of file.entries)
      if (!path.startsWith('extensions.')) expect(merged.entries.get(path), path).toEqual(content);
  });

  it('what they say is read: from the cases that show it', () => {
    const only = (name: string) => readBcf(caseBytes(name)).topics[0]!.topic;
    expect(only('v2.1-minimuminformation.bcf')).toMatchObject({
      guid: 'ae693c83-c932-400e-8570-4a2cf45abcf3',
      creationDate: '2015-07-15T13:12:42Z',
      type: null,
      status: null,
    });
    expect(only('v3.0-labels.bcf')).toMatchObject({ labels: ['Architects'], serverAssignedId: '4', status: 'Open' });
    expect(only('v3.0-labels.bcf').comments).toEqual([
      expect.objectContaining({
        author: 'Architect@example.com',
        text: 'Here is a viewpoint also',
        viewpoint: '064ad3a0-f778-4b7a-b928-614ab5e27d90',
      }),
    ]);
    expect(only('v2.1-user-assignment.bcf').assignedTo).toMatch(/^\S+@\S+$/);
    expect(only('v3.0-due-date.bcf').dueDate).toMatch(/^20\d\d-/);
    expect(only('v3.0-milestone.bcf').stage).not.toBeNull();
    expect(only('v2.1-internalbimsnippet.bcf').bimSnippet).toMatchObject({
      reference: 'JsonElement.json',
      isExternal: false,
    });
    expect(only('v2.1-externalbimsnippet.bcf').bimSnippet?.isExternal).toBe(true);
    const pair = readBcf(caseBytes('v3.0-related-topics-with-both-topics-in-the-same-file.bcf')).topics.map(
      (t) => t.topic,
    );
    expect(pair[0]!.relatedTopics.concat(pair[1]!.relatedTopics)).toContain(
      pair[0]!.relatedTopics.length > 0 ? pair[1]!.guid : pair[0]!.guid,
    );
  });

  it('the 2.1 markup with only what is needed is no valid 3.0 one', () => {
    const { topics, entries } = readBcf(caseBytes('v2.1-minimuminformation.bcf'));
    const path = `${topics[0]!.folder}/markup.bcf`;
    expect(faultsOf(new Map([[path, entries.get(path)!]]), '2.1')).toEqual([]);
    expect(faultsOf(new Map([[path, entries.get(path)!]]), '3.0').join()).toMatch(/TopicType/);
  });
});
