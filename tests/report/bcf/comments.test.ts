/** Comments of the brief in the issue exchange: sent out, sent again, and back, each stands there once. */
import { beforeAll, describe, expect, it } from 'vitest';
import { readBcf } from '../../../src/report/bcf/archive.js';
import { topicsIn } from '../../../src/report/bcf/finding-topics.js';
import { topicGuid } from '../../../src/report/bcf/topic-guid.js';
import { writeBcf } from '../../../src/report/bcf/write-bcf.js';
import { saidOf, withTopics } from '../../../src/report/comments.js';
import type { Report, ReportFinding } from '../../../src/report/schema.js';
import { type Scene, sceneOf } from '../../../src/scene/scene.js';
import { reviewOneWall } from '../../one-wall.js';
import { faultsOf, hasStandards } from './bcf-schemas.js';

const SAID = { date: '2026-03-02', author: 'A. Person', text: 'inspected & <filled>' };
let report: Report;
let scene: Scene;
let failed: ReportFinding;
let open: ReportFinding;
beforeAll(async () => {
  const reviewed = await reviewOneWall();
  scene = sceneOf(reviewed.federation);
  failed = reviewed.report.findings.find(({ outcome }) => outcome === 'failed')!;
  open = reviewed.report.findings.find(({ outcome }) => outcome === 'cantTell')!;
  report = spoken(reviewed.report, [failed.key, open.key]);
});

const spoken = (one: Report, keys: readonly string[]): Report => ({
  ...one,
  findings: one.findings.map((finding) => ({ ...finding, comments: keys.includes(finding.key) ? [SAID] : [] })),
});
const topicAt = (bytes: Uint8Array, key: string) =>
  readBcf(bytes).topics.find(({ topic }) => topic.guid === topicGuid({ kind: 'finding', key }))!.topic;

describe.each(['3.0', '2.1'] as const)('comments in BCF %s', (version) => {
  it.skipIf(!hasStandards)('are valid, also without any picture', () => {
    for (const drawn of [scene, { origin: scene.origin, elements: [] }])
      expect(faultsOf(readBcf(writeBcf(report, { scene: drawn, version })).entries, version)).toEqual([]);
  });

  it('stand at topics of findings that failed, and make a topic of others', () => {
    const bytes = writeBcf(report, { scene, version });
    for (const { key, outcome } of [failed, open]) {
      const { comments, title } = topicAt(bytes, key);
      expect(comments.map(({ date, author, text }) => ({ date, author, text }))).toEqual([
        { ...SAID, date: '2026-03-02T00:00:00Z' },
      ]);
      expect(title).not.toBe('');
      expect(['failed', 'cantTell']).toContain(outcome);
    }
  });

  it('stand there once when they are sent again', () => {
    const first = readBcf(writeBcf(report, { scene, version }));
    const second = topicAt(writeBcf(report, { scene, previous: first }), failed.key);
    expect(second.comments).toHaveLength(1);
  });

  it('are not doubled in the report that they come back to', () => {
    const theirs = { date: '2026-03-05T08:00:00Z', author: 'C. Person', text: 'thanks' };
    const sent = topicsIn(readBcf(writeBcf(report, { scene, version })));
    const back = withTopics(report, (about) => {
      const topic = sent(about);
      return topic && { ...topic, comments: [...topic.comments, theirs] };
    });
    const finding = back.findings.find(({ key }) => key === failed.key)!;
    expect(saidOf(finding)).toEqual([SAID, theirs]);
    expect(finding.topic?.comments).toEqual([theirs]);
    expect(finding.outcome).toBe(failed.outcome);
  });
});
