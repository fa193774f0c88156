// Makes a clone ready to run, with nothing but Node and npm: installs what the lock file names when that is missing or
// older, and compiles when a source is newer than the last build. Does nothing, quickly, when all is in place.
import { spawnSync } from 'node:child_process';
import { existsSync, readdirSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('..', import.meta.url));
const at = (...parts) => join(root, ...parts);
const changed = (path) => (existsSync(path) ? statSync(path).mtimeMs : -1);

function newest(folder) {
  return readdirSync(folder, { withFileTypes: true, recursive: true })
    .filter((entry) => entry.isFile())
    .reduce((latest, entry) => Math.max(latest, changed(join(entry.parentPath ?? entry.path, entry.name))), 0);
}

function run(command, args, env = process.env) {
  // Everything to stderr: stdout belongs to the program that runs next.
  const done = spawnSync(command, args, {
    cwd: root,
    env,
    stdio: ['ignore', 2, 2],
    shell: process.platform === 'win32',
  });
  if (done.status !== 0) {
    process.stderr.write(`${command} ${args.join(' ')} failed; mend what it says above and try again.\n`);
    process.exit(2);
  }
}

if (changed(at('node_modules', '.package-lock.json')) < changed(at('package-lock.json'))) {
  process.stderr.write('Installing the packages that the lock file names ...\n');
  run('npm', ['ci', '--no-audit', '--no-fund', '--loglevel=error']);
}

const stamp = at('dist', '.built');
const commands = ['approved', 'bench', 'fuzz', 'kill', 'mutants'].map((name) => `tests/${name}`);
const folders = ['src', 'fixtures', ...commands, 'viewer', 'rules'].map((name) => newest(at(name)));
const sources = [...folders, ...[at('package.json'), at('tsconfig.json'), at('tsconfig.build.json')].map(changed)];
if (changed(stamp) < Math.max(...sources)) {
  process.stderr.write('Compiling ...\n');
  const compile = (project) => run(process.execPath, [at('node_modules', 'typescript', 'bin', 'tsc'), '-p', project]);
  compile('tsconfig.build.json');
  const { reportJsonSchema } = await import('../dist/src/report/schema.js');
  const { ruleJsonSchemas } = await import('../dist/src/rules/load.js');
  const { portfolioListJsonSchema } = await import('../dist/src/portfolio/list.js');
  const schemas = { report: reportJsonSchema(), 'portfolio-list': portfolioListJsonSchema(), ...ruleJsonSchemas() };
  for (const [name, schema] of Object.entries(schemas))
    writeFileSync(at('dist', `${name}.schema.json`), `${JSON.stringify(schema, null, 2)}\n`);
  const vite = at('node_modules', 'vite', 'bin', 'vite.js');
  const options = ['build', '--logLevel', 'warn', '-c', 'viewer/vite.config.ts'];
  // As it is shipped, also where a test runner says otherwise.
  run(process.execPath, [vite, ...options], { ...process.env, NODE_ENV: 'production' });
  compile('viewer/tsconfig.build.json');
  writeFileSync(stamp, '');
}
