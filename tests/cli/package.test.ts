/** The packed package, as a user gets it; and the clone, from another folder. */
import { execFileSync, spawnSync } from 'node:child_process';
import { readdirSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { expect, it } from 'vitest';
import { DUCT, WALL } from '../../fixtures/cases/base.js';
import { ModelBuilder } from '../../fixtures/model-builder.js';
import { temporaryFolder } from './program.js';

const folder = temporaryFolder();
const npm = (cwd: string, args: readonly string[]) =>
  spawnSync('npm', args, {
    cwd,
    encoding: 'utf8',
    shell: process.platform === 'win32',
    env: { ...process.env, INIT_CWD: undefined },
  });

function writeModel(name: string): void {
  const b = new ModelBuilder({ fileName: name });
  b.wall(WALL);
  b.duct(DUCT);
  writeFileSync(join(folder, name), b.toString());
}

it('runs from a tarball in an empty folder', { timeout: 180_000 }, (context) => {
  writeModel('file.ifc');
  const packed = npm(resolve('.'), ['pack', '--pack-destination', folder, '--ignore-scripts']);
  expect(packed.status, packed.stderr).toBe(0);
  const tarball = readdirSync(folder).find((name) => name.endsWith('.tgz'))!;
  writeFileSync(join(folder, 'package.json'), '{ "private": true }');
  const installed = npm(folder, ['install', '--prefer-offline', '--no-audit', '--no-fund', tarball]);
  if (/ENOTFOUND|ECONNREFUSED|EAI_AGAIN|ETIMEDOUT/.test(installed.stderr))
    context.skip('no package registry to install from');
  expect(installed.status, installed.stderr).toBe(0);
  const ran = spawnSync('npx', ['ratedrun', 'readiness', 'file.ifc', '--quiet'], {
    cwd: folder,
    encoding: 'utf8',
    shell: process.platform === 'win32',
  });
  expect([ran.status, ran.stderr]).toEqual([0, '']);
  expect(ran.stdout).toContain('file.ifc');
  const checked = spawnSync('npx', ['ratedrun', 'check', 'file.ifc', '--quiet'], { cwd: folder, encoding: 'utf8' });
  expect([checked.status, checked.stderr]).toEqual([1, '']);
  expect(readdirSync(join(folder, 'ratedrun-report')).sort()).toEqual([
    'facts.json',
    'findings.bcf',
    'geometry.glb',
    'register.xlsx',
    'report.html',
    'report.json',
  ]);
});

it('under npm run, paths are resolved where the person stands', { timeout: 60_000 }, () => {
  writeModel('here.ifc');
  const out = execFileSync(
    'npm',
    ['run', '-s', 'ratedrun', '--prefix', resolve('.'), '--', 'readiness', 'here.ifc', '--quiet'],
    {
      cwd: folder,
      encoding: 'utf8',
      env: { ...process.env, INIT_CWD: folder },
    },
  );
  expect(out).toContain('here.ifc');
});
