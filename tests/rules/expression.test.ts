import { describe, expect, it } from 'vitest';
import { compile } from '../../src/rules/expression.js';
import { ExpressionError } from '../../src/rules/expression-sense.js';
import type { Each, FactObject } from '../../src/rules/fact-schema.js';

const EMPTY: FactObject = { barrier: {}, penetration: {}, duct: {}, model: {} };
const evaluate = (text: string, facts: FactObject = {}, each: Each = 'penetration') =>
  compile(text, each).evaluate({ ...EMPTY, ...facts });
const known = (value: number | string | boolean) => ({ known: true, value });
const missing = (...names: string[]) => ({ known: false, missing: names, problem: null });

describe('facts that are missing', () => {
  it.each([
    ['barrier.thickness > 100', 'barrier.thickness'],
    ['barrier["thickness"] > 100', 'barrier.thickness'],
    ['penetration.damper.purpose == "fire"', 'penetration.damper'],
    ['!penetration.opening.present', 'penetration.opening'],
    ['barrier.kind == "wall" ? 1 : 2', 'barrier.kind'],
    ['penetration.skew - 1.0', 'penetration.skew'],
    ['size(penetration.others)', 'penetration.others'],
    // Worked out from the rating, so the rating is what is missing.
    ['barrier.rated', 'barrier.rating'],
  ])('%s names %s', (text, name) => {
    expect(evaluate(text)).toEqual(missing(name));
  });

  it('names the field where only that is missing', () => {
    expect(evaluate('barrier.rating.integrity >= 60', { barrier: { rating: { state: 'stated' } } })).toEqual(
      missing('barrier.rating.integrity'),
    );
  });

  it('takes undefined for missing, never for a value', () => {
    expect(evaluate('barrier.thickness', { barrier: { thickness: undefined } })).toEqual(missing('barrier.thickness'));
  });

  // CEL language definition, "Logical operators": && and || absorb an error when the other side decides, on either side.
  it.each([
    ['barrier.rated && barrier.thickness > 100', known(false)],
    ['barrier.thickness > 100 && barrier.rated', known(false)],
    ['barrier.rated || barrier.thickness < 100', known(true)],
    ['barrier.thickness < 100 || barrier.rated', known(true)],
    ['barrier.rated && barrier.thickness < 100', missing('barrier.rating')],
    ['barrier.thickness > 100 || barrier.rated', missing('barrier.rating')],
    ['barrier.rated || !barrier.rated', missing('barrier.rating')],
  ])('%s', (text, expected) => {
    expect(evaluate(text, { barrier: { thickness: 90 } })).toEqual(expected);
  });

  it('has() tells a missing fact from a false one', () => {
    expect(evaluate('has(barrier.rated)')).toEqual(known(false));
    expect(evaluate('has(barrier.rated)', { barrier: { rated: false } })).toEqual(known(true));
    expect(evaluate('has(barrier.rating.text)')).toEqual(missing('barrier.rating'));
  });
});

describe('numbers', () => {
  const facts = { barrier: { thickness: 100 }, penetration: { skew: 0.3 } };

  it.each([
    ['barrier.thickness > 99', true],
    ['barrier.thickness >= 100', true],
    ['barrier.thickness == 100', true],
    ['100 == barrier.thickness', true],
    ['barrier.thickness != 100', false],
    ['barrier.thickness == 100.0', true],
    ['barrier.thickness in [90.0, 100.0]', true],
    ['barrier.thickness + 1', 101],
    ['1 + barrier.thickness', 101],
    ['barrier.thickness - 1', 99],
    ['250 - barrier.thickness', 150],
    ['barrier.thickness * 2', 200],
    ['barrier.thickness / 8', 12.5],
    ['5 / barrier.thickness', 0.05],
    ['-barrier.thickness', -100],
  ])('a fact and a whole number: %s is %s', (text, value) => {
    expect(evaluate(text, facts)).toEqual(known(value));
  });

  it('gives a plain number for a whole one, not a BigInt', () => {
    expect(evaluate('size("four")')).toEqual(known(4));
  });

  it('keeps binary noise away from limits', () => {
    expect(0.1 + 0.2).not.toBe(0.3);
    expect(evaluate('0.1 + 0.2')).toEqual(known(0.3));
  });

  it.each(['barrier.thickness / 0', '0.0 / 0.0', '1.0 / (barrier.thickness - 100.0)'])(
    '%s is not known, and no fact is missing',
    (text) => {
      expect(evaluate(text, facts)).toMatchObject({ known: false, missing: [], problem: expect.any(String) });
    },
  );

  it('an index past the end is not known either', () => {
    expect(evaluate('penetration.others[3]', { penetration: { others: ['pipe'] } })).toMatchObject({ known: false });
  });
});

describe('lists', () => {
  it('are gone through once', () => {
    const facts = { penetration: { others: ['pipe', 'cable'] } };
    expect(evaluate('penetration.others.exists(kind, kind == "pipe")', facts)).toEqual(known(true));
    expect(evaluate('penetration.others.all(kind, kind == "pipe")', facts)).toEqual(known(false));
    expect(evaluate('size(penetration.others) > 1', facts)).toEqual(known(true));
  });
});

describe('refused when loaded', () => {
  const refusal = (text: string, each: Each = 'penetration'): ExpressionError => {
    try {
      compile(text, each);
    } catch (cause) {
      if (cause instanceof ExpressionError) return cause;
      throw cause;
    }
    throw new Error(`"${text}" was not refused`);
  };

  it.each([
    ['barier.rated', 0, 'there is no fact "barier" for each: penetration; perhaps you meant "barrier"'],
    [
      '1 > 0 && barrier.raited',
      17,
      'there is no fact "barrier.raited" for each: penetration; perhaps you meant "barrier.rated"',
    ],
    [
      'has(barrier.ratd)',
      4,
      'has() needs the name of a fact; "barrier.ratd" is none; perhaps you meant "barrier.rated"',
    ],
    ['has(barrier)', 4, 'has() needs the name of a fact; "barrier" is none'],
    [
      'barrier.kind == "wal"',
      16,
      'barrier.kind is never "wal"; perhaps you meant "wall"; it is one of wall, floor, roof',
    ],
    ['barrier.kind in ["wall", "flor"]', 25, 'barrier.kind is never "flor"; perhaps you meant "floor"'],
    [
      'gap.value',
      0,
      'there is no fact "gap" for each: penetration; known: barrier, penetration, duct, brief, system, model',
    ],
    ['barrier', 0, 'the expression gives a group of facts, not a number, text, true or false'],
    ['barrier.thickness < "a"', 0, 'no such overload: double < string'],
    ['barrier.thickness in [1, 2]', 0, 'write 10.0 for 10'],
    ['1 +', 3, 'Unexpected token: EOF'],
    ['barrier.kind.matches("(a+)+$")', 0, 'function "matches" may not be used'],
    ['dyn(barrier).anything', 0, 'function "dyn" may not be used'],
    ['cel.bind(a, "xx", a + a)', 0, 'function "bind" may not be used'],
    ['penetration.others.map(a, a)', 0, 'function "map" may not be used'],
    // CEL language definition: int / int drops the remainder, double / 0.0 is infinity, 0.0 / 0.0 is NaN, which is
    // less than nothing and more than nothing: all of them would decide a limit without anybody seeing it.
    ['barrier.thickness * (1 / 2)', 21, 'whole numbers lose their remainder when divided: write 1.0 / 2.0'],
    ['size(penetration.others) / 2', 0, 'whole numbers lose their remainder'],
    ['duct.width / duct.height > 4.0', 13, 'multiply the other side instead'],
    ['!(0.0 / 0.0 >= 1.0)', 8, 'multiply the other side instead'],
  ])('%s', (text, offset, message) => {
    const error = refusal(text);
    expect(error.message).toContain(message);
    expect(error.offset).toBe(offset);
  });

  it('a loop in a loop, however it is hidden', () => {
    const inner = 'penetration.others.exists(b, b == a)';
    expect(refusal(`penetration.others.all(a, true || !(${inner}))`).message).toContain('inside a loop');
    expect(refusal(`penetration.others.filter(a, ${inner}).size()`).message).toContain('inside a loop');
  });

  it('more than an expression may hold', () => {
    expect(refusal(Array(300).fill('1').join(' + ')).message).toContain('too large');
    expect(refusal(`${'('.repeat(60)}1${')'.repeat(60)}`).message).toContain('too large');
    expect(refusal(`[${Array(80).fill('1').join(',')}].size()`).message).toContain('too large');
  });

  it('another type than is needed', () => {
    expect(() => compile('barrier.thickness', 'penetration', 'yesNo')).toThrow(
      'the expression gives a number; true or false is needed here',
    );
  });
});
