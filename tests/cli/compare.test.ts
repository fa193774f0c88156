/** `check --previous`, `--revision`, `compare` as a person runs them. */
import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { DUCT, OPENING, WALL } from '../../fixtures/cases/base.js';
import { ModelBuilder } from '../../fixtures/model-builder.js';
import { comparisonSchema } from '../../src/compare/schema.js';
import { parseReport } from '../../src/report/schema.js';
import { deleted, withNewIds } from '../reexport.js';
import { ratedrun, temporaryFolder } from './program.js';

const folder = temporaryFolder();
const on = (day: number) => ({ SOURCE_DATE_EPOCH: String(1767225600 + 86_400 * day) });
const check = (model: string, out: string, day: number, ...more: string[]) =>
  ratedrun(folder, ['check', model, '--out', out, '--quiet', ...more], on(day));
const reportIn = (out: string) => parseReport(JSON.parse(readFileSync(join(folder, out, 'report.json'), 'utf8')));

beforeAll(() => {
  const b = new ModelBuilder({ fileName: 'a.ifc' });
  b.opening(b.wall(WALL), OPENING);
  b.duct(DUCT);
  const text = b.toString();
  writeFileSync(join(folder, 'a.ifc'), text);
  writeFileSync(join(folder, 'b.ifc'), withNewIds('b')(text));
  writeFileSync(join(folder, 'none.ifc'), deleted(DUCT.name)(text));
}, 60_000);

describe('revisions', () => {
  it('keep their tags, list every tag, say since when one is absent', { timeout: 120_000 }, () => {
    check('a.ifc', 'first', 0, '--revision', 'A');
    check('b.ifc', 'second', 1, '--revision', 'B', '--previous', 'first', '--write', 'csv,junit,cards,itp');
    check('none.ifc', 'third', 2, '--previous', 'second', '--write', 'html');
    check('a.ifc', 'fourth', 3, '--previous', 'third');
    const [first, second, third, fourth] = ['first', 'second', 'third', 'fourth'].map(reportIn);
    const [p] = first!.penetrations;
    const issued = { tag: p!.tag, key: p!.key, issuedAt: '2026-01-01T00:00:00Z', absentSince: null };
    expect([first!.revision, second!.revision, third!.revision]).toEqual(['A', 'B', null]);
    expect(second!.penetrations[0]).toMatchObject({ key: p!.key, tag: p!.tag });
    expect(second!.penetrations[0]!.inferredFrom).toMatchObject({ duct: p!.duct.globalId });
    expect([first!.issuedTags, second!.issuedTags, fourth!.issuedTags]).toEqual([[issued], [issued], [issued]]);
    expect(third!.issuedTags).toEqual([{ ...issued, absentSince: '2026-01-03T00:00:00Z' }]);
    expect(readFileSync(join(folder, 'third', 'report.html'), 'utf8')).toContain('<h3>Absent penetrations (1)</h3>');
    expect(readdirSync(join(folder, 'second')).sort()).toEqual([
      'findings.junit.xml',
      'inspection-plan.html',
      'install-cards.html',
      'register.csv',
      'report.json',
    ]);
    for (const paper of ['inspection-plan.html', 'install-cards.html'])
      expect(readFileSync(join(folder, 'second', paper), 'utf8')).toMatch(/revision B\b/);
    expect(readFileSync(join(folder, 'second', 'register.csv'), 'utf8')).toContain(`${p!.tag},B,`);
    expect(readFileSync(join(folder, 'second', 'findings.junit.xml'), 'utf8')).toContain(`name="${p!.tag} rev. B: `);
  });

  it('are compared as text, as JSON, into a file', { timeout: 60_000 }, () => {
    const { tag } = reportIn('first').penetrations[0]!;
    const text = ratedrun(folder, ['compare', 'first', 'second']);
    expect([text.code, text.err]).toEqual([0, '']);
    expect(text.out).toMatch(/^From revision A of 2026-01-01 to revision B of 2026-01-02\.\n1 penetration: 0 new, /);
    expect(text.out).toContain(`Unchanged, known again by place (1)\n  ${tag}`);
    const json = ratedrun(folder, ['compare', 'second', 'third', '--json', '--out', 'comparison.json']);
    expect([json.code, json.out, json.err]).toEqual([0, '', '']);
    const comparison = comparisonSchema.parse(JSON.parse(readFileSync(join(folder, 'comparison.json'), 'utf8')));
    expect(comparison.penetrations).toMatchObject([{ status: 'absent', tag }]);
  });
});

describe('what can not be compared or carried on: one line, exit 2', () => {
  const bad: Readonly<Record<string, string | undefined>> = {
    missing: undefined,
    cut: '{"format": "ratedrun-report", "version": 1,',
    other: '{"format": "another program", "version": 1}',
    later: '{"format": "ratedrun-report", "version": 2}',
    damaged: '{"format": "ratedrun-report", "version": 1, "tool": "ratedrun 0.1.0"}',
  };
  beforeAll(() => {
    for (const [name, text] of Object.entries(bad)) {
      mkdirSync(join(folder, name));
      if (text !== undefined) writeFileSync(join(folder, name, 'report.json'), text);
    }
  });

  it.each([
    ['missing', /does not exist; check the path/],
    ['cut', /is not JSON, or cut off; name a folder/],
    ['other', /is no report of this program; name a folder/],
    ['later', /has format version 2, and this program reads up to 1; take a later one/],
    ['damaged', /can not be used \(.+\): it is damaged or older than this program; check its models again/],
  ])('%s', { timeout: 60_000 }, (name, line) => {
    for (const args of [
      ['compare', 'first', name],
      ['check', 'a.ifc', '--previous', name, '--out', 'never'],
    ]) {
      const ran = ratedrun(folder, args);
      expect([ran.code, ran.out]).toEqual([2, '']);
      expect(ran.err.trimEnd().split('\n')).toHaveLength(1);
      expect(ran.err).toMatch(line);
      expect(ran.err).toContain(join(name, 'report.json'));
    }
    expect(readdirSync(folder)).not.toContain('never');
  });

  it.each(['', ' ', 'a revision with far too long a name'])('the revision %j', (revision) => {
    const ran = ratedrun(folder, ['check', 'a.ifc', '--revision', revision]);
    expect([ran.code, ran.err.trimEnd().split('\n').length]).toEqual([2, 1]);
    expect(ran.err).toMatch(/--revision takes 1 to 20 characters/);
  });
});
