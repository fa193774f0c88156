import { describe, expect, it } from 'vitest';
import { checkFields, document, EVIDENCE, rulesOf } from './factories.js';
import { GOOD, refusal } from './refusal.js';

const refusedCheck = (changes: { [key: string]: unknown }, set = {}): string =>
  refusal(document([checkFields(changes)], set)).message;

describe('what makes no sense together', () => {
  it.each([
    ['two kinds of limit', { equals: 10 }, 'only one kind of limit'],
    ['no limit', { atMost: undefined }, 'a measure needs a limit'],
    ['a limit and nothing to judge', { measure: undefined }, 'atLeast/atMost has nothing to judge; add "measure"'],
    ['contradictory limits', { atLeast: 11 }, 'nothing can be at least 11 and at most 10'],
    ['no message', { message: undefined }, '"message" is missing'],
    ['a text under a limit in numbers', { measure: 'barrier.kind' }, 'need a measure that is a number'],
    [
      'a number that should equal a text',
      { atMost: undefined, equals: 'ten' },
      'the limit is a string, but what is measured is a number',
    ],
    [
      'a value that never occurs',
      { atMost: undefined, measure: 'barrier.kind', among: ['wall', 'flor'] },
      'perhaps you meant "floor"',
    ],
    [
      'one of several values of another type',
      { atMost: undefined, among: [5, 'ten'] },
      'the limit is a string, but what is measured is a number',
    ],
    [
      'a table by size whose rows descend',
      { atMost: { bySize: [400, 300].map((longestSide) => ({ upTo: { longestSide }, value: 5 })) } },
      'rows must ascend',
    ],
    [
      'a limit in another unit',
      { unit: 'deg', atMost: { cel: 'duct.width' } },
      'this is in mm, but the unit of the check is deg',
    ],
    [
      'an expression of another type',
      { atMost: { cel: 'barrier.name' } },
      'the expression gives a text; a number is needed here',
    ],
    [
      'about fire without a limit',
      {
        measure: undefined,
        atMost: undefined,
        message: undefined,
        cantTellWhen: [{ reason: 'r', when: 'true', missing: ['a.b'], message: 'm' }],
      },
      'a check about fire needs "measure"',
    ],
    [
      'a reason twice',
      { cantTellWhen: ['true', 'false'].map((when) => ({ reason: 'r', when, missing: ['a.b'], message: 'm' })) },
      'reason "r" is used twice',
    ],
    [
      'a basis better than its document',
      { basis: { source: 's', status: 'tested' } },
      'basis "tested" in a document with status "unverified"; allowed: unverified, or system',
    ],
    [
      'an example that would be without being cantTell',
      { examples: [{ facts: {}, outcome: 'failed', wouldBe: 'passed' }] },
      'belong to outcome cantTell',
    ],
    [
      'an example of a reason that is none',
      { examples: [{ facts: {}, outcome: 'cantTell', reasons: ['x'] }] },
      'the check has no reason "x"',
    ],
    ['no example', { examples: [] }, '"examples"'],
  ])('%s', (_, changes, message) => {
    expect(refusedCheck(changes)).toContain(message);
  });

  it.each([
    ['a limit of its own', {}, 'needs a fact of the system, just as it is'],
    ['arithmetic on a limit of the system', { atMost: { cel: 'system.skewAtMost + 10.0' } }, 'just as it is'],
    [
      'one limit of the system and one of its own',
      { atLeast: 0, atMost: { cel: 'system.skewAtMost' } },
      'just as it is',
    ],
    ['no limit at all of the system', { measure: 'system.id', atMost: undefined, equals: 'a' }, 'just as it is'],
    [
      'no chosen system',
      { each: 'barrier', measure: 'barrier.thickness' },
      'there is no chosen system for each: barrier',
    ],
    ['a check about the model', { about: 'model', atMost: { cel: 'system.skewAtMost' } }, 'is for checks about fire'],
  ])('basis "system" proves no more than the system says: %s', (_, changes, message) => {
    expect(refusedCheck({ basis: { source: 'a test', status: 'system' }, ...changes })).toContain(message);
  });

  it('basis "system" goes with a limit of the system', () => {
    const rules = rulesOf({ basis: { source: 'a test', status: 'system' }, atMost: { cel: 'system.skewAtMost' } });
    expect(rules.checks[0]?.proof).toBe('system');
  });

  it('tested needs its evidence, and nothing else may bring any', () => {
    expect(refusal(document([checkFields()], { status: 'tested' })).message).toContain(
      'needs evidence: report, laboratory',
    );
    expect(refusal(document([checkFields()], { evidence: EVIDENCE })).message).toContain('belongs to status "tested"');
    const undated = { ...EVIDENCE, date: 'last year' };
    expect(refusal(document([checkFields()], { status: 'tested', evidence: undated })).message).toContain('"date"');
    expect(rulesOf({}, { status: 'tested', evidence: EVIDENCE }).documents[0]?.status).toBe('tested');
  });

  it('ids are used once, within and across documents', () => {
    expect(refusal(document([checkFields(), checkFields()])).message).toBe(
      'check id "skew" is used twice in this document',
    );
    const other = refusal(document([checkFields()]), document([checkFields()], { id: 'other' }));
    expect([other.file, other.message]).toEqual(['doc-2.yaml', 'check id "skew" is already used by doc-1.yaml']);
    const same = refusal(document([checkFields()]), document([checkFields({ id: 'other' })]));
    expect(same.message).toBe('document id "test-set" is already used by doc-1.yaml');
    expect([same.line, same.column]).toEqual([2, 5]);
  });

  it('a long line of CEL is found in a folded text, if only at its start', () => {
    const text = GOOD.replace(
      'where: barrier.rated',
      'where: >-\n      barrier.rated &&\n      barrier.thicknes > 1.0',
    );
    expect(refusal(text).line).toBe(11);
    expect(refusal(text).message).toContain('perhaps you meant "barrier.thickness"');
  });
});
