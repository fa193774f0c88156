import { describe, expect, it } from 'vitest';
import { joined, NO_ENTRIES, withEntries } from '../../viewer/state/entries.js';
import { aFinding, aReport } from '../report/factories.js';

const report = aReport({ findings: [aFinding('gap', { key: 'a' }), aFinding('opening', { key: 'b' })] } as never);
const comment = (finding: string, text = 'filled') => ({ finding, text, author: 'A', date: '2026-03-02T10:00:00Z' });
const concession = (key: string, reason = 'small') => ({
  ...{ key, reason, grantedBy: 'B', role: 'surveyor', reference: 'X', date: '2026-03-02' },
});

describe('what was granted and said here', () => {
  it('stands beside its findings, each once, and changes no outcome', () => {
    const [{ key }] = report.findings as unknown as [{ key: string }];
    const entries = { concessions: [concession(key)], comments: [comment(key), comment('none of these')] };
    const once = withEntries(report, entries);
    expect(withEntries(once, entries)).toEqual(once);
    const said = once.findings.flatMap(({ comments }) => comments);
    expect(said).toEqual(
      report.findings
        .filter((one) => one.key === key)
        .map(() => ({ date: '2026-03-02T10:00:00Z', author: 'A', text: 'filled' })),
    );
    expect(once.findings.find((one) => one.key === key)?.concession).toMatchObject({ state: 'inForce', expires: null });
    expect(once.findings.map(({ outcome }) => outcome)).toEqual(report.findings.map(({ outcome }) => outcome));
    expect(withEntries(report, NO_ENTRIES)).toBe(report);
  });

  it('takes the later of two concessions for one finding', () => {
    const first = { concessions: [concession('a'), concession('b')], comments: [comment('a')] };
    const all = joined(first, { concessions: [concession('a', 'tiny')], comments: [comment('a', 'again')] });
    expect(all.concessions.map(({ key, reason }) => [key, reason])).toEqual([
      ['b', 'small'],
      ['a', 'tiny'],
    ]);
    expect(all.comments).toHaveLength(2);
  });
});
