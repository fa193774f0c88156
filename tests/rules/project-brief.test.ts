import { Ajv2020 } from 'ajv/dist/2020.js';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { mayChange } from '../../src/remedy/allowed.js';
import {
  isProjectBrief,
  loadBrief,
  loadRules,
  newBrief,
  RuleDocumentError,
  ruleJsonSchemas,
} from '../../src/rules/index.js';
import { shippedRules } from './rule-cases.js';

const load = (text: string, rules?: Parameters<typeof loadBrief>[1]) => loadBrief({ file: 'brief.yaml', text }, rules);

const refused = (text: string, rules?: Parameters<typeof loadBrief>[1]): RuleDocumentError => {
  try {
    load(text, rules);
  } catch (cause) {
    if (cause instanceof RuleDocumentError) return cause;
    throw cause;
  }
  throw new Error('the brief was not refused');
};

const GOOD = `kind: project-brief
id: a-project
version: "1"
facts:
  ratings:
    - { barrier: W1, rating: -/60/60, drawing: A-1, revision: B }
  damperPurposes:
    - { words: [VCD], purpose: control }
  protections:
    - { system: KX, kind: blanket, layers: 2, evidence: drawing M-1 }
choices:
  systems:
    - { system: KX, dampers: never, testedSystem: demonstration-blanket, fixing: pins }
    - { system: SA, dampers: allowed }
  testedSystems: [demonstration-blanket]
`;

describe('the template', () => {
  // Every example line, with its mark taken away.
  const uncommented = newBrief()
    .replaceAll(
      /^( +)# (- |jurisdiction|edition|headMovement|siteTolerance|flangeHeight|room|supports: \{ rod|changes: \{|takeoff: \{|compartmentProperty)/gm,
      '$1$2',
    )
    .replaceAll(/^( +)# ( {2}\w+: )/gm, '$1$2')
    .replaceAll(/^( +)- \{/gm, '$1  - {')
    .replace('    - a-tested-system', '      - a-tested-system');

  it('loads as it stands and says nothing', () => {
    expect(load(newBrief())).toEqual({
      kind: 'project-brief',
      id: 'my-project',
      version: '1',
      demonstration: false,
      facts: {
        ratingProperties: [],
        ratings: [],
        barriers: [],
        constructions: [],
        damperPurposes: [],
        ductMaterials: [],
        ducts: [],
        ductProperties: [],
        ductRatingProperties: [],
        protectionModelled: false,
        protections: [],
        shafts: [],
      },
      choices: {
        edition: [],
        systems: [],
        services: [],
        access: [],
        testedSystems: [],
        pinned: [],
        testedDampers: [],
        concessions: [],
        comments: [],
      },
    });
  });

  it('shows an example of everything, and its examples load', () => {
    const { facts, choices } = load(uncommented);
    for (const [key, value] of Object.entries({ ...facts, ...choices })) {
      if (Array.isArray(value)) expect(value.length, key).toBeGreaterThan(0);
    }
    expect(Object.keys(choices).sort()).toEqual([
      'access',
      'changes',
      'comments',
      'concessions',
      'edition',
      'flangeHeight',
      'headMovement',
      'jurisdiction',
      'pinned',
      'room',
      'services',
      'siteTolerance',
      'supports',
      'systems',
      'takeoff',
      'testedDampers',
      'testedSystems',
    ]);
    // What it shows is what holds where nothing is said.
    expect(mayChange(choices)).toEqual(mayChange(undefined));
    expect(facts.compartmentProperty).toEqual({ set: 'Project_Fire', property: 'Section' });
    expect(facts.protections).toMatchObject([
      { system: 'KX', layers: 2 },
      { duct: 'SA-G-2' },
      { covering: ['fire blanket'] },
      { duct: 'KX transition', kind: 'none' },
    ]);
  });

  it('takes one edition for a list of one', () => {
    const edition = (text: string) => load(GOOD.replace('choices:', `choices:\n  ${text}`)).choices.edition;
    expect(edition('jurisdiction: Land\n  edition: Code 1')).toEqual(['Code 1']);
    expect(edition('jurisdiction: Land\n  edition: [Code 1, Code 2]')).toEqual(['Code 1', 'Code 2']);
    expect(edition('jurisdiction: Land')).toEqual([]);
  });

  it('is a project brief, and no rule document', () => {
    expect(isProjectBrief({ file: 'brief.yaml', text: newBrief() })).toBe(true);
    expect(isProjectBrief({ file: 'rules.yaml', text: 'kind: check-set' })).toBe(false);
    expect(() => loadRules([{ file: 'brief.yaml', text: newBrief() }])).toThrow('give it as --project-brief');
  });
});

describe('a brief', () => {
  it('is plain data with its defaults', () => {
    const brief = load('{ kind: project-brief, id: p, version: "1" }');
    expect(brief).toEqual(load(newBrief().replace('my-project', 'p')));
    expect(structuredClone(load(GOOD))).toEqual(load(GOOD));
  });

  it('may choose what the rules hold', () => {
    expect(load(GOOD, shippedRules).choices.systems[0]).toMatchObject({ testedSystem: 'demonstration-blanket' });
  });

  it.each([
    ['an unknown key', ['  ratings:', '  rating:'], 5, 3, 'unknown key "rating"; perhaps you meant "ratings"'],
    [
      'an unknown key inside',
      ['kind: blanket,', 'knd: blanket,'],
      10,
      21,
      'unknown key "knd"; perhaps you meant "kind"',
    ],
    ['a wrong word', ['purpose: control', 'purpose: controls'], 8, 32, '"purpose": expected one of'],
    [
      'an unreadable rating',
      ['-/60/60', 'FR 1hr (TBC)'],
      6,
      30,
      'the rating "FR 1hr (TBC)" cannot be read; write it like',
    ],
    [
      'a barrier twice',
      ['  damperPurposes', '    - { barrier: W1, rating: EI 60, drawing: A, revision: A }\n  damperPurposes'],
      7,
      18,
      '"W1" is listed twice in ratings',
    ],
    ['a word twice', ['[VCD]', '[VCD, vcd]'], 8, 22, 'the word "vcd" is listed twice in damperPurposes'],
    [
      'a word of two materials',
      [
        '  protections',
        '  ductMaterials:\n    - { words: [galv], material: steel }\n    - { words: [Galv], material: plastic }\n  protections',
      ],
      11,
      17,
      'the word "Galv" is listed twice in ductMaterials',
    ],
    ['a word that is found everywhere', ['[VCD]', '[" a "]'], 8, 17, 'must have at least two letters'],
    [
      'a protection of nothing',
      ['{ system: KX, kind', '{ kind'],
      10,
      7,
      'give "system", "duct" or "covering", and one only',
    ],
    ['a protection of two things', ['{ system: KX, kind', '{ system: KX, duct: D, kind'], 10, 7, 'and one only'],
    [
      'a system that is left out of itself',
      ['{ system: KX, kind: blanket', '{ system: KX, kind: none'],
      10,
      27,
      '"none" leaves one duct out',
    ],
    [
      'flanges that shrink',
      [
        '  testedSystems:',
        '  flangeHeight: { bySize: [{ upTo: { diameter: 500 }, value: 20 }, { upTo: { diameter: 400 }, value: 30 }] }\n  testedSystems:',
      ],
      15,
      76,
      'rows must ascend',
    ],
    ['no layers', ['layers: 2', 'layers: 0'], 10, 44, '"layers"'],
    ['a system twice', ['system: SA', 'system: " kx "'], 14, 17, '"kx" is listed twice in systems'],
    ['a fixing of nothing', ['testedSystem: demonstration-blanket, ', ''], 13, 45, 'add "testedSystem"'],
    [
      'a tested system that may not be used',
      ['testedSystems: [demonstration-blanket]', 'testedSystems: [another]'],
      13,
      51,
      'is not among the testedSystems that may be used: another',
    ],
    ['no evidence', [', evidence: drawing M-1', ''], 10, 7, '"evidence" is missing'],
    ['an entry that picks nothing', ['{ system: SA, dampers', '{ dampers'], 14, 7, 'exactly one of system, systemType'],
    [
      'an entry that picks twice',
      ['{ system: SA,', '{ system: SA, compartment: K,'],
      14,
      7,
      'here is system and compartment',
    ],
    [
      'a property that is not read',
      ['{ system: SA,', '{ property: { set: P, property: Q, value: r },'],
      14,
      19,
      '"P.Q" is not listed under facts.ductProperties',
    ],
    ['an edition of nowhere', ['choices:', 'choices:\n  edition: Code 1'], 12, 3, 'add "jurisdiction"'],
    [
      'a service twice',
      ['choices:', 'choices:\n  services: [{ service: smokeExhaust }, { service: smokeExhaust }]'],
      12,
      52,
      '"smokeExhaust" is listed twice in services',
    ],
    [
      'a comment twice',
      [
        'choices:',
        `choices:\n  comments: [${Array(2).fill('{ key: "0123456789abcdef", text: Seen., author: A, date: 2026-01-01T00:00:00Z }').join()}]`,
      ],
      12,
      94,
      'this comment is listed twice',
    ],
    [
      'what must be, and what makes it so',
      ['facts:', 'facts:\n  ductRatingProperties: [{ set: P, property: Q, means: required, kind: board }]'],
      5,
      66,
      'it belongs to means: reached',
    ],
    ['no kind', ['kind: project-brief', 'kind: check-set'], 1, 7, 'a brief is kind: project-brief'],
  ] as const)('is refused for %s', (_, [from, to], line, column, message) => {
    expect(GOOD).toContain(from);
    const error = refused(GOOD.replace(from, to));
    expect(error.message).toContain(message);
    expect([error.file, error.line, error.column]).toEqual(['brief.yaml', line, column]);
  });

  it.each([
    [
      'a tested system that no document holds',
      'testedSystem: demonstration-blanket',
      'testedSystem: demonstration-blankets',
      'perhaps you meant "demonstration-blanket"',
    ],
    ['a fixing that it does not have', 'fixing: pins', 'fixing: pin', 'perhaps you meant "pins"; it has pins, straps'],
  ])('is refused, where the rules are known, for %s', (_, from, to, message) => {
    const text = GOOD.replace('  testedSystems: [demonstration-blanket]\n', '').replace(from, to);
    expect(load(text).choices.systems).toHaveLength(2);
    const error = refused(text, shippedRules);
    expect(error.message).toContain(message);
    expect(error.line).toBe(13);
  });

  it('is refused for an allowed tested system that no document holds', () => {
    const { message, line } = refused(GOOD, { systems: [], dampers: [] });
    expect([message, line]).toEqual([
      'no rule document holds a tested system "demonstration-blanket"; known: none',
      15,
    ]);
  });
});

describe('JSON Schema of briefs, by an outside judge (ajv)', () => {
  const validate = new Ajv2020({
    formats: { date: true, 'date-time': true },
    allErrors: true,
    allowUnionTypes: true,
  }).compile(ruleJsonSchemas()['project-brief']!);

  it.each([
    ['a brief', GOOD, true],
    ['the template', newBrief(), true],
    ['an unknown key', GOOD.replace('  ratings:', '  rating:'), false],
    ['a wrong word', GOOD.replace('dampers: never', 'dampers: no'), false],
  ])('%s', (_, text, expected) => {
    expect(validate(parse(text)), JSON.stringify(validate.errors)).toBe(expected);
  });
});
