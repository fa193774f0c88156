/** `ratedrun view` as a person starts it. */
import { type ChildProcess, spawn } from 'node:child_process';
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { afterEach, beforeAll, describe, expect, it } from 'vitest';
import { DUCT, WALL } from '../../fixtures/cases/base.js';
import { ModelBuilder } from '../../fixtures/model-builder.js';
import { ratedrun, temporaryFolder } from './program.js';

const folder = temporaryFolder();
const running: ChildProcess[] = [];
afterEach(() => {
  for (const child of running.splice(0)) child.kill('SIGKILL');
});

beforeAll(() => {
  const builder = new ModelBuilder({ fileName: 'one.ifc' });
  builder.wall(WALL);
  builder.duct(DUCT);
  writeFileSync(join(folder, 'one.ifc'), builder.toString());
});

/** Waits for the line that says where it is. */
async function started(...args: readonly string[]): Promise<{ url: string; child: ChildProcess }> {
  const child = spawn(process.execPath, [resolve('dist/src/cli/main.js'), 'view', ...args], { cwd: folder });
  running.push(child);
  let text = '';
  const url = await new Promise<string>((done, failed) => {
    child.once('exit', (code) => failed(new Error(`ended with ${code}: ${text}`)));
    child.stderr.on('data', (part: Buffer) => {
      text += part.toString();
    });
    child.stdout.on('data', (part: Buffer) => {
      text += part.toString();
      const found = /http:\/\/127\.0\.0\.1:\d+\//.exec(text);
      if (found) done(found[0]);
    });
  });
  return { url, child };
}

describe('a finished report', () => {
  it('is served with the page, written to only as a brief, and ends with code 0 when told to', async () => {
    ratedrun(folder, ['check', 'one.ifc', '--out', 'report', '--quiet']);
    const { url, child } = await started('report');
    const text = async (path: string) => (await fetch(new URL(path, url))).text();
    expect(await text('review/report.json')).toBe(readFileSync(join(folder, 'report', 'report.json'), 'utf8'));
    expect((await fetch(new URL('review/geometry.glb', url))).headers.get('content-type')).toBe('model/gltf-binary');
    expect((await fetch(new URL('review/register.xlsx', url))).status).toBe(404);
    const page = await text('/');
    expect(page).toContain('<ratedrun-viewer>');
    for (const [, file] of page.matchAll(/(?:src|href)="([^"]+)"/g))
      expect((await fetch(new URL(file!, url))).status, file).toBe(200);
    const saved = await fetch(new URL('review/brief.yaml', url), {
      method: 'PUT',
      headers: { origin: url.slice(0, -1) },
      body: 'kind: project-brief\n',
    });
    expect([saved.status, await saved.text()]).toEqual([200, 'brief.yaml']);
    expect(readFileSync(join(folder, 'report', 'brief.yaml'), 'utf8')).toBe('kind: project-brief\n');
    const ended = new Promise((done) => child.once('exit', done));
    child.kill('SIGINT');
    expect(await ended).toBe(0);
  });
});

describe('a report that is written again while it is shown', () => {
  it('stays what it was for a page that is open; the next page shows the new one', async () => {
    ratedrun(folder, ['check', 'one.ifc', '--out', 'again', '--quiet'], { SOURCE_DATE_EPOCH: '1' });
    const { url } = await started('again');
    const bytes = async (file: string) =>
      Buffer.from(await (await fetch(new URL(`review/${file}`, url))).arrayBuffer());
    const before = await bytes('report.json');
    ratedrun(folder, ['check', 'one.ifc', '--out', 'again', '--quiet'], { SOURCE_DATE_EPOCH: '2' });
    expect(readFileSync(join(folder, 'again', 'report.json')).equals(before)).toBe(false);
    expect((await bytes('report.json')).equals(before)).toBe(true);
    const facts = JSON.parse((await bytes('facts.json')).toString());
    expect(facts.createdAt).toBe(JSON.parse(before.toString()).createdAt);
    await fetch(url);
    for (const file of ['report.json', 'facts.json', 'geometry.glb'])
      expect((await bytes(file)).equals(readFileSync(join(folder, 'again', file))), file).toBe(true);
  });
});

describe('models', () => {
  it('are checked first', async () => {
    const { url } = await started('one.ifc', '--out', 'checked', '--quiet');
    const report = (await (await fetch(new URL('review/report.json', url))).json()) as { summary: object };
    expect(report.summary).toMatchObject({ penetrations: 1 });
  });

  it('need not be there yet', async () => {
    const { url } = await started();
    expect((await fetch(url)).status).toBe(200);
    expect((await fetch(new URL('review/report.json', url))).status).toBe(404);
  });
});

describe('what can not be shown: one line, exit 2', () => {
  it.each([
    [['empty'], /^ratedrun: empty\/report\.json does not exist; check the path\.\n$/],
    [['nothing.ifc', '--quiet'], /^ratedrun: nothing\.ifc does not exist; check the path\.\n$/],
    [['empty', 'one.ifc'], /^ratedrun: empty is a folder; name one folder of a report, or models\.\n$/],
    [['--port', '70000'], /^ratedrun: --port 70000 is no port/],
  ])('%s', (args, line) => {
    mkdirSync(join(folder, 'empty'), { recursive: true });
    const ran = ratedrun(folder, ['view', ...args]);
    expect([ran.code, ran.out]).toEqual([2, '']);
    expect(ran.err).toMatch(line);
  });

  it('a port that is taken', async () => {
    const { url } = await started();
    const { port } = new URL(url);
    const ran = ratedrun(folder, ['view', '--port', port]);
    expect([ran.code, ran.err]).toEqual([2, `ratedrun: port ${port} is taken; choose another with --port.\n`]);
  });
});
