import { expect, it } from 'vitest';
import { issueTags } from '../../src/find/keys.js';
import { carriedOn, issuedIn } from '../../src/report/issued-tags.js';
import { aPenetration, aReport } from '../report/factories.js';

it('gives the shortest tag that nobody has, the first of the alphabet first', () => {
  const tags = issueTags(['ABCDEFG', 'ABCDEZZ', 'KKKKKKK']);
  expect(Object.fromEntries(tags)).toEqual({ ABCDEFG: 'ABCD-E', ABCDEZZ: 'ABCD-EZ', KKKKKKK: 'KKKK-K' });
});

it('never gives a tag again, nor takes one away', () => {
  const issued = [
    { key: 'ABCDEZZ', tag: 'ABCD-E' },
    { key: 'ABCDEXX', tag: 'ABCD-EX' },
  ];
  // The one that comes first now would have had the short tag; it was issued to another, which is absent.
  expect(Object.fromEntries(issueTags(['ABCDEAA', 'ABCDEXX'], issued))).toEqual({
    ABCDEAA: 'ABCD-EA',
    ABCDEXX: 'ABCD-EX',
  });
  const whole = issueTags(['ABCDE'], [{ key: 'other', tag: 'ABCD-E' }]);
  expect(whole.get('ABCDE')).toBe('ABCD-E-2');
});

it('carries the list on: since when a tag is absent, and that it came back', () => {
  const [one, two] = [aPenetration(1), aPenetration(2)];
  const first = carriedOn([], [one, two], '2026-01-01T00:00:00Z');
  const second = carriedOn(first, [two], '2026-01-02T00:00:00Z');
  const third = carriedOn(second, [two], '2026-01-03T00:00:00Z');
  const fourth = carriedOn(third, [one, two], '2026-01-04T00:00:00Z');
  const absent = (list: typeof first) => list.map(({ absentSince }) => absentSince);
  expect(absent(first)).toEqual([null, null]);
  expect(absent(second)).toEqual(['2026-01-02T00:00:00Z', null]);
  expect(absent(third)).toEqual(['2026-01-02T00:00:00Z', null]);
  expect(fourth).toEqual(first);
});

it('takes what a report shows for issued where it has no list', () => {
  const report = { ...aReport(), issuedTags: [] };
  expect(issuedIn(report)).toEqual([{ tag: 'TAG1-9', key: 'key-1', issuedAt: report.createdAt, absentSince: null }]);
  expect(issuedIn(undefined)).toEqual([]);
});
