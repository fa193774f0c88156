/** What people decided, and what somebody tries out, as the program shows them: beside the review, never in it. */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { DUCT, OPENING, WALL } from '../../fixtures/cases/base.js';
import { ModelBuilder } from '../../fixtures/model-builder.js';
import { readBcf } from '../../src/report/bcf/archive.js';
import { parseReport } from '../../src/report/schema.js';
import { readXlsx } from '../report/read-xlsx.js';
import { ratedrun, temporaryFolder } from './program.js';

const folder = temporaryFolder();
const at = (...names: string[]) => join(folder, ...names);
const text = (...names: string[]) => readFileSync(at(...names), 'utf8');
const reportIn = (out: string) => parseReport(JSON.parse(text(out, 'report.json')));
const lines = (said: string) => said.trimEnd().split('\n');
const FIXED = { SOURCE_DATE_EPOCH: '1767225600' };
const check = (out: string, ...options: string[]) =>
  ratedrun(folder, ['check', 'model.ifc', '--out', out, '--quiet', ...options], FIXED);

beforeAll(() => {
  const b = new ModelBuilder({ fileName: 'model.ifc' });
  b.opening(b.wall(WALL), { ...OPENING, width: OPENING.width + 200 });
  b.duct(DUCT);
  writeFileSync(at('model.ifc'), b.toString());
  check('plain', '--write', 'json,html');
});

describe('ratedrun concession', () => {
  it('prints entries that stand beside their findings once they are filled in, and change nothing', () => {
    const before = reportIn('plain');
    const [wide] = before.findings.filter((one) => one.check === 'gap-within-range' && one.outcome === 'failed');
    const printed = ratedrun(folder, ['concession', 'plain', wide!.key]);
    expect([printed.code, printed.err]).toEqual([0, '']);
    expect(ratedrun(folder, ['concession', 'plain', wide!.id]).out).toBe(printed.out);
    const filled = printed.out
      .replace(/(reason|grantedBy|role|reference): #.*/g, '$1: given $1')
      .replace(/^( +)date: #.*/m, '$1date: 2025-03-02');
    writeFileSync(at('brief.yaml'), `kind: project-brief\nid: p\nversion: "1"\n${filled}`);
    const ran = check('conceded', '--project-brief', 'brief.yaml');
    const report = reportIn('conceded');
    expect(ran.code).toBe(1);
    expect(report.summary).toEqual(before.summary);
    expect(report.concessions).toMatchObject([{ key: wide!.key, state: 'inForce', finding: wide!.id }]);
    const words = 'Concession by given grantedBy (given role), given reference, 2025-03-02: given reason';
    expect(ran.out.replace(/\s+/g, ' ')).toContain(words);
    const html = text('conceded', 'report.html');
    expect(html).toContain(words);
    expect(html).toContain(wide!.key);
    const cells = readXlsx(new Uint8Array(readFileSync(at('conceded', 'register.xlsx')))).sheets.flatMap(({ rows }) =>
      rows.flatMap((row) => row.map((cell) => cell?.value)),
    );
    expect(cells.filter((value) => value === words)).toHaveLength(2);
    const { topics } = readBcf(new Uint8Array(readFileSync(at('conceded', 'findings.bcf'))));
    const told = topics.filter(({ topic }) => topic.description?.includes(`${words} It changes no outcome.`));
    expect(told).toHaveLength(1);

    writeFileSync(at('brief.yaml'), text('brief.yaml').replace(/measured: .*/, 'measured: 99'));
    const lapsed = check('lapsed', '--project-brief', 'brief.yaml', '--write', 'json');
    expect(lapsed.code).toBe(1);
    expect(lapsed.out.replace(/\s+/g, ' ')).toContain(`LAPSED concession (measured was 99 and is ${wide!.measured})`);
  });

  it.each([
    [['plain', 'F-9999'], /the report lists no finding "F-9999"/],
    [['nowhere', 'F-0001'], /report\.json does not exist/],
    [['plain'], /missing required argument/],
  ])('refuses %j in one line', (args, line) => {
    const ran = ratedrun(folder, ['concession', ...args]);
    expect([ran.code, ran.out, lines(ran.err).length]).toEqual([2, '', 1]);
    expect(ran.err).toMatch(line);
  });
});

describe('check --assume', () => {
  it('says what would change, and the review beside it is the one without', () => {
    const ran = check(
      'assumed',
      '--assume',
      'siteTolerance=200',
      '--assume',
      'flangeHeight=20',
      '--write',
      'json,html',
    );
    expect(ran.code).toBe(1);
    const [plain, { assumed, ...report }] = [reportIn('plain'), reportIn('assumed')];
    expect({ ...report, assumed: null }).toEqual(plain);
    expect(assumed?.choices).toEqual([
      { name: 'siteTolerance', before: null, value: 200 },
      { name: 'flangeHeight', before: null, value: 20 },
    ]);
    expect(assumed!.comes.length).toBeGreaterThan(0);
    expect(ran.out).toContain('ASSUMPTION: what would be said');
    expect(ran.out).toContain('If siteTolerance is 200 (in the brief: left out):');
    const html = text('assumed', 'report.html');
    expect(html.match(/<section class="assumed">/g)).toHaveLength(1);
    expect(html).toMatch(/<p class="stamp">ASSUMPTION: what would be said/);
    expect(text('plain', 'report.html')).not.toContain('ASSUMPTION');
  });

  it.each([
    ['room.workin=5', /--assume: assuming room\.workin: unknown key "workin"; perhaps you meant "working"/],
    ['protectionModelled=true', /is a fact: the models would have to be read again/],
    ['siteTolerance', /is no assumption; write NAME=VALUE/],
  ])('refuses %s in one line, before it reads anything', (assumption, line) => {
    const ran = check('refused', '--assume', assumption);
    expect([ran.code, ran.out, lines(ran.err).length]).toEqual([2, '', 1]);
    expect(ran.err).toMatch(line);
  });
});
