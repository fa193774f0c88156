import { expect, it } from 'vitest';
import { systemHoles } from '../../src/rules/notes-holes.js';
import { systemOverlaps } from '../../src/rules/notes-overlaps.js';
import { rowsNeverTaken, unusedParts, wordsNeverTaken } from '../../src/rules/notes-unused.js';
import type { TestedDamper } from '../../src/rules/tested-damper.js';
import type { TestedSystem } from '../../src/rules/tested-system.js';
import type { Words } from '../../src/words/names.js';
import { GOOD, MASONRY, PINS, STUD, said } from './proof-read.js';

it('of the example of the guide there is nothing to say', () => {
  expect([...systemOverlaps(GOOD), ...systemHoles(GOOD), ...unusedParts(GOOD)]).toEqual([]);
});

it('details and pins for what the scope does not have', () => {
  const parts = (changes: Partial<TestedSystem>) => said(unusedParts({ ...GOOD, ...changes }));
  expect(parts({ details: [STUD, { ...MASONRY, kinds: ['floor'] }] })).toEqual([
    'unused at details.1: the detail "masonry-wall" can never apply: the scope has no barrier of its kinds and constructions. Add the barrier that it was tested in to the scope, or take the detail away.',
  ]);
  const lengths = [1, 2, 3].map((layers) => ({ layers, length: 40 * layers }));
  expect(parts({ fixings: [PINS, { ...PINS, pattern: { pins: { grid: 200, lengths } } }] })).toEqual([
    'unused at fixings.1.pattern.pins.lengths.2: the fixing "pins" has pins for 3 layers, which the scope does not rate. Add the rating that was tested with as many layers, or take the length away.',
  ]);
  expect(parts({ fixings: [{ ...PINS, pattern: { straps: { width: 9, spacing: 300 } } }] })).toEqual([]);
});

it('a row of a damper never counts where another reaches as much in a barrier that is no thicker', () => {
  type Row = TestedDamper['scope']['barriers'][number];
  const row: Row = { kinds: ['wall'], construction: 'masonry', thicknessAtLeast: 140, integrity: 120, insulation: 60 };
  const beside = (changes: Partial<Row>): string[] =>
    said(rowsNeverTaken({ scope: { barriers: [{ ...row, ...changes }, row] } } as unknown as TestedDamper));
  const second =
    'unused at scope.barriers.1: row 2 never counts: row 1 reaches as much in a barrier that is no thicker. Take it away, or correct its thickness or its minutes.';
  const first =
    'unused at scope.barriers.0: row 1 never counts: row 2 reaches as much in a barrier that is no thicker. Take it away, or correct its thickness or its minutes.';
  expect(beside({})).toEqual([first, second]);
  expect(beside({ thicknessAtLeast: 139 })).toEqual([second]);
  expect(beside({ thicknessAtLeast: 141 })).toEqual([first]);
  expect(beside({ integrity: 121 })).toEqual([second]);
  expect(beside({ insulation: 61 })).toEqual([second]);
  expect(beside({ insulation: 59 })).toEqual([first]);
  expect(beside({ kinds: ['wall', 'floor'] })).toEqual([second]);
  expect(beside({ kinds: ['floor'] })).toEqual([]);
  expect(beside({ construction: 'concrete' })).toEqual([]);
  expect(beside({ thicknessAtLeast: 100, integrity: 90 })).toEqual([]);
});

it('a word never counts behind a row that takes it, as part of a name or as a word of its own', () => {
  const rows = (...given: Partial<Words>[]): string[] =>
    said(wordsNeverTaken(given.map((row) => ({ words: [], ...row }))));
  const never = (path: string, word: string, row: number) =>
    `unused at ${path}: "${word}" never counts: row ${row} takes every name that has it, and stands first. Put the row of the longer word first, or take the word away.`;
  expect(rows({ words: ['exhaust'] }, { words: ['supply', 'kitchen exhaust'] })).toEqual([
    never('rows.1.words.1', 'kitchen exhaust', 1),
  ]);
  expect(rows({ words: ['other'] }, { words: ['exhaust'] }, { wholeWords: ['exhaust'] })).toEqual([
    never('rows.2.wholeWords.0', 'exhaust', 2),
  ]);
  expect(rows({ wholeWords: ['ex'] }, { words: ['exhaust'] })).toEqual([]);
  expect(rows({ wholeWords: ['ex'] }, { words: ['ex fan'] })).toEqual([never('rows.1.words.0', 'ex fan', 1)]);
  expect(rows({ words: ['exhaust', 'kitchen exhaust'] })).toEqual([]);
});
