/** The program itself among hostile names: what it writes where, and what comes out of it on a terminal. */
import { mkdirSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { run } from '../../src/cli/run.js';
import { type Ran, ratedrun, temporaryFolder } from '../cli/program.js';
import { checkModels, SOME, writeModels } from './program.js';
import { OBEYED, readJson } from './readers.js';

const folder = join(temporaryFolder(), 'here');
const OUTPUTS = 'json,xlsx,bcf,html,ifc,glb,facts,csv,cards,itp,junit';
const FILES = [
  'facts.json',
  'findings.bcf',
  'findings.junit.xml',
  'geometry.glb',
  'inspection-plan.html',
  'install-cards.html',
  'opening-requests.ifc',
  'register.csv',
  'register.xlsx',
  'report.html',
  'report.json',
];

const linesThatAreObeyed = (text: string): string[] => text.split('\n').filter((line) => OBEYED.test(line));

describe('models whose names are hostile', () => {
  let models: string[];
  let ran: Ran;
  beforeAll(() => {
    models = writeModels(
      folder,
      SOME.filter(({ kind }) => kind !== 'long' && kind !== 'css'),
    );
    ran = checkModels(folder, models, '--out', 'out', '--write', OUTPUTS);
  }, 600_000);

  it('are reviewed', () => {
    expect([ran.code, ran.err.split('\n').at(-1)]).toEqual([1, '']);
    expect(models.filter((name) => !name.startsWith('model-')).length).toBeGreaterThan(5);
  });

  it('name no file, and nothing is written beside the folder', () => {
    const wanted = FILES.filter((name) => name !== 'opening-requests.ifc');
    expect(
      readdirSync(join(folder, 'out'))
        .filter((name) => name !== 'opening-requests.ifc')
        .sort(),
    ).toEqual(wanted);
    expect(readdirSync(folder).sort()).toEqual(
      [...models.map((name) => name.replace('./', '')), 'brief.yaml', 'out'].sort(),
    );
    expect(readdirSync(join(folder, '..'))).toEqual(['here']);
  });

  it('send nothing to the terminal that it would obey', () => {
    expect(linesThatAreObeyed(ran.out)).toEqual([]);
    expect(linesThatAreObeyed(ran.err)).toEqual([]);
    const json = ratedrun(folder, ['readiness', '--json', '--quiet', '--', ...models.slice(0, 4)]);
    expect([json.code, linesThatAreObeyed(json.out), readJson(new TextEncoder().encode(json.out)).wrong]).toEqual([
      0,
      [],
      [],
    ]);
  });
});

describe('what can not be done', () => {
  it.each(SOME.map((text) => [text.kind, text.at('path')]))(
    'says so in one line that does no harm: %s',
    async (_, path) => {
      for (const args of [
        ['check', path],
        ['check', '--project-brief', path, 'a.ifc'],
        ['readiness', path],
        ['rules', path],
        ['compare', path, path],
        ['portfolio', path],
        ['view', path],
        ['check', `--${path}`, 'a.ifc'],
        ['check', '--write', path, 'a.ifc'],
        ['check', '--assume', path, 'a.ifc'],
        ['check', '--revision', `${path}${'x'.repeat(30)}`, 'a.ifc'],
        [path],
      ]) {
        const said: string[] = [];
        const stream = { write: (part: string | Uint8Array) => said.push(String(part)) };
        const code = await run(args, { out: stream, err: stream } as never);
        expect([args[0], code, linesThatAreObeyed(said.join(''))]).toEqual([args[0], 2, []]);
        expect(said.join('').trimEnd().split('\n'), said.join('')).toHaveLength(1);
      }
    },
  );

  it('documents with hostile texts in them are refused in one line', () => {
    mkdirSync(folder, { recursive: true });
    for (const text of SOME) {
      writeFileSync(
        join(folder, 'brief.yaml'),
        JSON.stringify({ kind: 'project-brief', id: text.at('briefId'), [text.at('briefKey')]: 1 }),
      );
      const ran = ratedrun(folder, ['rules', 'brief.yaml']);
      expect([ran.code, ran.out, linesThatAreObeyed(ran.err), ran.err.trimEnd().split('\n').length]).toEqual([
        2,
        '',
        [],
        1,
      ]);
      if (text.kind === 'terminal') break; // each starts the program anew
    }
  });
});
