/** The viewer as files that any web server can serve: a page, a host page that embeds the element, the element itself. */
import { defineConfig } from 'vite';

const here = (path: string): string => new URL(path, import.meta.url).pathname;

export default defineConfig({
  root: here('.'),
  // Relative, so that the files may stand in any folder.
  base: './',
  publicDir: false,
  build: {
    outDir: here('../dist/viewer'),
    emptyOutDir: true,
    target: 'es2022',
    // Pages allow no script but files.
    modulePreload: { polyfill: false },
    assetsInlineLimit: 0,
    chunkSizeWarningLimit: 4000,
    rolldownOptions: {
      input: { index: here('index.html'), host: here('host.html'), 'ratedrun-viewer': here('ratedrun-viewer.ts') },
      // The element is imported by its name by whoever embeds it.
      preserveEntrySignatures: 'exports-only',
      output: {
        entryFileNames: (chunk) => (chunk.name === 'ratedrun-viewer' ? '[name].js' : 'assets/[name]-[hash].js'),
        // web-ifc looks for its wasm by name.
        assetFileNames: (asset) =>
          asset.names[0]?.endsWith('.wasm') ? 'assets/[name][extname]' : 'assets/[name]-[hash][extname]',
      },
    },
  },
  worker: { format: 'es', rolldownOptions: { output: { assetFileNames: 'assets/[name][extname]' } } },
});
