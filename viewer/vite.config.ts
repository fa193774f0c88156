/** The viewer as files that any web server can serve: a page, a host page that embeds the element, the element itself. */
import { readdirSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { defineConfig, type Plugin } from 'vite';
import packageJson from '../package.json' with { type: 'json' };

const here = (path: string): string => fileURLToPath(new URL(path, import.meta.url));

/** web-ifc looks for its wasm by name, so that has no hash. */
const assetName = (name: string | undefined): string =>
  name?.endsWith('.wasm') ? 'assets/[name][extname]' : 'assets/[name]-[hash][extname]';

export default defineConfig({
  root: here('.'),
  // Relative, so that the files may stand in any folder.
  base: './',
  publicDir: false,
  plugins: [collected(), licences()],
  define: { 'import.meta.env.RATEDRUN_VERSION': JSON.stringify(packageJson.version) },
  build: {
    outDir: here('../dist/viewer'),
    emptyOutDir: true,
    target: 'es2022',
    modulePreload: { polyfill: false },
    // Nothing is put into a page as data: its policy allows files alone.
    assetsInlineLimit: 0,
    chunkSizeWarningLimit: 4000,
    rolldownOptions: {
      input: { index: here('index.html'), host: here('host.html'), 'ratedrun-viewer': here('ratedrun-viewer.ts') },
      preserveEntrySignatures: 'exports-only',
      output: {
        // Whoever embeds the element imports it by its name.
        entryFileNames: ({ name }) => (name === 'ratedrun-viewer' ? '[name].js' : 'assets/[name]-[hash].js'),
        assetFileNames: ({ names }) => assetName(names[0]),
      },
    },
  },
  worker: {
    format: 'es',
    plugins: () => [collected(), lettersWithoutBuffer()],
    rolldownOptions: {
      // Libraries ask for these where they find themselves in Node, which is nowhere here.
      external: /^node:/,
      output: { assetFileNames: ({ names }) => assetName(names[0]) },
    },
  },
});

/** hershey unpacks its letters with Node's Buffer as soon as it is loaded; to these, all ASCII, atob does the same. */
function lettersWithoutBuffer(): Plugin {
  const unpacking = /Buffer\.from\((.+?), 'base64'\)\.toString\('ascii'\)/;
  return {
    name: 'letters-without-buffer',
    transform(code, id) {
      if (!/hershey[\\/]lib[\\/]index\.js$/.test(id)) return undefined;
      if (!unpacking.test(code))
        throw new Error('hershey unpacks its letters in another way now; see whether pages can');
      return { code: code.replace(unpacking, 'atob($1)'), map: null };
    },
  };
}

/** Name and folder of every package whose code or files stand in what is built. Workers are bundled before the pages. */
const packages = new Map<string, string>();

function collected(): Plugin {
  return {
    name: 'packages',
    generateBundle(_, bundle) {
      for (const file of Object.values(bundle))
        for (const path of file.type === 'chunk' ? file.moduleIds : file.originalFileNames) {
          const found = /^(.*node_modules[\\/])((?:@[^\\/]+[\\/])?[^\\/]+)[\\/]/.exec(resolve(here('.'), path));
          if (found) packages.set(found[2]!.replaceAll('\\', '/'), join(found[1]!, found[2]!));
        }
    },
  };
}

/** Their licences, as they came with them. */
function licences(): Plugin {
  return {
    name: 'licences',
    generateBundle() {
      const texts = [...packages].sort(([a], [b]) => (a < b ? -1 : 1)).map(([name, folder]) => licenceOf(name, folder));
      this.emitFile({ type: 'asset', fileName: 'licences.txt', source: texts.join('\n\n') });
    },
  };
}

function licenceOf(name: string, folder: string): string {
  const { version, license } = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8')) as Record<string, string>;
  // Of code and letters each its own, where a package has both.
  const files = readdirSync(folder).filter((entry) => /licen[cs]e|copying/i.test(entry));
  if (files.length === 0) throw new Error(`${name} has no licence file; its licence can't be passed on`);
  const texts = files.map((file) => readFileSync(join(folder, file), 'utf8').trim());
  return `${name} ${version} (${license})\n${'-'.repeat(72)}\n${texts.join('\n\n')}\n`;
}
