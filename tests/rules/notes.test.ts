import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { loadRules, newBrief, notesOn, type RuleNote } from '../../src/rules/index.js';
import { rules as shipped } from '../shipped-rules.js';
import { checkFields, document as checkSet } from './factories.js';
import { guideExample } from './guide.js';

const GOOD = guideExample().text;
const DAMPER = readFileSync('rules/demonstration-damper.yaml', 'utf8');

function notesOf(text: string, beside = shipped): RuleNote[] {
  const document = { file: 'own.yaml', text };
  return notesOn([document], loadRules([document]), { rules: beside, texts: [] });
}

const KNOWN = new Map<string, readonly string[]>();

/** The notes that a change brings: what stands at their place, kind and message. */
function newNote(from: string, [old, replacement]: readonly [string, string]): string[] {
  expect(from).toContain(old);
  const key = ({ kind, message }: RuleNote) => `${kind}: ${message}`;
  const before = KNOWN.get(from) ?? notesOf(from).map(key);
  KNOWN.set(from, before);
  const after = notesOf(from.replace(old, replacement));
  const lines = from.replace(old, replacement).split('\n');
  return after
    .filter((note) => !before.includes(key(note)))
    .map(
      (note) =>
        `${lines[note.line - 1]!.slice(note.column - 1)
          .slice(0, 24)
          .trimEnd()} | ${key(note)}`,
    );
}

describe('overlaps', () => {
  it.each<[string, string, string, string]>([
    [
      'two rows for one barrier',
      '    - { construction: masonry, thicknessAtLeast: 140',
      '    - { construction: steelStud, thicknessAtLeast: 120 }\n    - { construction: masonry, thicknessAtLeast: 140',
      '{ construction: steelStu | overlap: rows 1 and 2 both hold for wall of steel studs; the thinner, 100 mm, counts and the other never does',
    ],
    [
      'two details for one barrier',
      '    constructions: [masonry]',
      '    constructions: [masonry, steelStud]',
      'id: masonry-wall | overlap: the details "stud-wall" and "masonry-wall" both hold for wall of steel studs; the one with most margin counts',
    ],
    [
      'two fixings of the same ducts',
      'details:',
      '  - { id: glue, name: glue, limits: { rectangular: { longestSide: 1000 }, circular: { diameter: 600 } }, pattern: { straps: { width: 9, spacing: 9 } } }\ndetails:',
      '{ rectangular: { longest | overlap: the fixings "pins" and "glue" hold the same ducts; the first counts where the brief names none',
    ],
    [
      'two lengths of pins',
      '{ layers: 2, length: 80 }]',
      '{ layers: 2, length: 80 }, { layers: 2, length: 90 }]',
      '{ layers: 2, length: 90 | overlap: the fixing "pins" has two lengths of pins for 2 layers: 80 and 90 mm',
    ],
    [
      'two rows for three sides',
      '  separationAtLeast: 200',
      '  separationAtLeast: 200\n  threeSided:\n    - { constructions: [masonry, concrete], gapAtMost: 5 }\n    - { constructions: [concrete], kinds: [floor], gapAtMost: 9 }',
      '{ constructions: [concre | overlap: rows 1 and 2 both hold against floor of concrete; the larger gap, 9 mm, counts',
    ],
  ])('%s', (_, old, replacement, expected) => {
    expect(newNote(GOOD, [old, replacement])).toContain(expected);
  });

  it.each([
    ['from one face and from both', '', 'faces: one'],
    ['for narrow and for wide gaps', 'gap: { atLeast: 10, atMost: 20 }', 'gap: { atLeast: 21, atMost: 40 }'],
    ['for different layers', 'layers: [1]', 'layers: [2]'],
  ])('details %s are none', (_, one, other) => {
    const both = GOOD.replace('constructions: [steelStud]', `constructions: [steelStud]\n    ${one}`).replace(
      'constructions: [masonry]',
      `constructions: [masonry, steelStud]\n    ${other}`,
    );
    expect(notesOf(both).filter(({ kind }) => kind === 'overlap')).toEqual([]);
  });

  it('a construction that a test in another covers has the details of that other', () => {
    const row =
      '    - { construction: aeratedConcrete, thicknessAtLeast: 150, coveredBy: masonry, source: "clause 13" }';
    const covered = GOOD.replace('  ratings:', `${row}\n  ratings:`);
    expect(notesOf(covered).filter(({ kind }) => kind === 'hole')).toEqual([]);
    const uncovered = GOOD.replace('  ratings:', `${row.replace('coveredBy: masonry, ', '')}\n  ratings:`);
    expect(notesOf(uncovered).filter(({ kind }) => kind === 'hole')).toHaveLength(1);
  });

  it('two checks that judge the same, but not with two codes', () => {
    const code = (edition: string) => ({ basis: { source: 'x', status: 'unverified', jurisdiction: 'A', edition } });
    const twice = (a: object, b: object) =>
      notesOf(checkSet([checkFields({ id: 'one', ...a }), checkFields({ id: 'two', ...b })]));
    expect(twice({}, {})).toMatchObject([
      { kind: 'overlap', message: expect.stringContaining('the checks "one" and "two" judge the same: ') },
    ]);
    expect(twice(code('B'), code('C'))).toEqual([]);
    expect(twice({}, { where: 'barrier.kind == "wall"' })).toEqual([]);
  });
});

describe('holes', () => {
  it.each<[string, string, string, string]>([
    [
      'a table that ends before the scope',
      '            - { upTo: { longestSide: 1000 }, value: 300 }\n',
      '',
      '- { upTo: { longestSide: | hole: the table "length" has no value for rectangular ducts of 1000 × 1000 mm, which the scope goes up to',
    ],
    [
      'a shape without rows',
      '            - { upTo: { diameter: 600 }, value: 300 }\n',
      '',
      '- { upTo: { longestSide: | hole: the table "length" has no value for circular ducts of 600 mm, which the scope goes up to',
    ],
    [
      'a construction without a detail',
      'constructions: [masonry]',
      'constructions: [steelStud]',
      '{ construction: masonry, | hole: no detail holds for masonry (wall), which the scope has',
    ],
    [
      'layers without a detail',
      'constructions: [masonry]',
      'constructions: [masonry]\n    layers: [2]',
      '{ construction: masonry, | hole: no detail holds for masonry (wall with 1 layers), which the scope has',
    ],
    [
      'an orientation without a barrier',
      'orientation: [walls]',
      'orientation: [walls, floors]',
      '[walls, floors] | hole: the scope has floors, but no row of barriers holds for floor or roof',
    ],
    [
      'a size without a fixing',
      '      rectangular: { longestSide: 1000 }\n      circular',
      '      rectangular: { longestSide: 800 }\n      circular',
      '- id: pins | hole: no fixing holds rectangular ducts of 1000 × 1000 mm, which the scope goes up to',
    ],
    [
      'layers without pins',
      ', { layers: 2, length: 80 }',
      '',
      '[{ layers: 1, length: 40 | hole: the fixing "pins" has no length of pins for 2 layers, which the scope rates',
    ],
    [
      'a time without a stress',
      ', { upTo: 120, stress: 6 }',
      '',
      '[{ upTo: 60, stress: 9 } | hole: "rodStress" ends at 60 minutes, but the scope rates 120',
    ],
  ])('%s', (_, old, replacement, expected) => {
    expect(newNote(GOOD, [old, replacement])).toContain(expected);
  });

  it('a table of a damper that ends before its sizes', () => {
    const table = 'offsetAtMost: { bySize: [{ upTo: { width: 1500, height: 700 }, value: 30 }] }';
    expect(newNote(DAMPER, ['offsetAtMost: 30', table])).toEqual([
      '[{ upTo: { width: 1500, | hole: the table "offsetAtMost" has no value for rectangular ducts of 1500 × 800 mm or circular ducts of 630 mm, which the scope goes up to',
    ]);
  });
});

it.each(['blanket', 'board', 'duct', 'damper'])(
  'the demonstration %s has no holes and no overlaps, and checks go by all of its scope',
  (name) => {
    const notes = notesOf(readFileSync(`rules/demonstration-${name}.yaml`, 'utf8'));
    const faults = notes.filter(({ kind, message }) => kind !== 'unused' || message.includes('"scope'));
    expect(faults.map(({ message }) => message)).toEqual([]);
  },
);

describe('what nothing goes by', () => {
  const unused = (text: string, beside = shipped) =>
    notesOf(text, beside).flatMap(({ kind, message }) => (kind === 'unused' ? [message] : []));

  it('is listed in the order of the document: of parts that are built by, only what no check measures', () => {
    const lines = GOOD.split('\n');
    const noted = notesOf(GOOD).map(({ line, column, message }) => [lines[line - 1]!.slice(column - 1), message]);
    const own = (path: string) => `no loaded check goes by "${path}`;
    expect(noted).toEqual([
      [
        expect.stringMatching(/^pins: { grid/),
        own('fixings.pins.pattern" (pins.grid, pins.lengths.layers, pins.lengths.length, pins.where)'),
      ],
      ['all', own('details.stud-wall.parts.2.sides"')],
      ['both', own('details.stud-wall.parts.2.faces"')],
      ['{ spacing: 200 }', own('details.stud-wall.parts.2.intoBarrier" (spacing)')],
      ['both', own('details.stud-wall.parts.3.faces"')],
      ['- { part: packing, material: loose blanket }', own('details.masonry-wall.parts" (at, depth)')],
    ]);
  });

  it('stands in the order of the document among the rest, and of one place in that of its words', () => {
    const fixing = (id: string) =>
      `  - { id: ${id}, name: ${id}, limits: { rectangular: { longestSide: 800 } }, pattern: { straps: { width: 9, spacing: 9 } } }\n`;
    const text = GOOD.replace('details:', `${['b', 'a', 'c'].map(fixing).join('')}details:`)
      .replace('orientation: [walls]', 'orientation: [walls, floors]')
      .replace('{ layers: 2, length: 80 }', '{ layers: 1, length: 80 }');
    const notes = notesOf(text).filter(({ kind }) => kind !== 'unused');
    expect(notes.map(({ message }) => message.slice(0, 48))).toEqual([
      'the scope has floors, but no row of barriers hol',
      'the fixing "pins" has no length of pins for 2 la',
      'the fixing "pins" has two lengths of pins for 1 ',
      'the fixings "b" and "a" hold the same ducts; the',
      'the fixings "a" and "c" hold the same ducts; the',
      'the fixings "b" and "c" hold the same ducts; the',
    ]);
    const places = notes.map(({ line, column }) => line * 1000 + column);
    expect([...places].sort((a, b) => a - b)).toEqual(places);
  });

  it('limits are read by the checks that are loaded, and by no others', () => {
    const separation = 'no loaded check goes by "scope.separationAtLeast"';
    expect(unused(GOOD)).not.toContain(separation);
    const others = shipped.checks.filter(({ definition }) => definition.id !== 'separation-as-tested');
    expect(others.length).toBe(shipped.checks.length - 1);
    expect(unused(GOOD, { ...shipped, checks: others })).toContain(separation);
    expect(unused(GOOD, { ...shipped, checks: [] }).some((message) => message.includes('"scope"'))).toBe(true);
  });

  it('what is said of access panels is read, though by no check of a penetration', () => {
    const blanket = readFileSync('rules/demonstration-blanket.yaml', 'utf8');
    const ofPanels = (checks: typeof shipped.checks) =>
      unused(blanket, { ...shipped, checks }).filter((message) => message.includes('"accessPanels'));
    expect(ofPanels(shipped.checks)).toEqual([]);
    expect(ofPanels(shipped.checks.filter(({ each }) => each === 'penetration'))).not.toEqual([]);
  });

  it('of a damper too', () => {
    expect(unused(DAMPER)).toEqual([]);
    const others = shipped.checks.filter(({ each }) => each !== 'penetration');
    expect(unused(DAMPER, { ...shipped, checks: others }).join()).toContain('scope.offsetAtMost');
  });

  it.each<[string, string, readonly [string, string], string]>([
    [
      'a detail outside the scope',
      GOOD,
      ['    kinds: [wall]\n    constructions: [masonry]', '    kinds: [floor]\n    constructions: [masonry]'],
      'id: masonry-wall | unused: the detail "masonry-wall" can never apply: the scope has no barrier of its kinds and constructions',
    ],
    [
      'pins for layers that nobody rates',
      GOOD,
      ['{ layers: 2, length: 80 }', '{ layers: 2, length: 80 }, { layers: 3, length: 120 }'],
      '{ layers: 3, length: 120 | unused: the fixing "pins" has pins for 3 layers, which the scope does not rate',
    ],
  ])('%s', (_, text, change, expected) => {
    expect(newNote(text, change)).toContain(expected);
  });

  it('rows of dampers that reach no more in a thicker barrier', () => {
    const beaten = DAMPER.replace(
      'thicknessAtLeast: 90, integrity: 60, insulation: 60',
      'thicknessAtLeast: 90, integrity: 120, insulation: 120',
    );
    expect(unused(beaten)).toContain('row 2 never counts: row 1 reaches as much in a barrier that is no thicker');
  });

  it('words behind a row that takes them', () => {
    const table = (first: string, second: string) => `kind: service-table
id: own
version: "1"
status: unverified
source: a test
rows:
  - service: kitchenExhaust
    words: [${first}]
    source: a test
  - service: smokeExhaust
    words: [${second}]
    source: a test
examples: [{ names: [${first}], service: kitchenExhaust }]
`;
    expect(unused(table('exhaust', 'smoke exhaust'))).toEqual([
      '"smoke exhaust" never counts: row 1 takes every name that has it, and stands first',
    ]);
    expect(unused(table('smoke exhaust', 'exhaust'))).toEqual([]);
    const second = table('exhaust', 'smoke exhaust');
    const [{ line, column } = { line: 0, column: 0 }] = notesOf(second);
    expect(second.split('\n')[line - 1]!.slice(column - 1)).toBe('smoke exhaust]');
  });

  it('of briefs nothing is said', () => {
    const brief = { file: 'brief.yaml', text: newBrief() };
    const good = { file: 'own.yaml', text: GOOD };
    const noted = notesOn([brief, good], loadRules([good]), { rules: shipped, texts: [] });
    expect(noted).toEqual(notesOf(GOOD));
  });

  it('published values that nobody cites', () => {
    const values = {
      file: 'values.yaml',
      text: `kind: published-values
id: values
version: "1"
status: unverified
source: a test
values:
  - { id: cited, says: a, value: { number: 5, unit: ratio }, source: a test, confidence: seen }
  - { id: forgotten, says: b, value: { number: 6, unit: deg }, source: a test, confidence: seen }
`,
    };
    const checks = {
      file: 'checks.yaml',
      text: checkSet([
        checkFields({ atMost: { published: 'cited' }, basis: { published: 'cited', status: 'unverified' } }),
      ]),
    };
    const notes = notesOn([values, checks], loadRules([values, checks]), { rules: shipped, texts: [] });
    expect(notes).toMatchObject([
      {
        file: 'values.yaml',
        line: 8,
        column: 11,
        kind: 'unused',
        message: 'nobody cites the published value "forgotten"',
      },
    ]);
  });
});
