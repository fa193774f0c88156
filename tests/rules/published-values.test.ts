import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { loadRules, RuleDocumentError } from '../../src/rules/index.js';
import { valueByBarrier } from '../../src/rules/published-values.js';
import { factsDeciding, factsReadBy } from '../../src/rules/reads.js';
import { shippedDocuments, shippedRules } from './rule-cases.js';

const TEXT = `kind: published-values
id: values
version: "1"
status: unverified
source: a test
values:
  - { id: far, says: A distance., value: { number: 200, unit: mm }, source: A standard, confidence: memoryHigh }
  - { id: faint, says: A distance., value: { number: 9, unit: mm }, source: A standard, confidence: memoryLow }
  - { id: words, says: Words., value: { text: as tested }, source: A standard, confidence: seen }
  - id: closures
    says: By the wall.
    value: { byBarrier: [{ upTo: 30, value: 20 }, { below: 180, value: 90 }, { value: 180 }], unit: min }
    source: A code
    jurisdiction: Estuaria
    edition: Code 1
    confidence: secondHand
`;
const CHECK = `kind: check-set
id: set
version: "1"
status: unverified
source: a test
checks:
  - id: near
    title: Near
    about: fire
    each: neighbour
    measure: neighbour.distance
    atLeast: { published: far }
    unit: mm
    message: { failed: "{measured}", cantTell: "{missing}" }
    basis: { published: far, status: unverified }
    examples: [{ facts: { neighbour: { distance: 199 } }, outcome: failed }]
`;
const load = (check = CHECK, values = TEXT) =>
  loadRules([
    { file: 'check.yaml', text: check },
    { file: 'values.yaml', text: values },
  ]);
const refused = (check: string, values?: string): RuleDocumentError => {
  try {
    load(check, values);
  } catch (cause) {
    if (cause instanceof RuleDocumentError) return cause;
    throw cause;
  }
  throw new Error('it was not refused');
};

describe('published values', () => {
  it('stand for the limit, the source and the code of a check', () => {
    const [check] = load().checks;
    expect(check?.definition.basis).toEqual({
      ...{ source: 'A standard; from memory', clause: undefined, status: 'unverified', code: null },
    });
    expect(check?.limit).toEqual({ atLeast: { literal: 200 } });
  });

  it('stand for either side of a limit, beside a number of the check', () => {
    const beside = (limits: string) => load(CHECK.replace('atLeast: { published: far }', limits)).checks[0]?.limit;
    expect(beside('atMost: { published: far }')).toEqual({ atMost: { literal: 200 } });
    expect(beside('atLeast: 50\n    atMost: { published: far }')).toEqual({
      ...{ atLeast: { literal: 50 }, atMost: { literal: 200 } },
    });
    expect(beside('atLeast: { published: far }\n    atMost: 900')).toEqual({
      ...{ atLeast: { literal: 200 }, atMost: { literal: 900 } },
    });
  });

  it('bring their tables, by the size of the duct or the minutes of the barrier, and their code', () => {
    const [first] = loadRules([
      {
        file: 'check.yaml',
        text: CHECK.replaceAll('published: far', 'published: closures')
          .replace('unit: mm', 'unit: min')
          .replace('each: neighbour', 'each: penetration')
          .replace('neighbour.distance', 'penetration.damper.minutes')
          .replace('neighbour: { distance: 199 }', 'barrier: { minutes: 30 }')
          .replace('outcome: failed', 'outcome: cantTell'),
      },
      { file: 'values.yaml', text: TEXT },
    ]).checks;
    expect(first?.limit).toEqual({
      atLeast: { rows: [{ upTo: 30, value: 20 }, { below: 180, value: 90 }, { value: 180 }] },
    });
    expect(first?.definition.basis).toMatchObject({ code: { jurisdiction: 'Estuaria', edition: 'Code 1' } });
    const bySize = TEXT.replace(
      '{ number: 200, unit: mm }',
      '{ bySize: [{ upTo: { diameter: 400 }, value: 70 }], unit: mm }',
    );
    const sized = CHECK.replace('each: neighbour', 'each: penetration')
      .replace('neighbour.distance', 'penetration.narrowestGap')
      .replace('neighbour: { distance: 199 }', 'penetration: { narrowestGap: 5 }')
      .replace('outcome: failed', 'outcome: cantTell');
    expect(load(sized, bySize).checks[0]?.limit).toEqual({
      atLeast: { table: { bySize: [{ upTo: { diameter: 400 }, value: 70 }] } },
    });
  });

  it('are of the unit that the check has, and a check without one counts', () => {
    expect(refused(CHECK.replace('    unit: mm\n', '')).message).toContain('"far" is in mm, but the check has no unit');
    const ratio = TEXT.replace('{ number: 200, unit: mm }', '{ number: 2, unit: ratio }');
    const counting = CHECK.replace('    unit: mm\n', '').replaceAll(
      'neighbour.distance',
      'neighbour.distance / duct.width',
    );
    expect(() => load(counting, ratio)).not.toThrow('is in ratio');
  });

  it('may come from the shipped ones', () => {
    const own = CHECK.replaceAll('published: far', 'published: damper-separation');
    expect(() => loadRules([{ file: 'check.yaml', text: own }])).toThrow(
      'there is no published value "damper-separation": no published-values document was given with this one',
    );
    expect(() => load(own)).toThrow(/there is no published value "damper-separation"$/);
    expect(loadRules([{ file: 'check.yaml', text: own }], shippedRules).checks).toHaveLength(1);
  });

  it('by the minutes of a barrier make a check hang on its rating', () => {
    const isByRating = (side: object | undefined) => side !== undefined && 'rows' in side;
    const checks = shippedRules.checks.filter(({ limit }) => [limit.atLeast, limit.atMost].some(isByRating));
    expect(checks.length).toBeGreaterThan(0);
    for (const check of checks) {
      expect(factsReadBy(check)).toContain('barrier.rating');
      expect(factsDeciding(check)).toContain('barrier.minutes');
    }
  });

  it('by the minutes of a barrier', () => {
    const rows = [
      { upTo: 30, value: 20 },
      { below: 180, value: 90 },
      { upTo: 240, value: 180 },
    ];
    expect([30, 30.1, 179.9, 180, 240, 241].map((minutes) => valueByBarrier(rows, minutes))).toEqual([
      20,
      90,
      90,
      180,
      180,
      undefined,
    ]);
  });

  it.each([
    ['a value that is nowhere', ['published: far }', 'published: fat }'], 12, 'perhaps you meant "far"'],
    ['a faint memory', ['far', 'faint'], 12, 'it may not become a limit'],
    ['words', ['far', 'words'], 12, 'is no number'],
    ['another unit', ['unit: mm', 'unit: min'], 12, '"far" is in mm, but the check has unit min'],
    [
      'a limit from one value and the basis of another',
      ['basis: { published: far', 'basis: { published: words'],
      12,
      'must be { published: far }',
    ],
    ['a source besides', ['basis: {', 'basis: { source: x,'], 15, 'leave it out here'],
    ['no source at all', ['basis: { published: far,', 'basis: {'], 15, 'a basis needs "source"'],
    ['half a code', ['published: far, status', 'source: x, edition: E, status'], 15, 'needs both'],
    ['the other half', ['published: far, status', 'source: x, jurisdiction: J, status'], 15, 'needs both'],
    ['a value that is nowhere as its basis', ['basis: { published: far', 'basis: { published: fat'], 15, '"far"'],
  ] as const)('a check is refused for %s', (_, [from, to], line, message) => {
    expect(CHECK).toContain(from);
    // Of a limit alone the basis would be refused first.
    const text = message.includes('must be') || line === 15 ? CHECK.replace(from, to) : CHECK.replaceAll(from, to);
    const error = refused(line === 15 ? text.replace('atLeast: { published: far }', 'atLeast: 5') : text);
    expect(error.message).toContain(message);
    expect([error.file, error.line]).toEqual(['check.yaml', line]);
  });

  it.each([
    ['status tested', ['status: unverified', 'status: tested'], 4, 'expected one of "unverified"|"demonstration"'],
    ['an id twice', ['id: faint', 'id: far'], 8, '"far" is used twice'],
    ['no source', ['source: A standard, confidence: seen', 'confidence: seen'], 9, '"source" is missing'],
    ['no confidence', [', confidence: seen', ''], 9, '"confidence" is missing'],
    ['half a code', ['    edition: Code 1\n', ''], 10, 'needs both "jurisdiction" and "edition"'],
    [
      'a range that ends before it begins',
      ['value: { number: 9, unit: mm }', 'value: { atLeast: 9, atMost: 5, unit: mm }'],
      8,
      'nothing can be at least 9 and at most 5',
    ],
    ['rows that descend', ['below: 180', 'below: 20'], 12, 'rows must ascend'],
    ['an open row before the last', ['{ upTo: 30, value: 20 }', '{ value: 20 }'], 12, 'only the last may go on'],
  ] as const)('a document is refused for %s', (_, [from, to], line, message) => {
    expect(TEXT).toContain(from);
    const error = refused(CHECK, TEXT.replace(from, to));
    expect(error.message).toContain(message);
    expect([error.file, error.line]).toEqual(['values.yaml', line]);
  });

  it('are in one document each', () => {
    const twice = [TEXT, TEXT.replace('id: values', 'id: more')];
    expect(() => loadRules(twice.map((text, i) => ({ file: `${i}.yaml`, text })))).toThrow(
      'stands in another document',
    );
  });
});

describe('the shipped values', () => {
  const text = shippedDocuments.find(({ file }) => file === 'published-values.yaml')!.text;

  it('each have a source, say what they mean and how sure they are', () => {
    expect(shippedRules.published.length).toBeGreaterThan(90);
    for (const { id, source, says, confidence, status } of shippedRules.published) {
      expect([source.length > 3, says.endsWith('.'), status], id).toEqual([true, true, 'unverified']);
      expect(['seen', 'computed', 'secondHand', 'memoryHigh', 'memoryMedium', 'memoryLow'], id).toContain(confidence);
    }
  });

  it('none that is a faint memory is a limit or a demand of anything', () => {
    const faint = shippedRules.published.filter(({ confidence }) => confidence === 'memoryLow').map(({ id }) => id);
    expect(faint.length).toBeGreaterThan(0);
    for (const { text: other, file } of shippedDocuments.filter(({ file }) => file !== 'published-values.yaml'))
      for (const id of faint) expect(other.includes(`published: ${id} `), `${id} in ${file}`).toBe(false);
  });

  it('every reference to one in the shipped documents is to one that is there', () => {
    const known = new Set(shippedRules.published.map(({ id }) => id));
    const named = shippedDocuments.flatMap(({ text: other }) =>
      [...other.matchAll(/published: ([a-z0-9-]+)/g)].map(([, id]) => id!),
    );
    expect(new Set(named).size).toBeGreaterThan(15);
    for (const id of named) expect(known, id).toContain(id);
  });

  // Units of the law, exact by definition (NIST SP 811): 1 in = 25.4 mm, 1 ft = 304.8 mm.
  it.each([
    ['grease-duct-cleanout-spacing-us', 20 * 304.8],
    ['grease-duct-cleanout-from-bend-us', 10 * 304.8],
    ['grease-duct-cleanout-size-us', 12 * 25.4],
    ['grease-duct-cleanout-from-fan-us', 3 * 304.8],
    ['grease-duct-riser-cleanout-edge-us', 1.5 * 25.4],
    ['grease-duct-combustible-us', 18 * 25.4],
    ['grease-duct-limited-combustible-us', 3 * 25.4],
    ['grease-duct-entry-nfpa', 20 * 25.4],
    ['damper-sleeve', 6 * 25.4],
    ['damper-sleeve-actuator', 16 * 25.4],
    ['damper-subduct-us', 22 * 25.4],
  ])('%s is what it is in inches or feet, to the millimetre', (id, mm) => {
    const found = shippedRules.published.find((one) => one.id === id)!.value;
    if (!('number' in found)) throw new Error(`${id} is no number`);
    expect(Math.abs(found.number - mm)).toBeLessThanOrEqual(0.5);
  });

  it('names no value twice and stands as plain YAML', () => {
    expect(parse(text).values).toHaveLength(shippedRules.published.length);
    expect(readFileSync('rules/published-values.yaml', 'utf8')).toBe(text);
  });
});
