/**
 * Published notations and the comparison rules that go with them. Row ids (FR01 …) and golden cases (G05 …) are those
 * of the project's reference sheet, which names the source of each and how sure it is; the values are copied here.
 */
import { describe, expect, it } from 'vitest';
import { compareRatings, compareRatingsInDetail } from '../../src/fire-rating/compare.js';
import { parseRating } from '../../src/fire-rating/parse.js';
import type { ParsedRating, RatingContext } from '../../src/fire-rating/types.js';
import type { Minutes } from '../../src/model.js';

type Triple = readonly [loadbearing: Minutes, integrity: Minutes, insulation: Minutes];

interface Row {
  readonly id: string;
  readonly source: string;
  readonly texts: readonly string[];
  readonly context: RatingContext;
  readonly expected: 'unreadable' | 'unstated' | { readonly duration: number } | { readonly minutes: Triple };
  readonly flags?: readonly string[];
}

const barrier: RatingContext = { object: 'barrier' };
const duct: RatingContext = { object: 'duct' };
const damper: RatingContext = { object: 'damper' };
const damperHours: RatingContext = { object: 'damper', unit: 'hours' };
const door: RatingContext = { object: 'door' };
const pipeSeal: RatingContext = { object: 'pipeSeal' };
const cable: RatingContext = { object: 'cable' };

const row = (
  id: string,
  source: string,
  texts: string | readonly string[],
  context: RatingContext,
  expected: Triple | number | 'unreadable' | 'unstated',
  flags?: readonly string[],
): Row => ({
  id,
  source,
  texts: typeof texts === 'string' ? [texts] : texts,
  context,
  expected:
    typeof expected === 'string'
      ? expected
      : typeof expected === 'number'
        ? { duration: expected }
        : { minutes: expected },
  ...(flags && { flags }),
});

const IDS_TEST = 'IDS 1.0 test case';
const ORDER = 'order per NCC and NZ glossaries, second-hand';
const EN = 'EN 13501-2 letters, second-hand';
const DAMPER = 'EN 13501-3, second-hand';
const SMOKE = 'EN 13501-4, from memory';
const DIN = 'DIN 4102 letters, second-hand';
const MEMORY = 'from memory';
const COMPUTED = 'computed from the notation';
const SAMPLES = 'occurs in public IFC sample files';
const BOTH = ['ve', 'ho', 'i>o', 'o>i', 'S'];

const TABLE: readonly Row[] = [
  row('FR01', IDS_TEST, '120/120/120', barrier, [120, 120, 120]),
  row('FR02', ORDER, '-/120/120', barrier, ['none', 120, 120]),
  row('FR03', ORDER, '-/60/30', barrier, ['none', 60, 30]),
  row('FR04', ORDER, '90/60/30', barrier, [90, 60, 30]),
  row('FR05', ORDER, '-/60/60', barrier, ['none', 60, 60]),
  row('FR06', MEMORY, '-/60/-', damper, ['none', 60, 'none']),
  row('FR07', MEMORY, '60/-/-', barrier, [60, 'none', 'none']),
  row('FR08', IDS_TEST, '-/-/-', barrier, ['none', 'none', 'none']),
  row('FR09', 'IDS 1.0 documentation, property facet', '180/180/180', barrier, [180, 180, 180]),
  row('FR10', MEMORY, 'FRL 240/240/240', barrier, [240, 240, 240]),
  row('FR11', COMPUTED, ['\u2013/120/120', '\u2212/120/120'], barrier, ['none', 120, 120]),
  row('FR12', ORDER, 'FRL -/30/30', barrier, ['none', 30, 30]),
  row('FR13', EN, 'REI 120', barrier, [120, 120, 120]),
  row('FR14', SAMPLES, 'REI60', barrier, [60, 60, 60]),
  row('FR15', EN, 'EI 60', barrier, ['none', 60, 60]),
  row('FR16', EN, 'E 30', barrier, ['none', 30, 'none']),
  row('FR17', SAMPLES, 'R90', barrier, [90, 'none', 'none']),
  row('FR18', EN, 'RE 60', barrier, [60, 60, 'none']),
  row('FR19', 'DIN EN 13501-2 summary, second-hand', 'R 120 / RE 60 / REI 30', barrier, [120, 60, 30]),
  row('FR20', EN, 'REI-M 90', barrier, [90, 90, 90], ['M']),
  row('FR21', DAMPER, 'EI 120 (ve ho i↔o) S', duct, ['none', 120, 120], BOTH),
  row('FR22', COMPUTED, 'EI 120 (ve ho i<->o) S', duct, ['none', 120, 120], BOTH),
  row('FR23', MEMORY, ['EI 90 (ho i→o) S', 'EI 90 (ho i->o) S'], duct, ['none', 90, 90], ['ho', 'i>o', 'S']),
  row('FR24', MEMORY, 'E 120 (ve i↔o)', duct, ['none', 120, 'none'], ['ve', 'i>o', 'o>i']),
  row('FR25', MEMORY, ['ES 60', 'E 60 S'], damper, ['none', 60, 'none'], ['S']),
  row('FR26', COMPUTED, 'EI 60 / E 120', barrier, ['none', 120, 60]),
  row('FR27', MEMORY, 'EW 60', barrier, ['none', 60, 'none'], ['W']),
  row('FR28', MEMORY, 'EI1 30', door, ['none', 30, 30], ['EI1']),
  row('FR28', MEMORY, 'EI2 30-C', door, ['none', 30, 30], ['EI2', 'C']),
  row('FR29', SMOKE, 'E600 120 (ho) S 500 single', duct, ['none', 120, 'none'], ['E600', 'ho', 'S', 'S500', 'single']),
  row('FR30', SMOKE, 'EI 120 (ve ho) S 1500 multi', duct, ['none', 120, 120], ['ve', 'ho', 'S', 'S1500', 'multi']),
  row('FR31', SMOKE, 'F400 120', { object: 'other' }, 'unreadable'),
  ...[
    { context: barrier, minutes: [null, 90, 90] as const },
    { context: { ...barrier, loadBearing: true }, minutes: [90, 90, 90] as const },
    { context: { ...barrier, loadBearing: false }, minutes: ['none', 90, 90] as const },
    { context: { ...barrier, loadBearing: true, separating: false }, minutes: [90, 'none', 'none'] as const },
    { context: { ...barrier, loadBearing: true, separating: true }, minutes: [90, 90, 90] as const },
  ].map(({ context, minutes }) => row('FR32', DIN, ['F90', 'F 90', 'F 90-A', 'F90-AB'], context, minutes)),
  row('FR33', DIN, 'F 30-B', { ...barrier, loadBearing: false }, ['none', 30, 30]),
  row('FR34', DIN, ['L90', 'L 90'], duct, ['none', 90, 90]),
  row('FR35', DIN, ['K90', 'K 90'], damper, ['none', 90, 90]),
  row('FR36', MEMORY, 'S 90', cable, ['none', 90, 90]),
  row('FR37', MEMORY, 'T 30', door, ['none', 30, 30]),
  row('FR38', MEMORY, 'R 90', pipeSeal, ['none', 90, 90]),
  row('FR39', MEMORY, 'E 30', cable, ['none', 'none', 'none'], ['P']),
  row('FR40', MEMORY, 'I 90', barrier, ['none', 90, 90]),
  row('FR41', MEMORY, 'G 30', barrier, ['none', 30, 'none']),
  row('FR42', MEMORY, ['60 min', '60 minutes', '60mins'], barrier, 60),
  row('FR43', COMPUTED, ['1/2 hour', '½ h', '1/2 HR'], barrier, 30),
  row('FR44', SAMPLES, ['1 HR', '1-HR', '1HR'], barrier, 60),
  row('FR44', 'IDS 1.0 documentation', '0HR', barrier, 0),
  row('FR44', 'IDS 1.0 documentation', '2HR', barrier, 120),
  row('FR45', SAMPLES, '2 hr', barrier, 120),
  row('FR46', COMPUTED, ['1 1/2 HR', '1-1/2 hr', '1½ hr', '1.5 hours'], barrier, 90),
  row('FR46', 'IFC property text FireResistanceRating', ['1.5 hours', '1½ hr'], damper, ['none', 90, 'none']),
  row('FR47', COMPUTED, '3/4 HR', barrier, 45),
  row('FR48', MEMORY, ['F 2 / T 1', 'F-2HR T-1HR'], pipeSeal, ['none', 120, 60]),
  row('FR49', 'city submittal, second-hand', 'F Rating 2 hr, T Rating 0 hr', pipeSeal, ['none', 120, 0]),
  row('FR50', SAMPLES, '20 minutes', barrier, 20),
  row('FR50', SAMPLES, '30 min', barrier, 30),
  row('FR51', SAMPLES, '30', barrier, 'unreadable'),
  row('FR52', 'IFC property text FireResistanceRating', '2', damperHours, ['none', 120, 'none']),
  row('FR53', COMPUTED, '60', damperHours, 'unreadable'),
  row('FR54', SAMPLES, 'FD30S', door, ['none', 30, 'none'], ['S']),
  row('FR55', MEMORY, 'CF 2h', barrier, ['none', 120, 120]),
  row('FR55', MEMORY, 'PF 1h', barrier, ['none', 60, 'none']),
  row('FR55', MEMORY, 'SF 1/2h', barrier, [30, 'none', 'none']),
  row('FR56', MEMORY, 'REI 150', barrier, [150, 150, 150]),
  row('FR57', COMPUTED, '60/60', barrier, 'unreadable'),
  row('FR58', MEMORY, 'RISF 60', barrier, 'unreadable'),
  row(
    'FR59',
    SAMPLES,
    ['FireRating', 'Fire Rating', '_FIRE-RATING_', '--FIRE_CODE--', '$', 'n/a', 'None', 'FOOBAR'],
    barrier,
    'unreadable',
  ),
  row('FR59', SAMPLES, '', barrier, 'unstated'),
  row('FR60', SAMPLES, '耐火等級レベル1', barrier, 'unreadable'),
];

const GOLDEN: readonly Row[] = [
  row('G05', SAMPLES, '耐火等級レベル1', barrier, 'unreadable'),
  row('G10', 'IFC property text FireResistanceRating', ['1.5 hours', '1.5'], damperHours, ['none', 90, 'none']),
  row('G10', 'IFC property text FireResistanceRating', '2', damperHours, ['none', 120, 'none']),
  row('G19', 'DIN EN 13501-2 summary, second-hand', 'R 120 / RE 60 / REI 30', barrier, [120, 60, 30]),
  row('G20', ORDER, '-/120/120', barrier, ['none', 120, 120]),
  row('G20', ORDER, '90/60/30', barrier, [90, 60, 30]),
  row('G20', EN, 'REI 120', barrier, [120, 120, 120]),
  row('G20', EN, 'EI 60', barrier, ['none', 60, 60]),
  row('G20', EN, 'E 30', barrier, ['none', 30, 'none']),
  row(
    'G21',
    DAMPER,
    ['EI 120 (ve ho i↔o) S', 'EI 120 (ve ho i<->o) S', 'EI 120 (ve ho i\u2194o) S'],
    damper,
    ['none', 120, 120],
    BOTH,
  ),
];

/** Section 9.1 of the sheet as it stands there; there null means "not stated", here `none`. */
const AS_DATA: readonly {
  readonly in: string;
  readonly R?: number | null;
  readonly E?: number | null;
  readonly I?: number | null;
  readonly object?: RatingContext['object'];
  readonly flags?: readonly string[];
  readonly duration?: number;
  readonly valid?: true;
  readonly ambiguous?: true;
  readonly unknown?: true;
}[] = [
  { in: '120/120/120', R: 120, E: 120, I: 120 },
  { in: '-/120/120', R: null, E: 120, I: 120 },
  { in: '\u2013/120/120', R: null, E: 120, I: 120 },
  { in: '\u2212/60/30', R: null, E: 60, I: 30 },
  { in: '90/60/30', R: 90, E: 60, I: 30 },
  { in: '-/-/-', R: null, E: null, I: null, valid: true },
  { in: 'REI60', R: 60, E: 60, I: 60 },
  { in: 'EI 30', R: null, E: 30, I: 30 },
  { in: 'R90', R: 90, E: null, I: null },
  { in: 'R 120 / RE 60 / REI 30', R: 120, E: 60, I: 30 },
  { in: 'EI 120 (ve ho i\u2194o) S', R: null, E: 120, I: 120, flags: ['ve', 'ho', 'i>o', 'o>i', 'S'] },
  { in: 'EI 60 / E 120', R: null, E: 120, I: 60 },
  { in: 'L 90', R: null, E: 90, I: 90, object: 'duct' },
  { in: 'K90', R: null, E: 90, I: 90, object: 'damper' },
  { in: 'FD30S', R: null, E: 30, I: null, flags: ['S'] },
  { in: '1/2 hour', duration: 30 },
  { in: '1-HR', duration: 60 },
  { in: '1 1/2 HR', duration: 90 },
  { in: '20 minutes', duration: 20 },
  { in: 'F 2 / T 1', R: null, E: 120, I: 60 },
  { in: '30', ambiguous: true },
  { in: '60/60', ambiguous: true },
  { in: 'F400 120', unknown: true },
  { in: '--FIRE_CODE--', unknown: true },
  { in: '', unknown: true },
];

function check({ texts, context, expected, flags = [] }: Row): void {
  for (const text of texts) {
    const unknown = { loadbearing: null, integrity: null, insulation: null, duration: null, flags: [] };
    const parsed = parseRating(text, context);
    if (expected === 'unreadable') expect(parsed).toEqual({ ...unknown, state: 'unreadable', text });
    else if (expected === 'unstated') expect(parsed).toEqual({ ...unknown, state: 'unstated', text: null });
    else if ('duration' in expected) {
      expect(parsed).toEqual({ ...unknown, state: 'durationOnly', text, duration: expected.duration });
    } else {
      const [loadbearing, integrity, insulation] = expected.minutes;
      expect(parsed).toMatchObject({ state: 'stated', text, loadbearing, integrity, insulation });
      expect([...parsed.flags]).toEqual([...flags]);
    }
  }
}

describe('the table of notations', () => {
  it('is here from FR01 to FR60', () => {
    const ids = Array.from({ length: 60 }, (_, index) => `FR${String(index + 1).padStart(2, '0')}`);
    expect([...new Set(TABLE.map(({ id }) => id))]).toEqual(ids);
  });
  it.each(TABLE)('$id $texts on $context ($source)', check);
});

describe('golden cases', () => {
  it.each(GOLDEN)('$id $texts ($source)', check);
});

describe('the same as data', () => {
  it.each(AS_DATA)('$in', (entry) => {
    // FD is a door's class and F/T a seal's; the data leaves both without an object.
    const parsed = parseRating(entry.in, { object: entry.object ?? 'other' });
    const minutes = (value: number | null | undefined) => (value === null ? 'none' : value);
    if (entry.ambiguous ?? entry.unknown) expect(['unreadable', 'unstated']).toContain(parsed.state);
    else if (entry.duration !== undefined) {
      expect(parsed).toMatchObject({ state: 'durationOnly', duration: entry.duration });
    } else {
      const [loadbearing, integrity, insulation] = [entry.R, entry.E, entry.I].map(minutes);
      expect(parsed).toMatchObject({ state: 'stated', loadbearing, integrity, insulation, flags: entry.flags ?? [] });
    }
  });
});

describe('comparison rules', () => {
  const wall = (text: string): ParsedRating => parseRating(text, barrier);
  const onDuct = (text: string): ParsedRating => parseRating(text, duct);
  const onDamper = (text: string): ParsedRating => parseRating(text, damper);

  it('asks for each criterion apart (computed)', () => {
    const comparison = compareRatingsInDetail(wall('-/120/120'), onDuct('120/120/60'));
    expect(comparison.outcome).toBe('missed');
    expect(comparison.criteria).toEqual([
      { criterion: 'integrity', required: 120, provided: 120, outcome: 'met' },
      { criterion: 'insulation', required: 120, provided: 60, outcome: 'missed' },
    ]);
  });
  it('has nothing against anything where nothing is asked (computed)', () => {
    expect(compareRatings(wall('-/60/-'), onDuct('E 60'))).toBe('met');
    expect(compareRatings(wall('-/-/-'), onDuct('TBC'))).toBe('met');
  });
  it('can not tell where a number is asked and none is known (computed)', () => {
    expect(compareRatings(wall('-/60/60'), onDuct('60 min'))).toBe('unknown');
  });
  it('asks a seal in a wall for integrity and insulation only (from memory)', () => {
    expect(compareRatings(wall('120/120/120'), parseRating('-/120/120', pipeSeal))).toBe('met');
  });
  it('does not ask a damper to carry load (from memory)', () => {
    expect(compareRatings(wall('REI 120'), onDamper('EI 120 (ve i↔o) S'))).toBe('met');
  });
  it('takes orientation and fire side as part of the class (from memory)', () => {
    const need = { flags: ['ho', 'i>o', 'o>i'] };
    const comparison = compareRatingsInDetail(wall('EI 90'), onDuct('EI 90 (ve i→o)'), undefined, need);
    expect(comparison.outcome).toBe('missed');
    expect(comparison.flags).toEqual([
      { flag: 'ho', outcome: 'missed' },
      { flag: 'i>o', outcome: 'met' },
      { flag: 'o>i', outcome: 'missed' },
    ]);
    expect(compareRatings(wall('EI 90'), onDuct('EI 90 (ho i↔o)'), undefined, need)).toBe('met');
    expect(compareRatings(wall('EI 90'), onDuct('EI 90 (ho i→o) S'), undefined, { flags: ['o>i'] })).toBe('missed');
  });
  it('does not take a 600 °C smoke duct for a fire-resisting one (EN 13501-4, from memory)', () => {
    const smokeDuct = onDuct('E600 120 (ho) S 500 single');
    expect(compareRatings(wall('-/60/-'), smokeDuct)).toBe('unknown');
    const { flags, ...plainRating } = smokeDuct;
    expect(flags).toContain('E600');
    expect(compareRatings(wall('-/60/-'), plainRating), 'flags are read again from the text').toBe('unknown');
  });
});
