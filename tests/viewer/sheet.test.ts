import { describe, expect, it } from 'vitest';
import type { Finding } from '../../src/model.js';
import { allowedWords, amount, offWords } from '../../viewer/sheet/amounts.js';
import { sheetContent } from '../../viewer/sheet/content.js';
import { checkedWords, materialTexts, needsWords } from '../../viewer/sheet/note-texts.js';
import { openReport } from '../../viewer/state/open-report.js';
import { NOTHING_SELECTED, type Selection } from '../../viewer/state/state.js';
import { builtReport } from '../report/built-report.js';
import {
  aBarrier,
  aFinding,
  aPenetration,
  aReport,
  onBarrier,
  onPenetration,
  unreadable,
} from '../report/factories.js';

const at = (n: number, changes: Partial<Finding> = {}): Finding =>
  aFinding('gap', { subject: onPenetration(n), ...changes });

const PENETRATIONS = [aPenetration(1), aPenetration(2)];

/** The sheet of what is selected in a report of two penetrations. */
function sheetOf(findings: readonly Finding[], selection: Partial<Selection>) {
  const open = openReport(aReport({ penetrations: PENETRATIONS, findings }));
  return sheetContent(open, { ...NOTHING_SELECTED, ...selection });
}

const ids = (all: readonly { readonly id: string }[] | undefined): string[] => (all ?? []).map(({ id }) => id);

describe('the sheet of a penetration', () => {
  const findings = [
    at(1, { outcome: 'cantTell' }),
    at(1, { outcome: 'failed', key: 'b' }),
    at(2, { key: 'c' }),
    at(1, { outcome: 'passed', key: 'd' }),
  ];

  it('shows what was chosen, else the most serious, and lists all that needs attention', () => {
    expect(sheetOf(findings, { penetration: 'P-0001' })).toMatchObject({ finding: { id: 'F-0002' } });
    const content = sheetOf(findings, { penetration: 'P-0001', finding: 'F-0001' });
    expect(content?.finding?.id).toBe('F-0001');
    expect(ids(content?.findings)).toEqual(['F-0002', 'F-0001']);
    expect(ids(content?.others)).toEqual(['F-0004']);
  });

  it('shows a finding that needs nothing where it is the one that was chosen', () => {
    expect(sheetOf(findings, { penetration: 'P-0001', finding: 'F-0004' })?.finding?.id).toBe('F-0004');
  });

  it('names the penetration, with its most serious outcome', () => {
    expect(sheetOf(findings, { penetration: 'P-0001', finding: 'F-0001' })?.title).toEqual({
      ...{ reference: 'TAG1-9', storey: 'Level 1', barrier: 'W-12', rating: '-/120/120' },
      ...{ outcome: 'failed', revision: 'none given' },
    });
  });

  it('says of a rating that can not be read that it can not, and never only what stands there', () => {
    const open = openReport(
      aReport({ penetrations: [aPenetration(1, { barrier: aBarrier({ rating: unreadable }) })] }),
    );
    const content = sheetContent(open, { ...NOTHING_SELECTED, penetration: 'P-0001' });
    expect(content?.title.rating).toMatch(/unreadable/);
  });

  it('without findings says what was checked, and never that all is well', () => {
    const open = openReport(
      aReport({
        unlisted: [
          at(1, { outcome: 'passed' }),
          at(1, { outcome: 'cantTell', wouldBe: 'passed', key: 'b' }),
          at(1, { outcome: 'inapplicable', key: 'c' }),
        ],
      }),
    );
    const content = sheetContent(open, { ...NOTHING_SELECTED, penetration: 'P-0001' });
    expect(content?.finding).toBeNull();
    expect(content?.penetration && checkedWords(open, content.penetration)).toMatch(
      /^1 check passed; 1 inside limits that prove nothing; 1 inapplicable\. .*a tested system's own proof is needed\.$/,
    );
  });
});

describe('the sheet of something else', () => {
  it('names the penetrations that its finding speaks about', () => {
    const content = sheetOf([aFinding('rating', { subject: onBarrier('wall-1') })], { finding: 'F-0001' });
    expect(content?.penetration).toBeNull();
    expect(ids(content?.places)).toEqual(['P-0001', 'P-0002']);
    expect(content?.title).toMatchObject({ reference: 'W-12', outcome: 'failed' });
  });

  it('is that of the models where no element is meant, without a barrier', () => {
    const subject: Finding['subject'] = { type: 'model', id: 'federation', elements: [] };
    const content = sheetOf([aFinding('rating', { subject, outcome: 'cantTell' })], { finding: 'F-0001' });
    expect(content?.title).toMatchObject({ reference: 'The models', barrier: null, rating: null, storey: null });
  });

  it('is that of a barrier with all that passes it, or of an element that was picked', () => {
    expect(ids(sheetOf([], { barrier: 'm2/wall-1' })?.places)).toEqual(['P-0001', 'P-0002']);
    expect(ids(sheetOf([], { element: { model: 'm1', globalId: 'duct-2' } })?.places)).toEqual(['P-0002']);
  });

  it('is none where nothing is selected, or nothing that this report has', () => {
    expect(sheetOf([], {})).toBeNull();
    expect(sheetOf([], { penetration: 'P-9999' })).toBeNull();
    expect(sheetOf([], { element: { model: 'm1', globalId: 'nowhere' } })).toBeNull();
  });
});

describe('the notes', () => {
  it('say what is missing of what can not be told', () => {
    const { findings } = aReport({
      findings: [
        at(1, { outcome: 'cantTell', missing: ['barrier.rating'] }),
        at(1, { missing: ['barrier.rating'], key: 'b' }),
      ],
    });
    expect(findings.map(needsWords)).toEqual(["Can't tell: needs the fire rating of the barrier.", '']);
  });

  it('count the materials of a place as the take-off does, and say what could not be counted', () => {
    const report = builtReport();
    const texts = materialTexts(report, 'penetration', 'P-0001');
    const own = report.takeoff!.totals.filter(({ by, id }) => by === 'penetration' && id === 'P-0001');
    expect(texts?.rows).toHaveLength(own.length);
    expect(texts?.rows).toContainEqual({ kind: 'angle', name: 'angle as delivered', amount: '2.72 m' });
    // One bead of it could not be counted.
    expect(texts?.rows).toContainEqual(expect.objectContaining({ kind: 'sealant', amount: 'at least 0.419 l' }));
    expect(texts?.uncounted).toEqual(['Tape, tape: nobody says how wide it is.']);
    expect(materialTexts(aReport(), 'penetration', 'P-0001')).toBeNull();
  });

  it.each([
    [70, { atLeast: 10, atMost: 50 }, 'mm', '70\u2009mm', '10 to 50\u2009mm', '20\u2009mm over'],
    [5, { atLeast: 10 }, 'mm', '5\u2009mm', 'at least 10\u2009mm', '5\u2009mm short'],
    [25, { atMost: 10 }, 'deg', '25°', 'at most 10°', '15° over'],
    [120, { atLeast: 120 }, 'min', '120\u2009min', 'at least 120\u2009min', 'at the limit'],
    [30, { atLeast: 10, atMost: 50 }, 'mm', '30\u2009mm', '10 to 50\u2009mm', '20\u2009mm inside'],
    [7.87, { atMost: 6 }, null, '7.87', 'at most 6', '1.87 over'],
    [3, { equals: 5 }, null, '3', '5', '2 short'],
    ['none', { among: ['damper', 'both'] }, null, 'none', 'damper or damper and protection', ''],
    [false, { equals: true }, null, 'no', 'yes', ''],
  ] as const)('hold %s against its limit', (measured, limit, unit, said, allowed, off) => {
    expect(amount(measured, unit, 'en')).toBe(said);
    expect(allowedWords(limit, unit, 'en')).toBe(allowed);
    expect(offWords(measured, limit, unit, 'en')).toBe(off);
  });

  it('write decimals as the country does', () => {
    expect(amount(1250.5, 'mm', 'de')).toBe('1.250,5\u2009mm');
  });
});
