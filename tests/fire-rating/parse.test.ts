import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseRating } from '../../src/fire-rating/parse.js';
import { FLAGS, type RatingContext } from '../../src/fire-rating/types.js';
import { HOSTILE } from './hostile-texts.js';

const OBJECTS = ['barrier', 'duct', 'damper', 'door', 'pipeSeal', 'cable', 'other'] as const;
const CONTEXTS: readonly RatingContext[] = [
  ...OBJECTS.map((object) => ({ object })),
  { object: 'damper', unit: 'hours' },
  { object: 'barrier', loadBearing: true },
  { object: 'barrier', loadBearing: false, separating: false },
];
const barrier: RatingContext = { object: 'barrier' };
const short = (text: string | null | undefined, context: RatingContext = barrier) => {
  const { state, loadbearing, integrity, insulation, duration, flags } = parseRating(text, context);
  if (state === 'durationOnly') return duration;
  return state === 'stated' ? [loadbearing, integrity, insulation, ...flags] : state;
};

describe('states', () => {
  it('calls nothing, and blanks, unstated', () => {
    for (const text of [null, undefined, '', '  ', '\u00a0\t\n\ufeff']) {
      expect(parseRating(text, barrier)).toMatchObject({ state: 'unstated', text: null });
    }
  });
  it('keeps the text as it stands', () => {
    expect(parseRating(' rei\u00a060 ', barrier).text).toBe(' rei\u00a060 ');
    expect(parseRating('TBC', barrier).text).toBe('TBC');
  });
  it('never decides that nothing is required', () => {
    for (const text of ['not required', 'none', 'NR', 'N/A', '-', '0', 'unrated', 'no rating']) {
      for (const context of CONTEXTS) expect(parseRating(text, context).state).toBe('unreadable');
    }
  });
});

describe('one text, many spellings (common practice, no source)', () => {
  it.each([
    ['ei 60', ['none', 60, 60]],
    ['ＥＩ　６０', ['none', 60, 60]],
    ['EI\u202f60', ['none', 60, 60]],
    ['\u2014 / 60 / 60', ['none', 60, 60]],
    ['FRR -/60/60', ['none', 60, 60]],
    ['FRL: -/60/60', ['none', 60, 60]],
    ['FRL - 60/60/60', [60, 60, 60]],
    ['FRL-60/60/60', [60, 60, 60]],
    ['-/60/60 min', ['none', 60, 60]],
    ['120/60/0', [120, 60, 0]],
    ['Fire rating: 60 min', 60],
    ['Fire Rating - 60 min.', 60],
    ['FR 60 min', 60],
    ['FR 1hr', 60],
    ['Fire resistance rating = 2 hr.', 120],
    ['2 hr fire rated', 120],
    ['1 HR FIRE-RATED', 60],
    ['2-hour rated', 120],
    ['2 HR FRR', 120],
    ['Feuerwiderstandsklasse REI 90', [90, 90, 90]],
    ['Feuerwiderstand 90 Minuten', 90],
    ['1,5 h', 90],
    ['1 hr 30 min', 90],
    ['1h30', 90],
    ['CF 1h30', ['none', 90, 90]],
    ['CF 2h / PF 1h / SF 1/2h', 'unreadable'], // CF includes PF: the middle part says nothing or contradicts
    ['SF 2h, CF 1h', [120, 60, 60]],
    ['1 ¾ hr', 105],
    ['1-½ HR', 90],
    ['2/3 hr', 40],
    ['1⁄2 hr', 30],
    ['EI 60 min', ['none', 60, 60]],
    ['EI₂ 30-C5', ['none', 30, 30, 'EI2', 'C', 'C5']],
    ['EI2 30-SaC5', 'unreadable'],
    ['EI2 30 Sa C5', ['none', 30, 30, 'EI2', 'Sa', 'C', 'C5']],
    ['EI2 30-C S200', ['none', 30, 30, 'EI2', 'S200', 'C']],
    ['REI 60-M', [60, 60, 60, 'M']],
    ['EI 90-U/C', ['none', 90, 90, 'U/C']],
    ['EI 30-C / E 60-C', ['none', 60, 30, 'C']],
    ['EI 90 ve ho i<->o S', ['none', 90, 90, 've', 'ho', 'i>o', 'o>i', 'S']],
    ['EI 90 (ho, ve, o<->i) S', ['none', 90, 90, 've', 'ho', 'i>o', 'o>i', 'S']],
    ['EI 90 (ve-ho, i --> o)', ['none', 90, 90, 've', 'ho', 'i>o']],
    ['EI 90 (o ← i)', ['none', 90, 90, 'i>o']],
    ['EI 90 (i<-o)', ['none', 90, 90, 'o>i']],
    ['EI 30 / EW 60', ['none', 60, 30, 'W']],
    ['T 1 hr, F 2 hr', ['none', 120, 60]],
    ['F-Rating: 2 HR; T-Rating: 1/4 HR', ['none', 120, 15]],
    ['0 min', 0],
    ['360 min', 360],
  ] as const)('%s', (text, expected) => {
    expect(short(text)).toEqual(expected);
  });

  it('lets the object decide where letters mean two things (DIN 4102 and EN, from memory)', () => {
    const on = (text: string) =>
      Object.fromEntries(
        OBJECTS.map((object) => [object, short(text, { object })]).filter(([, v]) => v !== 'unreadable'),
      );
    const both = ['none', 90, 90];
    expect(on('R 90')).toEqual({ barrier: [90, 'none', 'none'], other: [90, 'none', 'none'], pipeSeal: both });
    expect(on('L 90')).toEqual({ duct: both, other: both });
    expect(on('K 90')).toEqual({ damper: both, other: both });
    expect(on('T 90')).toEqual({ door: both, other: both });
    expect(on('S 90')).toEqual({ cable: both, other: both });
    expect(on('I 90')).toEqual({ barrier: both, cable: both, other: both });
    expect(on('F 90')).toEqual({ barrier: [null, 90, 90], other: 90 });
    expect(on('FD60')).toEqual({ door: ['none', 60, 'none'], other: ['none', 60, 'none'] });
    const integrity = ['none', 90, 'none'];
    expect(on('E 90')).toEqual({
      ...Object.fromEntries(OBJECTS.map((object) => [object, integrity])),
      cable: ['none', 'none', 'none', 'P'],
    });
  });
  it('gives a damper with one number integrity alone, and keeps the number', () => {
    expect(parseRating('90 min', { object: 'damper' })).toMatchObject({
      state: 'stated',
      loadbearing: 'none',
      integrity: 90,
      insulation: 'none',
      duration: 90,
    });
  });
  it('does not believe F 90 of an element that neither carries nor closes off', () => {
    expect(short('F 90', { object: 'barrier', loadBearing: false, separating: false })).toBe('unreadable');
  });
  it('reads a bare number as hours only where the property says hours, and only if it can be', () => {
    const hours: RatingContext = { object: 'damper', unit: 'hours' };
    const e = (minutes: number) => ['none', minutes, 'none'];
    const texts = ['1', '1.5', '1 1/2', '½', '3', '90 min', '1.5 hours', '-/90/-', '0 HR'];
    expect(texts.map((text) => short(text, hours))).toEqual([60, 90, 90, 30, 180, 90, 90, 90, 0].map(e));
    for (const text of ['0', '0.0', '7', '60', '90', '1.52', '1-2', '2/1'])
      expect(short(text, hours)).toBe('unreadable');
  });
});

describe('texts that give no number', () => {
  it('are many and different', () => {
    expect(HOSTILE.length).toBeGreaterThan(40);
    expect(new Set(HOSTILE).size).toBe(HOSTILE.length);
  });
  it.each(HOSTILE)('%j', (text) => {
    for (const context of CONTEXTS.filter(({ unit }) => unit === undefined)) {
      expect(parseRating(text, context), context.object).toEqual({
        state: 'unreadable',
        text,
        loadbearing: null,
        integrity: null,
        insulation: null,
        duration: null,
        flags: [],
      });
    }
  });
});

describe('any text', () => {
  const context = fc.constantFrom(...CONTEXTS);
  const among = (list: string) => fc.constantFrom(...list.split(' | '));
  const letters = among(
    'EI | E | R | REI | RE | EW | ES | EI2 | E600 | F | T | L | K | S | C | M | FD | CF | PF | SF | I | U',
  );
  const words = among(
    'FRL | FRR | FR | FIRE | RATING | RATED | ve | ho | single | multi | (ve ho i↔o) | i->o | S | -C',
  );
  const units = among('min | min. | minutes | hr | h | hours | std');
  const numbers = among('0 | 1 | 2 | 15 | 30 | 60 | 90 | 120 | 500 | 600 | 1.5 | 1/2 | ½ | 1½ | 1-1/2');
  const signs = among('- | – | / | ( | ) | : | , | ; | + | =');
  const vocabulary = fc.oneof(letters, words, units, numbers, signs);
  const doubt = among(
    'TBC | tbd | ? | assumed | approx | approx. | to be confirmed | or | oder | ca. | ~ | see drawing | minimum | maybe | ' +
      'provisional | up to | at least | unknown | ≥ | * | typ. | nominal | not | no | N/A | except',
  );
  const readable = among(
    'EI 60 | REI 120 | R 120 / RE 60 / REI 30 | EI 120 (ve ho i↔o) S | -/60/60 | FRL 240/240/240 | 60 min | 1 1/2 HR | ' +
      'F 2 / T 1 | CF 2h | EI2 30-C | Fire rating: 60 min',
  );
  const space = fc.constantFrom('', ' ', ' ');
  const seed = { seed: 20260825, numRuns: 5000 };

  it('never throws, and gives only times and flags that exist', () => {
    const nearlyRight = fc.tuple(letters, space, numbers, space, fc.oneof(words, units, signs, fc.constant('')));
    const texts = fc.oneof(
      fc.string({ unit: 'binary', maxLength: 40 }),
      fc.string({ unit: fc.constantFrom(...'EIRFTSCMWLK0123456789/-–½.,() :minhrveo↔<>→\u00a0'), maxLength: 16 }),
      fc.array(fc.tuple(vocabulary, space), { maxLength: 8 }).map((parts) => parts.flat().join('')),
      nearlyRight.map((parts) => parts.join('')),
    );
    let read = 0;
    fc.assert(
      fc.property(texts, context, (text, where) => {
        const parsed = parseRating(text, where);
        const times = [parsed.loadbearing, parsed.integrity, parsed.insulation, parsed.duration];
        for (const time of times.filter((value) => typeof value === 'number')) {
          expect(time === 0 || (Number.isInteger(time) && time >= 10 && time <= 360)).toBe(true);
        }
        expect(FLAGS.filter((flag) => parsed.flags.includes(flag))).toEqual(parsed.flags);
        expect(parsed.state).not.toBe('notRequired');
        const known = parsed.state === 'stated' || parsed.state === 'durationOnly';
        if (!known) expect([...times, ...parsed.flags]).toEqual([null, null, null, null]);
        if (known) read += 1;
      }),
      seed,
    );
    expect(read, 'some of the mixtures must be readable, or nothing was tried').toBeGreaterThan(100);
  });
  it('is never readable with a word of doubt in it', () => {
    const pieces = fc.array(fc.oneof(vocabulary, readable), { maxLength: 6 });
    fc.assert(
      fc.property(pieces, doubt, pieces, space, context, (before, word, after, gap, where) => {
        expect(parseRating([...before, word, ...after].join(gap), where).state).toBe('unreadable');
      }),
      seed,
    );
  });
  it('is never readable when a readable text gets something more before or behind it', () => {
    const more = fc.oneof(fc.constantFrom('X', '60', '?', '_', '.', '(', ')', '!', '"', 'wall', '%', '90 min'), doubt);
    fc.assert(
      fc.property(readable, more, fc.boolean(), context, (text, extra, behind, where) => {
        expect(parseRating(behind ? `${text} ${extra}` : `${extra} ${text}`, where).state).toBe('unreadable');
      }),
      seed,
    );
  });
  it('does not change with case or with more space', () => {
    fc.assert(
      fc.property(readable, context, (text, where) => {
        const { text: _, ...values } = parseRating(text, where);
        for (const other of [text.toLowerCase(), text.toUpperCase(), ` ${text.replaceAll(' ', '\u00a0 ')}\t`]) {
          expect(parseRating(other, where)).toEqual({ ...values, text: other });
        }
      }),
      seed,
    );
  });
  it('reads a very long text quickly', () => {
    // Processor time: what else the machine does is not in it.
    const began = process.cpuUsage();
    for (const piece of ['EI 60 / ', '1/2', '-', '((', 'R', '9', ' ', '<-']) {
      const parsed = parseRating(piece.repeat(20_000), barrier);
      expect(['unreadable', 'unstated']).toContain(parsed.state);
    }
    expect(process.cpuUsage(began).user / 1e6).toBeLessThan(5);
  });
});
