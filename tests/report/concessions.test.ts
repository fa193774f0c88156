import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Finding } from '../../src/model.js';
import { newConcession } from '../../src/report/concession-words.js';
import { concessionsOn } from '../../src/report/concessions.js';
import { writeSummary } from '../../src/report/summary.js';
import { type BriefConcession, loadBrief } from '../../src/rules/index.js';
import { NO_CHOICES } from '../model-factories.js';
import { aFinding, aReport } from './factories.js';

const KEY = '0123456789abcdef';
const DAY = '2026-03-10T08:00:00Z';
const granted = (changes: Partial<BriefConcession> = {}): BriefConcession => ({
  ...{ key: KEY, reason: 'filled and inspected', grantedBy: 'A. Person', role: 'building surveyor' },
  ...{ reference: 'BS-14', date: '2026-03-02', measured: 70, limit: { atLeast: 10, atMost: 50 } },
  ...changes,
});
const found = (changes: Partial<Finding> = {}) =>
  aFinding('gap', {
    key: KEY,
    outcome: 'failed',
    measured: 70,
    limit: { atLeast: 10, atMost: 50 },
    margin: -20,
    ...changes,
  });
const stateOf = (concession: BriefConcession, results: readonly Finding[]) =>
  concessionsOn([concession], results, DAY, results).list.map(({ state, because, finding }) => [
    state,
    because,
    finding,
  ])[0];

describe('a concession', () => {
  it.each<[string, Partial<BriefConcession>, readonly Finding[], string, string | null]>([
    ['whose numbers are as they were', {}, [found()], 'inForce', null],
    ['on its last day', { expires: '2026-03-10' }, [found()], 'inForce', null],
    ['the day after', { expires: '2026-03-09' }, [found()], 'lapsed', 'it expired on 2026-03-09'],
    ['from after the review', { date: '2026-03-11' }, [found()], 'lapsed', 'it is dated 2026-03-11, after this review'],
    ['whose value got worse', {}, [found({ measured: 70.1 })], 'lapsed', 'measured was 70 and is 70.1'],
    ['whose value got better', {}, [found({ measured: 60 })], 'lapsed', 'measured was 70 and is 60'],
    [
      'whose value is not known any more',
      {},
      [found({ measured: null })],
      'lapsed',
      'measured was 70 and is not known',
    ],
    [
      'whose limit is another',
      {},
      [found({ limit: { atLeast: 10, atMost: 45 } })],
      'lapsed',
      'the limit was 10 to 50 and is 10 to 45',
    ],
    [
      'whose limit has lost an end',
      {},
      [found({ limit: { atMost: 50 } })],
      'lapsed',
      'the limit was 10 to 50 and is at most 50',
    ],
    [
      'of a word',
      { measured: 'none', limit: { among: ['a', 'b'] } },
      [found({ measured: 'none', limit: { among: ['a', 'b'] } })],
      'inForce',
      null,
    ],
    [
      'of another word',
      { measured: 'none', limit: { among: ['a'] } },
      [found({ measured: 'none', limit: { among: ['b'] } })],
      'lapsed',
      'the limit was a and is b',
    ],
    [
      'of what can not be told',
      { measured: null, limit: null },
      [found({ outcome: 'cantTell', measured: null, limit: null })],
      'inForce',
      null,
    ],
    ['whose finding is gone', {}, [found({ key: 'f'.repeat(16) })], 'stale', 'no finding has its key any more'],
    [
      'whose finding has passed',
      {},
      [found({ outcome: 'passed' })],
      'refused',
      'there is nothing to concede: what it is about is passed',
    ],
    [
      'whose finding would pass',
      {},
      [found({ outcome: 'cantTell', wouldBe: 'passed' })],
      'refused',
      'there is nothing to concede: what it is about meets its limit',
    ],
    ['whose key two findings have', {}, [found(), found({ id: 'F-0002' })], 'refused', '2 findings have its key'],
  ])('%s', (_, changes, results, state, because) => {
    const beside = state === 'inForce' || state === 'lapsed' ? results[0]!.id : null;
    expect(stateOf(granted(changes), results)).toEqual([state, because, beside]);
  });

  it('changes no outcome, no count and no other finding, whatever it is', () => {
    const findings = [
      found(),
      found({ id: 'F-0002', key: 'a'.repeat(16), outcome: 'cantTell', measured: null, limit: null }),
    ];
    const bare = aReport({ findings, createdAt: DAY });
    const any = fc.record({
      key: fc.constantFrom(KEY, 'a'.repeat(16), 'b'.repeat(16)),
      measured: fc.constantFrom(70, 71, null),
      expires: fc.constantFrom(undefined, '2020-01-01', '2030-01-01'),
    });
    fc.assert(
      fc.property(fc.uniqueArray(any, { selector: ({ key }) => key }), (changes) => {
        const concessions = changes.map(({ expires, ...rest }) => granted({ ...rest, ...(expires && { expires }) }));
        const report = aReport({ findings, createdAt: DAY, choices: { ...NO_CHOICES, concessions } });
        const without = report.findings.map((finding) => ({ ...finding, concession: null }));
        expect({ ...report, findings: without, concessions: [] }).toEqual(bare);
        expect(report.concessions).toHaveLength(concessions.length);
        const besides = report.findings.filter(({ concession }) => concession !== null).map(({ id }) => id);
        expect(report.concessions.flatMap(({ finding }) => finding ?? []).sort()).toEqual(besides.sort());
      }),
      { numRuns: 60, seed: 20260101 },
    );
  });

  it('is told beside the finding, and those that are not in force by themselves', () => {
    const concessions = [granted({ measured: 60 }), granted({ key: 'f'.repeat(16), reference: 'BS-15' })];
    const summary = writeSummary(
      aReport({ findings: [found()], createdAt: DAY, choices: { ...NO_CHOICES, concessions } }),
      { files: [], width: 1000 },
    );
    const by = 'A. Person (building surveyor), BS-14, 2026-03-02: filled and inspected';
    expect(summary).toContain(`LAPSED concession (measured was 60 and is 70) by ${by}`);
    expect(summary).toContain('2 concessions: 1 lapsed and 1 stale. No outcome and no count is changed by them.');
    expect(summary).toContain(`- ${'f'.repeat(16)}: Stale concession (no finding has its key any more) by A. Person`);
  });
});

describe('a new entry', () => {
  const briefOf = (entry: string) =>
    loadBrief({ file: 'b.yaml', text: `kind: project-brief\nid: p\nversion: "1"\nchoices:\n  concessions:\n${entry}` });
  const numbers = [
    found(),
    found({ measured: 'none', limit: { among: ['damper', 'both'] } }),
    found({ measured: false, limit: { equals: true } }),
    found({ outcome: 'cantTell', measured: null, limit: null }),
    // All figures, or a number with an exponent: no key may be read as a number.
    found({ key: '1234567890123456' }),
    found({ key: '123456789012e456' }),
  ];

  it.each(numbers.map((one) => [`${one.key} ${String(one.measured)}`, one] as const))(
    'of %s stands in force once it is filled in, and is refused before',
    (_, finding) => {
      const entry = newConcession(finding);
      expect(() => briefOf(entry)).toThrow(/"reason"/);
      const filled = entry
        .replace(/(reason|grantedBy|role|reference): #.*/g, '$1: X')
        .replace(/^( +)date: #.*/m, '$1date: 2026-03-02');
      const { concessions } = briefOf(filled).choices;
      expect(stateOf(concessions[0]!, [finding])).toEqual(['inForce', null, finding.id]);
    },
  );

  it.each([
    ['a date that is none', 'date: 2026-02-30', 'date'],
    [
      'an expiry before it',
      'date: 2026-03-02\n      expires: 2026-03-01',
      'it expires on 2026-03-01, before it was granted',
    ],
  ])('is refused for %s', (_, date, message) => {
    const entry = newConcession(found())
      .replace(/(reason|grantedBy|role|reference): #.*/g, '$1: X')
      .replace(/ +# expires.*\n/, '')
      .replace(/^( +)date: #.*/m, `$1${date}`);
    expect(() => briefOf(entry)).toThrow(message);
  });

  it.each([
    ['of too few digits', '"12"', 'must be the key of a finding'],
    ['in no quotes', '1234567890123456', 'in quotes'],
  ])('is refused with a key %s', (_, key, message) => {
    expect(() => briefOf(newConcession(found()).replace(`"${KEY}"`, key))).toThrow(message);
  });

  it('may stand once for a finding', () => {
    const entry = newConcession(found())
      .replace(/(reason|grantedBy|role|reference): #.*/g, '$1: X')
      .replace(/^( +)date: #.*/m, '$1date: 2026-03-02');
    expect(() => briefOf(entry + entry)).toThrow(`"${KEY}" is listed twice in concessions`);
  });
});
