/** Project briefs as a person gives them: to `check`, to `rules`, and a new one to start from. */
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { writeDemo } from '../../fixtures/write-demo.js';
import { parseReport } from '../../src/report/schema.js';
import { writeSummary } from '../../src/report/summary.js';
import { DEMONSTRATION } from '../../src/report/words.js';
import { readXlsx } from '../report/read-xlsx.js';
import { ratedrun, temporaryFolder } from './program.js';

const folder = temporaryFolder();
/** Without the pictures and papers, which these tests are not about. */
const QUICK = ['--write', 'json', '--quiet'];
const BRIEF = resolve('fixtures/demo/brief.yaml');
const reportIn = (out: string) => parseReport(JSON.parse(readFileSync(join(folder, out, 'report.json'), 'utf8')));
const lines = (text: string) => text.trimEnd().split('\n');

let models: string[];
beforeAll(() => {
  models = writeDemo(join(folder, 'models'));
});

describe('check under a brief', () => {
  it('judges by it, names it, and stamps demonstration data on every output', () => {
    const ran = ratedrun(folder, ['check', ...models, '--project-brief', BRIEF, '--out', 'briefed', '--quiet']);
    expect([ran.code, ran.err]).toEqual([1, '']);
    const report = reportIn('briefed');
    expect(report.demonstration).toBe(true);
    expect(report.brief).toEqual({ file: 'brief.yaml', sha256: expect.stringMatching(/^[0-9a-f]{64}$/) });
    expect(report.summary.penetrationOutcomes.passed).toBeGreaterThan(0);
    expect(lines(ran.out)[0]).toBe(DEMONSTRATION);
    expect(lines(writeSummary(report, { files: [] }))[0]).toBe(DEMONSTRATION);
    const register = new Uint8Array(readFileSync(join(folder, 'briefed', 'register.xlsx')));
    for (const { rows } of readXlsx(register).sheets) expect(rows[0]![0]?.value).toBe(DEMONSTRATION);
  });

  it('proves nothing about fire without it', () => {
    ratedrun(folder, ['check', ...models, '--out', 'default', ...QUICK]);
    const report = reportIn('default');
    expect([report.demonstration, report.brief]).toEqual([false, null]);
    for (const { about, outcomes } of report.checks) if (about === 'fire') expect(outcomes.passed).toBe(0);
    expect(report.summary.penetrationOutcomes.passed).toBe(0);
  });

  it('takes ratings from its drawings, so that what waited for them is judged', () => {
    const rated = readFileSync(BRIEF, 'utf8').replace(
      'facts:\n',
      'facts:\n  ratings: [{ barrier: Store wall, rating: -/60/60, drawing: invented A-301, revision: C }]\n',
    );
    writeFileSync(join(folder, 'rated.yaml'), rated);
    ratedrun(folder, ['check', ...models, '--project-brief', 'rated.yaml', '--out', 'rated', ...QUICK]);
    const { barriers, findings } = reportIn('rated');
    const store = barriers.find(({ name }) => name === 'Store wall')!;
    expect(store.rating).toMatchObject({ state: 'stated', text: '-/60/60', from: 'brief', integrity: 60 });
    expect(findings.filter((f) => f.check === 'barrier-rating-known').map((f) => f.message)).toEqual([
      expect.stringContaining('Café wall'),
    ]);
  });

  it.each([
    ['nowhere.yaml', undefined, /nowhere\.yaml does not exist/],
    ['keys.yaml', 'kind: project-brief\nid: a\nversion: "1"\nchoice: {}\n', /keys\.yaml:4:1 unknown key "choice"/],
    [
      'system.yaml',
      'kind: project-brief\nid: a\nversion: "1"\nchoices: { testedSystems: [nothing-known] }\n',
      /system\.yaml:4:\d+ no rule document holds a tested system "nothing-known"/,
    ],
    ['set.yaml', 'kind: check-set\nid: a\n', /set\.yaml:1:\d+ .*kind/],
  ])('%s is refused in one line, and an old report stays', (file, text, line) => {
    mkdirSync(join(folder, 'kept'), { recursive: true });
    writeFileSync(join(folder, 'kept', 'report.json'), 'old');
    if (text !== undefined) writeFileSync(join(folder, file), text);
    const ran = ratedrun(folder, ['check', ...models, '--project-brief', file, '--out', 'kept', '--quiet']);
    expect([ran.code, ran.out, lines(ran.err).length]).toEqual([2, '', 1]);
    expect(ran.err).toMatch(line);
    expect(readFileSync(join(folder, 'kept', 'report.json'), 'utf8')).toBe('old');
  });
});

describe('rules', () => {
  it('--new-brief prints a brief that loads as it stands and changes nothing', () => {
    const ran = ratedrun(folder, ['rules', '--new-brief']);
    expect([ran.code, ran.err]).toEqual([0, '']);
    writeFileSync(join(folder, 'new.yaml'), ran.out);
    expect(ratedrun(folder, ['rules', 'new.yaml'])).toMatchObject({
      code: 0,
      out: 'new.yaml: my-project 1, project brief\n',
    });
    ratedrun(folder, ['check', ...models, '--out', 'plain', ...QUICK]);
    ratedrun(folder, ['check', ...models, '--project-brief', 'new.yaml', '--out', 'new', ...QUICK]);
    const [plain, briefed] = [reportIn('plain'), reportIn('new')];
    expect(briefed.findings).toEqual(plain.findings);
    expect(briefed.brief?.file).toBe('new.yaml');
  });

  it('validates a brief against the rules beside it, else against the shipped ones', () => {
    const alone = ratedrun(folder, ['rules', BRIEF]);
    expect([alone.code, alone.out]).toEqual([0, `${BRIEF}: kestrel-quay 1, project brief for demonstration\n`]);
    const among = ratedrun(folder, ['rules', BRIEF, resolve('rules/common-practice.yaml')]);
    expect([among.code, lines(among.err).length]).toEqual([2, 1]);
    expect(among.err).toMatch(/no rule document holds a tested system "demonstration-blanket"/);
    const json = JSON.parse(ratedrun(folder, ['rules', BRIEF, resolve('rules'), '--json']).out);
    expect(json.briefs).toEqual([{ file: BRIEF, id: 'kestrel-quay', version: '1', demonstration: true }]);
    expect(json.examples.every(({ ok }: { ok: boolean }) => ok)).toBe(true);
  });

  it('prints the schemas of all documents', () => {
    const schemas = JSON.parse(ratedrun(folder, ['rules', '--schema']).out);
    expect(Object.keys(schemas)).toEqual([
      'check-set',
      'tested-system',
      'tested-damper',
      'construction-table',
      'service-table',
      'published-values',
      'flange-table',
      'project-brief',
    ]);
  });
});
