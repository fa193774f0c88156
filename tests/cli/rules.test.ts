import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { guideExample } from '../rules/guide.js';
import { ratedrun, temporaryFolder } from './program.js';

const folder = temporaryFolder();
const GOOD = guideExample().text;
const HOLE = GOOD.replace('            - { upTo: { diameter: 600 }, value: 300 }\n', '');
writeFileSync(join(folder, 'good.yaml'), GOOD);
writeFileSync(join(folder, 'hole.yaml'), HOLE);

describe('ratedrun rules', () => {
  it('notes leave a document valid and the exit code 0, unless they are asked for', () => {
    const ran = ratedrun(folder, ['rules', 'hole.yaml']);
    expect([ran.code, ran.err]).toEqual([0, '']);
    const line = HOLE.split('\n').findIndex((text) => text.includes('upTo: { longestSide: 500 }')) + 1;
    expect(ran.out).toContain(
      `hole.yaml:${line}:13 hole: the table "length" has no value for circular ducts of 600 mm, which the scope goes up to. Add rows`,
    );
    expect(ratedrun(folder, ['rules', 'hole.yaml', '--nonzero-for', 'notes']).code).toBe(1);
    expect(ratedrun(folder, ['rules', 'hole.yaml', '--nonzero-for', 'examples']).code).toBe(0);
  });

  it('--json has the notes too', () => {
    const { notes } = JSON.parse(ratedrun(folder, ['rules', 'hole.yaml', '--json']).out);
    expect(notes).toContainEqual({
      ...{ file: 'hole.yaml', line: expect.any(Number), column: 13, document: 'example-blanket', kind: 'hole' },
      message: expect.stringContaining('has no value for circular ducts of 600 mm'),
      remedy: expect.stringContaining('Add rows'),
    });
  });

  it('--sheet prints, and writes where --out says', () => {
    const printed = ratedrun(folder, ['rules', 'good.yaml', '--sheet', 'md']);
    expect([printed.code, printed.err]).toEqual([0, '']);
    expect(printed.out).toMatch(/^# Example blanket\n\n\*\*DEMONSTRATION DATA/);
    const written = ratedrun(folder, ['rules', 'good.yaml', 'hole.yaml', '--sheet', 'html', '--out', 'new/sheet.html']);
    expect([written.code, written.out, written.err]).toEqual([
      2,
      '',
      expect.stringMatching(/already used by good.yaml/),
    ]);
    expect(ratedrun(folder, ['rules', 'good.yaml', '--sheet', 'html', '--out', 'new/sheet.html']).code).toBe(0);
    expect(readFileSync(join(folder, 'new', 'sheet.html'), 'utf8')).toContain('<h1><bdi>Example blanket</bdi></h1>');
  });

  it.each([
    [['--out', 'x.html'], /--out is for --sheet/],
    [['--sheet', 'pdf'], /Allowed choices are md, html/],
  ])('%j is refused in one line', (args, said) => {
    const ran = ratedrun(folder, ['rules', 'good.yaml', ...args]);
    expect([ran.code, ran.out, ran.err.trim().split('\n').length]).toEqual([2, '', 1]);
    expect(ran.err).toMatch(said);
  });
});
