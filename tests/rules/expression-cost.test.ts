import { describe, expect, it } from 'vitest';
import { evaluateCheck } from '../../src/rules/evaluate.js';
import { compile } from '../../src/rules/expression.js';
import { MAX_STEPS } from '../../src/rules/expression-cost.js';
import { rulesOf } from './factories.js';

const refusal = (text: string) => expect(() => compile(text, 'penetration'));
const others = (count: number) => Array.from({ length: count }, (_, i) => `pipe ${i}`);

describe('what costs too much is refused when it is loaded, where that can be told', () => {
  it.each([
    ['penetration.others.all(a, a in penetration.others)', 'no other list of facts may be read'],
    ['penetration.others.all(a, penetration.others == penetration.others)', 'no other list of facts may be read'],
    ['penetration.others.all(a, size(penetration.others) > 1)', 'no other list of facts may be read'],
    ['size(penetration.others + penetration.others) > 1', 'lists of facts are not joined'],
    ['size(penetration.others.filter(a, true) + ["x"]) > 1', 'lists of facts are not joined'],
    ['size((barrier.rated ? penetration.others : ["x"]) + ["x"]) > 1', 'lists of facts are not joined'],
    ['barrier.name.contains(duct.name)', 'looks for a text that is written down, such as "shaft"'],
    ['penetration.others.exists(a, a.startsWith(barrier.name))', 'looks for a text that is written down'],
    ['penetration.others.all(barrier, barrier == "x")', '"barrier" is the name of facts; call it otherwise'],
    ['penetration.others.exists(a, penetration.others.exists(b, a == b))', 'inside a loop'],
    ['barrier.name.matches("(a+)+$")', 'may not be used'],
  ])('%s', (text, message) => {
    refusal(text).toThrow(message);
  });
});

describe('and where only the model can tell, nothing is known', () => {
  const text = 'penetration.others.filter(a, a.contains("duct")).exists(b, b.endsWith("7"))';
  const evaluate = (count: number) => compile(text, 'penetration').evaluate({ penetration: { others: others(count) } });

  it('within the limit the answer is the same as ever', () => {
    expect(evaluate(1000)).toEqual({ known: true, value: false });
  });

  it('beyond it there is a problem, and no missing fact', () => {
    const size = others(100_000).reduce((sum, one) => sum + 1 + one.length, 0);
    expect(size * text.length).toBeGreaterThan(MAX_STEPS);
    const { cpuUsage } = process;
    const before = cpuUsage();
    expect(evaluate(100_000)).toEqual({
      known: false,
      missing: [],
      problem: expect.stringContaining(`more than ${MAX_STEPS} steps`),
    });
    expect(cpuUsage(before).user / 1000).toBeLessThan(1000);
  });

  it('a long name costs as a long list does', () => {
    const ends = compile('barrier.name.endsWith("x")', 'penetration');
    expect(ends.evaluate({ barrier: { name: 'x'.repeat(100_000) } })).toEqual({ known: true, value: true });
    expect(ends.evaluate({ barrier: { name: 'x'.repeat(1_000_000) } })).toMatchObject({ known: false, missing: [] });
  });

  it('so a check never passes by it', () => {
    const check = rulesOf(
      { where: 'penetration.others.all(a, a.startsWith("pipe"))', basis: { source: 's', status: 'demonstration' } },
      { status: 'demonstration' },
    ).checks[0]!;
    const judged = (count: number) =>
      evaluateCheck(check, { penetration: { others: others(count), skew: 1 } }, { demonstration: true });
    expect(judged(10)).toMatchObject([{ outcome: 'passed' }]);
    expect(judged(1_000_000)).toMatchObject([{ outcome: 'cantTell', wouldBe: null }]);
  });
});

describe('units', () => {
  it.each([
    ['penetration.skew > barrier.thickness', 'deg and mm do not go together'],
    ['barrier.thickness + penetration.skew', 'mm and deg do not go together'],
    ['barrier.rated ? barrier.thickness : penetration.skew', 'mm and deg do not go together'],
    ['penetration.skew in [1.0, barrier.thickness]', 'deg and mm do not go together'],
  ])('%s', (text, message) => {
    refusal(text).toThrow(message);
  });

  it.each([
    ['barrier.thickness', 'mm'],
    ['2 * barrier.thickness - 10', 'mm'],
    ['barrier.thickness / 2', 'mm'],
    ['duct.width * duct.height', undefined],
    ['duct.width * 1.0 > duct.height ? duct.width : 0.0', 'mm'],
    ['-penetration.skew', 'deg'],
    ['size(penetration.others)', undefined],
  ])('%s is in %s', (text, unit) => {
    expect(compile(text, 'penetration').unit).toBe(unit);
  });

  it('of a deep expression are found as quickly as of a flat one', () => {
    const deep = `${'('.repeat(20)}barrier.thickness${' + 1.0)'.repeat(20)}`;
    expect(compile(deep, 'penetration').unit).toBe('mm');
  });
});
