/** ISO 10303-21 strings as they must come out of the reader. Source of each vector beside it. */
import { expect, it } from 'vitest';
import { ModelBuilder } from '../../fixtures/model-builder.js';
import { readHere } from '../../src/read/read-here.js';

const VECTORS: readonly (readonly [encoded: string, decoded: string, source: string])[] = [
  ['\\S\\D', 'Ä', 'buildingSMART, string encoding'],
  ['\\PA\\\\S\\D', 'Ä', 'buildingSMART, string encoding'],
  ['\\X\\C4', 'Ä', 'buildingSMART, string encoding'],
  ['\\X2\\00C4\\X0\\', 'Ä', 'buildingSMART, string encoding'],
  ['see \\X\\A7 4.1', 'see § 4.1', 'unit test of a public parser'],
  ['\\X2\\03B103B203B3\\X0\\', 'αβγ', 'unit test of a public parser'],
  ['h\\S\\ttel', 'hôtel', 'unit test of a public parser'],
  ['\\PE\\\\S\\*\\S\\U\\S\\b', 'Њет', 'unit test of a public parser, ISO 8859-5'],
  ['\\X4\\0000041F000004400000043800000432000004350000044200000020\\X0\\x', 'Привет x', 'unit test of a public parser'],
  ["\\\\ ''", "\\ '", 'ISO 10303-21'],
  ['\\X2\\8010706B7B497D1A30EC30D930EB\\X0\\1', '耐火等級レベル1', 'public IFC test file'],
  ['\\X2\\8010\\X0\\\\X2\\706B\\X0\\', '耐火', 'public IFC files: adjacent runs join'],
  ['EI 120 (ve ho i\\X2\\2194\\X0\\o) S', 'EI 120 (ve ho i↔o) S', 'computed'],
  ['\\X2\\2013\\X0\\/120/120', '–/120/120', 'computed'],
  ['\\X\\BD h', '½ h', 'computed'],
  ['\\X4\\0001F600\\X0\\', '😀', 'computed'],
  ['T\\S\\|r-012', 'Tür-012', 'public note on STEP encoding'],
];

it.each(VECTORS)('%s is %s (%s)', async (encoded, decoded) => {
  const builder = new ModelBuilder({ fileName: 'strings.ifc' });
  builder.wall({ name: 'NAME', from: [0, 0], to: [5000, 0], thickness: 100, height: 3000 });
  const text = builder.toString().replace(/'NAME'/g, `'${encoded}'`);
  const { barriers } = await readHere({ name: 'strings.ifc', bytes: new TextEncoder().encode(text) }, 'm1');
  expect(barriers.map((b) => b.name)).toEqual([decoded]);
});
