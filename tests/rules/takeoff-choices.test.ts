import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { loadBrief, RuleDocumentError, ruleJsonSchemas } from '../../src/rules/index.js';
import { shippedRules } from './rule-cases.js';

const GOOD = `kind: project-brief
id: a-project
version: "1"
choices:
  takeoff:
    kerf: 3
    currency: EUR
    stocks:
      - { of: angle, length: 6000 }
      - { of: boardCollar, length: 2500, width: 1200 }
    prices:
      - { of: blanket, per: roll, price: 180 }
      - { of: pin, testedSystem: demonstration-blanket, per: piece, price: 0.12 }
    rates:
      - { of: blanket, per: m2, hours: 0.4, pricePerHour: 65 }
`;

const load = (text: string) => loadBrief({ file: 'brief.yaml', text }, shippedRules).choices.takeoff;

const refused = (from: string, to: string): string => {
  expect(GOOD).toContain(from);
  try {
    load(GOOD.replace(from, to));
  } catch (cause) {
    if (cause instanceof RuleDocumentError) return `${cause.line}:${cause.column} ${cause.message}`;
    throw cause;
  }
  throw new Error('the brief was not refused');
};

describe('what a brief says of the take-off', () => {
  it('is kept as it stands, and nothing is there that nobody said', () => {
    expect(load(GOOD)).toEqual({
      kerf: 3,
      currency: 'EUR',
      stocks: [
        { of: 'angle', length: 6000 },
        { of: 'boardCollar', length: 2500, width: 1200 },
      ],
      prices: [
        { of: 'blanket', per: 'roll', price: 180 },
        { of: 'pin', testedSystem: 'demonstration-blanket', per: 'piece', price: 0.12 },
      ],
      rates: [{ of: 'blanket', per: 'm2', hours: 0.4, pricePerHour: 65 }],
    });
    expect(load(GOOD.slice(0, GOOD.indexOf('  takeoff')).replace('choices:\n', ''))).toBeUndefined();
    expect(load(`${GOOD.slice(0, GOOD.indexOf('    kerf'))}    prices:\n`)).toEqual({
      stocks: [],
      prices: [],
      rates: [],
    });
  });

  it.each([
    ['a price without a currency', '    currency: EUR\n', '', '11:42 a price needs a currency; add "currency"'],
    [
      'a currency in words',
      'currency: EUR',
      'currency: euro',
      '7:15 "currency": must be a currency by its three capital',
    ],
    ['a price of nothing', '{ of: blanket, per: roll', '{ per: roll', '12:9 an entry is of one thing'],
    [
      'a price of two things',
      '{ of: blanket, per: roll',
      '{ of: blanket, material: m, per: roll',
      '12:9 an entry is of one thing: give either "of" or "material", not both',
    ],
    ['an unknown material', 'of: pin', 'of: pins', '13:15 "of": expected one of'],
    ['an unknown unit', 'per: roll', 'per: rolls', '12:29 "per": expected one of'],
    ['hours by the roll', 'per: m2', 'per: roll', '15:29 "per": expected one of'],
    ['a negative price', 'price: 180', 'price: -1', '12:42 "price":'],
    [
      'a tested system that no document holds',
      'testedSystem: demonstration-blanket',
      'testedSystem: demonstration-blankets',
      '13:34 no rule document holds a tested system "demonstration-blankets"; perhaps you meant',
    ],
    [
      'a price that never counts',
      '{ of: pin, testedSystem: demonstration-blanket, per: piece, price: 0.12 }',
      '{ of: blanket, per: roll, price: 170 }',
      '13:9 "blanket" per roll is listed twice in prices; the second never counts',
    ],
    [
      'a stock twice',
      'of: boardCollar, length: 2500, width: 1200',
      'of: angle, length: 3000',
      '10:15 "angle" is listed twice',
    ],
    [
      'a sheet without a width',
      ', width: 1200',
      '',
      '10:9 "width" is missing; boardCollar is cut from rolls or sheets',
    ],
    ['a bar with a width', 'length: 6000', 'length: 6000, width: 40', '9:36 angle is cut by its length'],
    ['a stock of no length', 'length: 6000', 'length: 0', '9:30 "length":'],
    ['a misspelt key', 'kerf: 3', 'kerff: 3', '6:5 unknown key "kerff"; perhaps you meant "kerf"'],
  ])('is refused for %s', (_, from, to, message) => {
    expect(refused(from, to)).toContain(message);
  });

  it('needs a currency for hours that cost something, and none for hours', () => {
    const hours = GOOD.replace('    currency: EUR\n', '').replace(/ {4}prices:\n( {6}.*\n){2}/, '');
    expect(() => load(hours)).toThrow('a price needs a currency');
    expect(load(hours.replace(', pricePerHour: 65', ''))!.rates).toEqual([{ of: 'blanket', per: 'm2', hours: 0.4 }]);
  });

  it('is told from what is wrong by the JSON Schema too (ajv)', () => {
    const validate = new Ajv2020({ formats: { date: true, 'date-time': true }, allowUnionTypes: true }).compile(
      ruleJsonSchemas()['project-brief']!,
    );
    expect(validate(parse(GOOD)), JSON.stringify(validate.errors)).toBe(true);
    expect(validate(parse(GOOD.replace('kerf', 'kerff')))).toBe(false);
    expect(validate(parse(GOOD.replace('per: roll', 'per: rolls')))).toBe(false);
  });
});
