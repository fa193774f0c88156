import { spawnSync } from 'node:child_process';
import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { strToU8, unzipSync, zipSync } from 'fflate';
import { beforeAll, describe, expect, it } from 'vitest';
import { DUCT, OPENING, WALL } from '../../fixtures/cases/base.js';
import { ModelBuilder } from '../../fixtures/model-builder.js';
import { readBcf } from '../../src/report/bcf/archive.js';
import { writeMarkup } from '../../src/report/bcf/write-markup.js';
import { parseReport } from '../../src/report/schema.js';
import { ratedrun, temporaryFolder } from './program.js';

const folder = temporaryFolder();
/** Where the report alone is looked at. */
const JSON_ONLY = ['--write', 'json'];
const FIXED = { SOURCE_DATE_EPOCH: '1767225600' };

/** One wall, one duct, one opening; what each test needs of it. */
function model(name: string, change: { rating?: string; opening?: Partial<typeof OPENING> | null } = {}): string {
  const b = new ModelBuilder({ fileName: name });
  const { rating: _, ...unrated } = WALL;
  const rating = 'rating' in change ? change.rating : WALL.rating;
  const wall = b.wall(rating === undefined ? unrated : { ...unrated, rating });
  if (change.opening !== null) b.opening(wall, { ...OPENING, ...change.opening });
  b.duct(DUCT);
  const text = b.toString();
  writeFileSync(join(folder, name), text);
  return text;
}
const reportIn = (out: string) => parseReport(JSON.parse(readFileSync(join(folder, out, 'report.json'), 'utf8')));

describe('exit codes', () => {
  it('1 when something failed, 0 when that is not asked for', () => {
    model('failed.ifc', { opening: null });
    const ran = ratedrun(folder, ['check', 'failed.ifc', '--out', 'failed', ...JSON_ONLY]);
    expect(ran.code).toBe(1);
    expect(reportIn('failed').findings.map((f) => [f.check, f.outcome])).toContainEqual(['opening-modelled', 'failed']);
    expect(
      ratedrun(folder, ['check', 'failed.ifc', '--out', 'failed', '--nonzero-for', 'failed', ...JSON_ONLY]).code,
    ).toBe(1);
    expect(
      ratedrun(folder, ['check', 'failed.ifc', '--out', 'failed', '--nonzero-for', 'nothing', ...JSON_ONLY]).code,
    ).toBe(0);
  });

  it('3 when nothing failed but something can not be told', () => {
    model('unrated.ifc', { rating: undefined as unknown as string });
    expect(ratedrun(folder, ['check', 'unrated.ifc', '--out', 'unrated', ...JSON_ONLY]).code).toBe(3);
    expect(
      ratedrun(folder, ['check', 'unrated.ifc', '--out', 'unrated', '--nonzero-for', 'failed', ...JSON_ONLY]).code,
    ).toBe(0);
    expect(
      ratedrun(folder, ['check', 'unrated.ifc', '--out', 'unrated', '--nonzero-for', 'cantTell', ...JSON_ONLY]).code,
    ).toBe(3);
  });

  it.each([
    [[], /no command given/],
    [['check'], /missing required argument/],
    [['chek', 'a.ifc'], /unknown command/],
    [['check', 'failed.ifc', '--writ', 'json'], /unknown option/],
    [['check', 'failed.ifc', '--write', 'docx'], /--write docx is not an output; choose from/],
    [['check', 'failed.ifc', '--nonzero-for', 'all'], /argument 'all' is invalid/],
    [['check', 'failed.ifc', '--bcf', '2.0'], /argument '2\.0' is invalid/],
    [['check', 'failed.ifc', '--bcf-topics', 'wall'], /argument 'wall' is invalid/],
    [['check', 'failed.ifc', '--previous-bcf', 'nowhere.bcf'], /nowhere\.bcf does not exist/],
    [['check', 'failed.ifc', '--previous-bcf', 'failed.ifc'], /failed\.ifc is no zip archive, so no BCF file/],
    [['check', 'failed.ifc', '--rules', 'nowhere.yaml'], /nowhere\.yaml does not exist/],
  ])('2 with one line for %j', (args, line) => {
    const ran = ratedrun(folder, args);
    expect([ran.code, ran.out]).toEqual([2, '']);
    expect(ran.err).toMatch(line);
    expect(ran.err.trimEnd().split('\n').length).toBe(1);
  });
});

describe('bad input: one line, exit 2, the old report whole', () => {
  const good = model('good.ifc');
  const bad: Readonly<Record<string, Uint8Array | 'folder' | 'missing'>> = {
    'empty.ifc': new Uint8Array(),
    'noise.ifc': Uint8Array.from({ length: 4096 }, (_, i) => (i * 7919) % 251),
    'text.ifc': strToU8('This is a letter, not a model.'),
    'header-cut.ifc': strToU8(good.slice(0, 60)),
    'data-cut.ifc': strToU8(good.slice(0, Math.floor(good.length / 2))),
    'folder.ifc': 'folder',
    'missing.ifc': 'missing',
    'zipped.ifc': zipSync({ 'good.ifc': strToU8(good) }),
    'other-schema.ifc': strToU8(good.replace("'IFC4'", "'CONFIG_CONTROL_DESIGN'")),
  };
  beforeAll(() => {
    for (const [name, content] of Object.entries(bad)) {
      if (content === 'folder') mkdirSync(join(folder, name));
      else if (content !== 'missing') writeFileSync(join(folder, name), content);
    }
    ratedrun(folder, ['check', 'good.ifc', '--out', 'kept']);
  });

  it.each(Object.keys(bad))('%s', (name) => {
    const before = readFileSync(join(folder, 'kept', 'report.json'));
    for (const command of [['check', '--out', 'kept'], ['readiness']]) {
      const ran = ratedrun(folder, [command[0]!, 'good.ifc', name, ...command.slice(1), '--quiet']);
      expect([ran.code, ran.out]).toEqual([2, '']);
      expect(ran.err.trimEnd().split('\n').length).toBe(1);
      expect(ran.err).toContain(name);
      expect(ran.err).not.toMatch(/\bat .*:\d+:\d+/);
    }
    expect(readFileSync(join(folder, 'kept', 'report.json'))).toEqual(before);
    expect(readdirSync(join(folder, 'kept')).sort()).toEqual([
      'facts.json',
      'findings.bcf',
      'geometry.glb',
      'opening-requests.ifc',
      'register.xlsx',
      'report.html',
      'report.json',
    ]);
    expect(readdirSync(folder).filter((entry) => entry.startsWith('.ratedrun'))).toEqual([]);
  });
});

describe('outputs', () => {
  it('ask for openings where some are missing, and take the request back when none is', () => {
    const asked = (...more: string[]) => {
      const model = more.includes('--later') ? 'opened.ifc' : 'unopened.ifc';
      ratedrun(folder, ['check', model, '--out', 'asked', '--quiet', ...more.filter((m) => m !== '--later')], FIXED);
      return readdirSync(join(folder, 'asked')).sort();
    };
    for (const name of ['unopened.ifc', 'opened.ifc']) {
      const builder = new ModelBuilder({ fileName: name });
      const wall = builder.wall(WALL);
      if (name === 'opened.ifc') builder.opening(wall, { centre: [3000, 0, 2000], width: 660, height: 460 });
      // Another wall, with gaps in range, so that a range is known.
      const other = builder.wall({ ...WALL, name: 'Wall B', from: [0, 9000], to: [5000, 9000] });
      builder.opening(other, { centre: [3000, 9000, 2000], width: 660, height: 460 });
      builder.duct({ ...DUCT, to: [3000, 12_000, 2000] });
      writeFileSync(join(folder, name), builder.toString());
    }
    const outputs = ['register.xlsx', 'report.html', 'report.json'];
    const before = ['facts.json', 'findings.bcf', 'geometry.glb'];
    expect(asked()).toEqual([...before, 'opening-requests.ifc', ...outputs]);
    const ifc = () => readFileSync(join(folder, 'asked', 'opening-requests.ifc'), 'utf8');
    expect(ifc()).toContain("FILE_SCHEMA(('IFC4'))");
    asked('--ifc-schema', 'IFC4X3', '--write', 'ifc');
    expect(ifc()).toContain("FILE_SCHEMA(('IFC4X3_ADD2'))");
    // An old request would still say what holds no longer.
    expect(asked('--later')).toEqual([...before, ...outputs]);
  });

  it('--json prints the report alone, --quiet leaves stderr empty, --write chooses', () => {
    const ran = ratedrun(folder, ['check', 'good.ifc', '--out', 'json', '--json', '--quiet', '--write', 'json'], FIXED);
    expect(ran.err).toBe('');
    expect(ran.out).toBe(readFileSync(join(folder, 'json', 'report.json'), 'utf8'));
    expect(readdirSync(join(folder, 'json'))).toEqual(['report.json']);
  });

  it('progress goes to stderr as plain lines when it is no terminal, the summary to stdout', () => {
    const ran = ratedrun(folder, ['check', 'good.ifc', '--out', 'summary']);
    expect(ran.err).toMatch(/^Reading good\.ifc\n/);
    expect(ran.err).not.toContain('\u001b');
    expect(ran.out).toMatch(/1 penetration/);
    expect(ran.out).toContain(join('summary', 'report.json'));
  });

  it('a zipped model gives the same findings', () => {
    writeFileSync(join(folder, 'zipped.ifczip'), zipSync({ 'good.ifc': strToU8(good()) }));
    ratedrun(folder, ['check', 'zipped.ifczip', '--out', 'zipped', ...JSON_ONLY]);
    ratedrun(folder, ['check', 'good.ifc', '--out', 'plain', ...JSON_ONLY]);
    expect(reportIn('zipped').penetrations).toEqual(reportIn('plain').penetrations);
  });

  it.skipIf(process.platform === 'win32')('a disk that takes no more leaves the old report whole', () => {
    ratedrun(folder, ['check', 'good.ifc', '--out', 'full', '--quiet']);
    const names = readdirSync(join(folder, 'full'));
    const before = names.map((name) => readFileSync(join(folder, 'full', name)));
    // No file over 32 KB: report.html is not the first, and is cut.
    const limited = `ulimit -f 64; exec "${process.execPath}" "${resolve('dist/src/cli/main.js')}" check good.ifc --out full --quiet`;
    const ran = spawnSync('/bin/sh', ['-c', limited], { cwd: folder, encoding: 'utf8' });
    expect([ran.status, ran.stderr]).toEqual([
      2,
      'ratedrun: full can not be written (EFBIG); choose another folder with --out.\n',
    ]);
    expect(readdirSync(join(folder, 'full'))).toEqual(names);
    expect(names.map((name) => readFileSync(join(folder, 'full', name)))).toEqual(before);
  });

  it('an output folder that is a file is said', () => {
    writeFileSync(join(folder, 'a-file'), '');
    const ran = ratedrun(folder, ['check', 'good.ifc', '--out', 'a-file', '--quiet']);
    expect(ran.code).toBe(2);
    expect(ran.err).toMatch(/a-file can not be written .* choose another folder with --out/);
  });

  const good = () => readFileSync(join(folder, 'good.ifc'), 'utf8');
});

describe('issue exchange', () => {
  const bcfIn = (out: string) => readBcf(readFileSync(join(folder, out, 'findings.bcf')));

  it('findings.bcf is 3.0 with a topic for each failed finding, or as it is asked for', () => {
    model('exchange.ifc', { opening: null });
    ratedrun(folder, ['check', 'exchange.ifc', '--out', 'bcf3']);
    const failed = reportIn('bcf3').findings.filter((f) => f.outcome === 'failed');
    expect(bcfIn('bcf3').version).toBe('3.0');
    expect(bcfIn('bcf3').topics.length).toBe(failed.length);
    expect(failed.every((f) => f.topic === null)).toBe(true);
    ratedrun(folder, ['check', 'exchange.ifc', '--out', 'bcf2', '--bcf', '2.1', '--bcf-topics', 'penetration']);
    expect(bcfIn('bcf2').version).toBe('2.1');
    expect(bcfIn('bcf2').topics.length).toBe(1);
  });

  it('what people said comes back into the report and goes out again', () => {
    model('exchange.ifc', { opening: null });
    ratedrun(folder, ['check', 'exchange.ifc', '--out', 'sent']);
    const [first] = bcfIn('sent').topics;
    const topic = { ...first!.topic, status: 'Closed', assignedTo: 'coordinator@example.com' };
    const entries = unzipSync(readFileSync(join(folder, 'sent', 'findings.bcf')));
    const markup = strToU8(writeMarkup(topic, '3.0'));
    writeFileSync(join(folder, 'back.bcf'), zipSync({ ...entries, [`${topic.guid}/markup.bcf`]: markup }));
    const ran = ratedrun(folder, ['check', 'exchange.ifc', '--out', 'again', '--previous-bcf', 'back.bcf']);
    expect(ran.code).toBe(1); // what is closed by people still fails
    const finding = reportIn('again').findings.find((f) => f.topic?.status === 'Closed')!;
    expect(finding.topic).toMatchObject({ guid: topic.guid, assignedTo: 'coordinator@example.com', comments: [] });
    expect(finding.outcome).toBe('failed');
    expect(bcfIn('again').topics.find((t) => t.topic.guid === topic.guid)!.topic).toMatchObject({
      status: 'Closed',
      assignedTo: 'coordinator@example.com',
    });
    const other = ratedrun(folder, ['check', 'exchange.ifc', '--previous-bcf', 'back.bcf', '--bcf', '2.1', '--quiet']);
    expect([other.code, other.err]).toEqual([
      2,
      'ratedrun: back.bcf is BCF 3.0; what is in it can only be kept in that version: leave out --bcf 2.1\n',
    ]);
  });
});
