import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { loadBrief, loadRules, ruleJsonSchemas, runExamples } from '../../src/rules/index.js';
import { refusal } from './refusal.js';
import { shippedDocuments, shippedRules } from './rule-cases.js';

const GOOD = `kind: tested-damper
id: a-damper
name: A damper
version: "1"
status: unverified
source: a test
words: [TX]
scope:
  purposes: [fire]
  sizes:
    rectangular: { width: { atLeast: 100, atMost: 1000 }, height: { atLeast: 100, atMost: 600 } }
  barriers:
    - { kinds: [wall], construction: masonry, thicknessAtLeast: 100, integrity: 120, insulation: 0 }
  offsetAtMost: 20
  separationAtLeast: { bySize: [{ upTo: { longestSide: 600 }, value: 100 }, { upTo: { longestSide: 1000 }, value: 200 }] }
  constructionAtLeast: 50
  fireSides: both
  skewAtMost: 0
  gap: { atLeast: 10, atMost: 40, sealing: packed }
examples:
  - facts:
      penetration:
        treatment: { kind: damper }
        damper: { name: FD TX 1, shape: rectangular, width: 700, height: 300 }
    gives: { applied: true, separationAtLeast: 200 }
    unknown: [constructionAllowed]
`;

describe('a tested damper', () => {
  it('loads, and its examples run', () => {
    const rules = loadRules([{ file: 'damper.yaml', text: GOOD }]);
    expect(rules.dampers.map(({ id, file }) => [id, file])).toEqual([['a-damper', 'damper.yaml']]);
    expect(runExamples(rules)).toMatchObject([{ file: 'damper.yaml', check: 'a-damper', example: 1, ok: true }]);
  });

  it('is for the dampers that its words are found in, and for no others', () => {
    const [result] = runExamples(loadRules([{ file: 'damper.yaml', text: GOOD.replace('FD TX 1', 'FD 1') }]));
    expect(result).toMatchObject({ ok: false, got: expect.stringContaining('applied false') });
  });

  it.each([
    ['no size', ['  sizes:\n    rectangular', '  sizes: {}\n    # rectangular'], 'no size was given for any shape'],
    [
      'a range turned round',
      ['atLeast: 100, atMost: 1000', 'atLeast: 1001, atMost: 1000'],
      'nothing can be at least 1001',
    ],
    ['an unknown key', ['fireSides', 'fireSide'], 'unknown key "fireSide"; perhaps you meant "fireSides"'],
    ['tested without evidence', ['status: unverified', 'status: tested'], 'status "tested" needs evidence'],
    [
      'one barrier twice',
      [
        '  offsetAtMost',
        '    - { kinds: [floor, wall], construction: masonry, thicknessAtLeast: 100, integrity: 60, insulation: 0 }\n  offsetAtMost',
      ],
      'row 2 and row 1 are about the same barrier',
    ],
    ['an example that expects nothing', [/ {4}gives.*\n.*\n/.exec(GOOD)![0], ''], 'an example expects something'],
  ] as const)('is refused with %s', (_, [from, to], message) => {
    const spoilt = GOOD.replace(from, to);
    expect(spoilt).not.toBe(GOOD);
    expect(refusal(spoilt).message).toContain(message);
  });

  it('is refused with no size, at the line of the sizes', () => {
    const sizeless = GOOD.replace(/sizes:\n.*\n/, 'sizes: {}\n');
    expect(refusal(sizeless)).toMatchObject({ line: 10, message: expect.stringContaining('no size was given') });
  });

  it('is refused at the place of what can not stand', () => {
    const row =
      '    - { kinds: [floor, wall], construction: masonry, thicknessAtLeast: 100, integrity: 60, insulation: 0 }\n';
    expect(refusal(GOOD.replace('  offsetAtMost', `${row}  offsetAtMost`))).toMatchObject({ line: 14, column: 7 });
    // Another construction, thickness or kind of barrier is another row.
    for (const [from, to] of [
      ['masonry', 'concrete'],
      ['100', '90'],
      ['floor, wall', 'floor'],
    ] as const)
      expect(() =>
        loadRules([
          { file: 'own.yaml', text: GOOD.replace('  offsetAtMost', `${row.replace(from, to)}  offsetAtMost`) },
        ]),
      ).not.toThrow();
    const bare = GOOD.replace(/ {4}gives.*\n.*\n/, '');
    expect(refusal(bare)).toMatchObject({ line: 21, column: 5 });
    for (const expects of ['gives: { applied: true }', 'unknown: [constructionAllowed]', 'misses: []'])
      expect(() => loadRules([{ file: 'own.yaml', text: `${bare}    ${expects}\n` }])).not.toThrow();
  });

  it('fits its JSON Schema, by an outside judge (ajv)', () => {
    const validate = new Ajv2020({ strict: false, validateFormats: false }).compile(
      ruleJsonSchemas()['tested-damper']!,
    );
    const shipped = shippedDocuments.find(({ file }) => file === 'demonstration-damper.yaml')!.text;
    for (const text of [GOOD, shipped]) expect([validate(parse(text)), validate.errors]).toEqual([true, null]);
    expect(validate(parse(GOOD.replace('purposes: [fire]', 'purposes: [smoke]')))).toBe(false);
  });
});

describe('a brief', () => {
  const briefOf = (choices: string) => ({
    file: 'brief.yaml',
    text: `{ kind: project-brief, id: p, version: "1", choices: ${choices} }`,
  });
  it.each([
    ['{ testedDampers: [nothing] }', 'no rule document holds a tested damper "nothing"; known: demonstration-damper'],
    ['{ testedDampers: [a, a] }', '"a" is listed twice in testedDampers'],
    [
      '{ testedDampers: [demonstration-damper], systems: [{ system: SA, dampers: allowed, testedDamper: another }] }',
      '"another" is not among the testedDampers that may be used: demonstration-damper',
    ],
    [
      '{ systems: [{ system: SA, dampers: allowed, testedDamper: demonstration-blanket }] }',
      'no rule document holds a tested damper "demonstration-blanket"',
    ],
  ])('that chooses %s is refused', (choices, message) => {
    expect(() => loadBrief(briefOf(choices), shippedRules)).toThrow(message);
  });

  it('may choose one for a system', () => {
    const choices = '{ systems: [{ system: SA, dampers: allowed, testedDamper: demonstration-damper }] }';
    expect(loadBrief(briefOf(choices), shippedRules).choices.systems[0]?.testedDamper).toBe('demonstration-damper');
  });
});
