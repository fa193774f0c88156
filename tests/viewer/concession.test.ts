import { describe, expect, it } from 'vitest';
import { assumeChoices } from '../../src/rules/index.js';
import { CONCESSION_FIELDS, concessionOf, type Typed, whyNoConcession } from '../../viewer/sheet/concession.js';
import { aFinding, aReport, onPenetration } from '../report/factories.js';

const KEY = '0123456789abcdef';
const TODAY = '2026-11-26';
const GOOD: Typed = {
  reason: ' Filled and inspected. ',
  grantedBy: 'A. Person',
  role: 'building surveyor',
  reference: 'BS-14',
  date: '2026-03-02',
  expires: '',
};
const faults = (changes: Partial<Typed>) => {
  const made = concessionOf(KEY, { ...GOOD, ...changes }, TODAY);
  return 'faults' in made ? made.faults : {};
};

describe('a concession that somebody typed', () => {
  it('is what the brief takes, with the numbers that it rests on', () => {
    const made = concessionOf(KEY, { ...GOOD, expires: '2027-03-02' }, TODAY);
    if (!('concession' in made)) throw new Error('refused');
    expect(made.concession).toEqual({ key: KEY, ...GOOD, reason: 'Filled and inspected.', expires: '2027-03-02' });
    const entry = { ...made.concession, measured: 70, limit: { atLeast: 10, atMost: 50 } };
    expect(assumeChoices(undefined, [{ name: 'concessions', value: [entry] }]).choices.concessions).toEqual([entry]);
  });

  it('without an end has none', () => {
    expect(concessionOf(KEY, GOOD, TODAY)).toEqual({
      concession: expect.not.objectContaining({ expires: expect.anything() }),
    });
  });

  it('says of every field that is missing what it wants', () => {
    const empty = Object.fromEntries(CONCESSION_FIELDS.map((field) => [field, '  '])) as Typed;
    expect(Object.keys(faults(empty))).toEqual(CONCESSION_FIELDS.filter((field) => field !== 'expires'));
    for (const fault of Object.values(faults(empty))) expect(fault).toMatch(/^[A-Z][^\n]+\.$/);
  });

  it.each([
    ['a day that no calendar has', { date: '2026-02-30' }, ['date']],
    ['a day to come', { date: '2026-11-27' }, ['date']],
    ['an end before it was granted', { expires: '2026-03-01' }, ['expires']],
    ['an end that is no day', { expires: 'soon' }, ['expires']],
    ['more than the brief takes', { role: 'x'.repeat(201) }, ['role']],
  ])('is refused with %s', (_, changes, fields) => {
    expect(Object.keys(faults(changes))).toEqual(fields);
  });

  it('is for what failed or can not be told, once', () => {
    const [failed, passed] = aReport({
      findings: [
        aFinding('gap', { subject: onPenetration(1), outcome: 'failed', key: KEY }),
        aFinding('gap', { subject: onPenetration(1), outcome: 'passed', key: 'fedcba9876543210' }),
      ],
    }).findings;
    const none = { concessions: [], comments: [] };
    expect(whyNoConcession(failed!, none, false)).toBeNull();
    expect(whyNoConcession(passed!, none, false)).toMatch(/\.$/);
    expect(whyNoConcession(null, none, false)).toMatch(/\.$/);
    const { expires: _, ...rest } = GOOD;
    expect(whyNoConcession(failed!, { ...none, concessions: [{ key: KEY, ...rest }] }, false)).toMatch(/already/);
    expect(whyNoConcession(failed!, none, true)).toMatch(/trial/);
  });
});
