/** What people do to our file between two reviews, and what becomes of it. */
import { strFromU8, strToU8, unzipSync, zipSync } from 'fflate';
import { beforeAll, describe, expect, it } from 'vitest';
import { type BcfFile, readBcf } from '../../../src/report/bcf/archive.js';
import { topicsIn } from '../../../src/report/bcf/finding-topics.js';
import { BcfError, type Topic } from '../../../src/report/bcf/topic.js';
import { topicGuid } from '../../../src/report/bcf/topic-guid.js';
import { writeBcf } from '../../../src/report/bcf/write-bcf.js';
import { writeMarkup } from '../../../src/report/bcf/write-markup.js';
import { sceneOf } from '../../../src/scene/scene.js';
import { type Reviewed, reviewOneWall } from '../../one-wall.js';
import { caseBytes, faultsOf, hasStandards } from './bcf-schemas.js';

const LATER = '2026-02-03T04:05:06Z';
let first: Reviewed;
beforeAll(async () => {
  first = await reviewOneWall();
});

const write = ({ report, federation }: Reviewed, options: Partial<Parameters<typeof writeBcf>[1]> = {}) =>
  writeBcf(report, { scene: sceneOf(federation), ...options });
/** The first review's own file: drawn once, since pictures take their time. */
const issued = new Map<string, Uint8Array>();
function issue(version: '3.0' | '2.1' = '3.0'): Uint8Array {
  const bytes = issued.get(version) ?? write(first, { version });
  issued.set(version, bytes);
  return bytes;
}
const later = (reviewed: Reviewed): Reviewed => ({ ...reviewed, report: { ...reviewed.report, createdAt: LATER } });
const bottom = () => first.report.findings.find((f) => f.side === 'bottom')!;
const guidOf = (key: string) => topicGuid({ kind: 'finding', key });
const topicIn = (file: BcfFile, guid: string): Topic => file.topics.find(({ topic }) => topic.guid === guid)!.topic;

/** The file after people changed one topic, and other entries. */
function changed(
  bytes: Uint8Array,
  guid: string,
  change: (topic: Topic) => Topic,
  more: Record<string, Uint8Array> = {},
) {
  const { version, topics } = readBcf(bytes);
  const { folder, topic } = topics.find((t) => t.topic.guid === guid)!;
  const markup = strToU8(writeMarkup(change(topic), version));
  return zipSync({ ...unzipSync(bytes), [`${folder}/markup.bcf`]: markup, ...more });
}

const comment = (text: string, place = 1) => ({
  guid: `00000000-0000-4000-8000-00000000000${place}`,
  date: '2026-01-15T10:00:00Z',
  author: 'fitter@example.com',
  text,
  viewpoint: null,
  modifiedDate: null,
  modifiedAuthor: null,
});

describe.each(['3.0', '2.1'] as const)('BCF %s that came back', (version) => {
  const theirs = '11111111-2222-4333-8444-555555555555';
  /** All that people can do to a topic, and topics and files of their own. */
  const sentBack = () =>
    changed(
      issue(version),
      guidOf(bottom().key),
      (topic) => ({
        ...topic,
        status: 'Closed',
        assignedTo: 'coordinator@example.com',
        dueDate: '2026-03-01T00:00:00Z',
        labels: [...topic.labels, 'Ask the architect'],
        referenceLinks: ['https://example.com/rfi/7'],
        comments: [comment('Opening will be made smaller.')],
        viewpoints: [...topic.viewpoints, { guid: theirs, viewpoint: 'mine.bcfv', snapshot: 'mine.png', index: '1' }],
      }),
      {
        [`${guidOf(bottom().key)}/mine.bcfv`]: strToU8('<VisualizationInfo/>'),
        [`${guidOf(bottom().key)}/mine.png`]: Uint8Array.of(1, 2, 3),
        'notes/readme.txt': strToU8('kept'),
      },
    );

  it('gives status, assignment and comments back to our findings, by key', () => {
    const topicOf = topicsIn(readBcf(sentBack()));
    expect(topicOf({ kind: 'finding', key: bottom().key })).toEqual({
      guid: guidOf(bottom().key),
      status: 'Closed',
      assignedTo: 'coordinator@example.com',
      comments: [{ date: '2026-01-15T10:00:00Z', author: 'fitter@example.com', text: 'Opening will be made smaller.' }],
    });
    expect(topicOf({ kind: 'finding', key: '0000000000000000' })).toBeNull();
  });

  it('keeps all of it, closes and opens nothing for people, and says that the check still fails', () => {
    const previous = readBcf(sentBack());
    const file = readBcf(write(later(first), { previous }));
    const topic = topicIn(file, guidOf(bottom().key));
    expect(file.version).toBe(version);
    expect(topic).toMatchObject({
      status: 'Closed',
      assignedTo: 'coordinator@example.com',
      dueDate: '2026-03-01T00:00:00Z',
      referenceLinks: ['https://example.com/rfi/7'],
      creationDate: first.report.createdAt,
      modifiedDate: LATER,
    });
    expect(topic.labels).toContain('Ask the architect');
    expect(topic.comments.map((c) => c.text)).toEqual([
      'Opening will be made smaller.',
      expect.stringContaining(`Still found in the review of ${LATER}`),
    ]);
    expect(topic.viewpoints.map((v) => v.guid)).toContain(theirs);
    expect(topic.viewpoints.length).toBe(2);
    expect(file.entries.get(`${topic.guid}/mine.png`)).toEqual(Uint8Array.of(1, 2, 3));
    expect(strFromU8(file.entries.get('notes/readme.txt')!)).toBe('kept');
    // Said once: the next review adds nothing.
    const again = readBcf(write(later(first), { previous: file }));
    expect(topicIn(again, topic.guid).comments.length).toBe(2);
    if (hasStandards) {
      const { entries } = file;
      expect(faultsOf(new Map([...entries].filter(([path]) => !path.endsWith('mine.bcfv'))), version)).toEqual([]);
    }
  });

  it('leaves a topic that nobody touched as it was', () => {
    const previous = readBcf(issue(version));
    const file = readBcf(write(first, { previous }));
    expect(file.topics).toEqual(previous.topics);
    expect([...file.entries.keys()].sort()).toEqual([...previous.entries.keys()].sort());
  });

  it('a finding that is no longer there is answered with a comment, once, and opened again when it comes back', async () => {
    const mended = later(await reviewOneWall({ centre: [3000, 0, 2000], width: 660, height: 460 }));
    expect(mended.report.findings.some((f) => f.key === bottom().key)).toBe(false);
    const previous = readBcf(issue(version));
    const file = readBcf(write(mended, { previous }));
    const topic = topicIn(file, guidOf(bottom().key));
    expect(topic.status).toBe('Answered');
    expect(topic.comments.map((c) => c.text)).toEqual([
      expect.stringMatching(/^No longer found in the review of 2026-02-03.*one-wall\.ifc.*this is no approval/),
    ]);
    expect(file.entries.get(`${topic.guid}/snapshot.png`)).toEqual(previous.entries.get(`${topic.guid}/snapshot.png`));
    expect(readBcf(write(mended, { previous: file })).topics).toEqual(file.topics);
    const back = topicIn(readBcf(write(later(first), { previous: file })), topic.guid);
    expect(back.status).toBe('Open');
    expect(back.comments.at(-1)!.text).toMatch(/^Found again/);
    if (hasStandards) expect(faultsOf(file.entries, version)).toEqual([]);
  });

  it.each(['Closed', 'Answered'])('what people set to %s stays so when the finding is gone', async (status) => {
    const mended = later(await reviewOneWall({ centre: [3000, 0, 2000], width: 660, height: 460 }));
    const previous = readBcf(changed(issue(version), guidOf(bottom().key), (t) => ({ ...t, status })));
    const topic = topicIn(readBcf(write(mended, { previous })), guidOf(bottom().key));
    expect(topic).toEqual(topicIn(previous, topic.guid));
  });

  it('a viewpoint of others that took our file names keeps them, and ours goes beside it', () => {
    const guid = guidOf(bottom().key);
    const mine = Uint8Array.of(9, 9, 9);
    const bytes = changed(
      issue(version),
      guid,
      (topic) => ({ ...topic, viewpoints: topic.viewpoints.map((one) => ({ ...one, guid: theirs })) }),
      { [`${guid}/snapshot.png`]: mine },
    );
    const { topics, entries } = readBcf(write(first, { previous: readBcf(bytes) }));
    const { viewpoints } = topics.find((t) => t.topic.guid === guid)!.topic;
    expect(viewpoints.length).toBe(2);
    expect(viewpoints.find((one) => one.guid === theirs)).toMatchObject({ snapshot: 'snapshot.png' });
    expect(entries.get(`${guid}/snapshot.png`)).toEqual(mine);
    for (const { viewpoint, snapshot } of viewpoints)
      for (const name of [viewpoint, snapshot]) expect(entries.has(`${guid}/${name}`), name!).toBe(true);
  });

  it('a topic folder and markup in other letters are taken as they are', () => {
    const guid = guidOf(bottom().key);
    const entries = unzipSync(issue(version));
    const moved = Object.entries(entries).map(([path, content]) => [
      path.replace(`${guid}/markup.bcf`, `${guid}/Markup.bcf`).replace(guid, guid.toUpperCase()),
      content,
    ]);
    const file = readBcf(write(first, { previous: readBcf(zipSync(Object.fromEntries(moved))) }));
    expect(file.topics.map((t) => t.topic.guid).sort()).toEqual(
      readBcf(issue(version))
        .topics.map((t) => t.topic.guid)
        .sort(),
    );
    expect([...file.entries.keys()].filter((path) => path.toLowerCase().startsWith(guid)).sort()).toEqual([
      `${guid}/markup.bcf`,
      `${guid}/snapshot.png`,
      `${guid}/viewpoint.bcfv`,
    ]);
  });

  it('topics of the other kind that still hold stay as they are', () => {
    const previous = readBcf(write(first, { version, per: 'penetration' }));
    const file = readBcf(write(later(first), { previous, per: 'finding' }));
    expect(file.topics).toEqual(expect.arrayContaining([...previous.topics]));
    expect(file.topics.length).toBeGreaterThan(previous.topics.length);
  });
});

it.skipIf(!hasStandards)('the words of others are kept in the lists, ours are added', () => {
  for (const name of ['v3.0-labels.bcf', 'v2.1-extensionschema.bcf']) {
    const previous = readBcf(caseBytes(name));
    const { entries } = readBcf(write(first, { previous }));
    const words = strFromU8(entries.get('extensions.xml') ?? entries.get('extensions.xsd')!);
    for (const word of ['Error', 'Closed', 'Fire separation', 'Answered', 'Before closing up'])
      expect(words).toContain(word);
  }
});

describe('what is no BCF file', () => {
  const good = () => unzipSync(issue());
  const withEntry = (name: string, text: string) => zipSync({ ...good(), [name]: strToU8(text) });
  const markup = (text: string) => withEntry(`${guidOf(bottom().key)}/markup.bcf`, text);
  const bomb = `<!DOCTYPE M [<!ENTITY a "ha">${'bcdefgh'.replace(/./g, (c) => `<!ENTITY ${c} "&${String.fromCharCode(c.charCodeAt(0) - 1)};&${String.fromCharCode(c.charCodeAt(0) - 1)};">`)}]><Markup>&h;</Markup>`;

  it.each<[string, () => Uint8Array, RegExp]>([
    ['nothing', () => new Uint8Array(), /is no zip archive/],
    ['a text', () => strToU8('a letter'), /is no zip archive/],
    ['a zip cut off', () => issue().slice(0, 5000), /is a damaged zip archive/],
    ['a zip of something else', () => zipSync({ 'a.txt': strToU8('a') }), /holds no bcf\.version/],
    [
      'an older version',
      () => withEntry('bcf.version', '<Version VersionId="2.0"/>'),
      /is BCF 2\.0, which is not read; export it/,
    ],
    ['markup that does not end', () => markup('<Markup><Topic>'), /markup\.bcf is not well-formed XML/],
    ['markup with entities', () => markup(bomb), /markup\.bcf (declares a document type|is not well-formed)/],
    ['a document type alone', () => markup('<!DOCTYPE Markup SYSTEM "x.dtd"><Markup/>'), /declares a document type/],
    ['markup without a topic', () => markup('<Markup/>'), /holds no topic/],
    ['a topic without GUID', () => markup('<Markup><Topic><Title>a</Title></Topic></Markup>'), /has no GUID/],
    ['another root', () => markup('<Topic/>'), /does not begin with Markup/],
    ['markup nested without end', () => markup('<a>'.repeat(50_000) + '</a>'.repeat(50_000)), /nested too deeply/],
    [
      'markup that is no UTF-8',
      () => zipSync({ ...good(), [`${guidOf(bottom().key)}/markup.bcf`]: Uint8Array.of(0x3c, 0xff, 0xfe) }),
      /is not UTF-8 text/,
    ],
    [
      'a topic twice',
      () => zipSync({ ...good(), 'again/markup.bcf': good()[`${guidOf(bottom().key)}/markup.bcf`]! }),
      /holds two topics of the GUID/,
    ],
  ])('%s is said in one line', (_, make, message) => {
    const bytes = make();
    expect(() => readBcf(bytes)).toThrow(BcfError);
    expect(() => readBcf(bytes)).toThrow(message);
    expect(() => readBcf(bytes)).not.toThrow(/\n/);
  });
});
