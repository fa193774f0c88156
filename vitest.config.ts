import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['tests/**/*.test.ts'],
    globalSetup: ['tests/build.ts'],
    testTimeout: 60_000,
    hookTimeout: 120_000,
    // Pages answer when they are ready; a busy machine takes its time.
    expect: { poll: { timeout: 15_000 } },
    // Files of a worker share what is loaded: the program has no state, and web-ifc, the schemas and the rules take longer
    // to load than most files to run.
    isolate: false,
    // By itself a run leaves one core free, which on two cores doubles its time.
    maxWorkers: '100%',
    reporters: ['default', './tests/closing-line.ts'],
    // What runs in processes and threads of its own (src/cli and the workers of src/platform, which tests start compiled) is
    // not seen and counts as not covered.
    coverage: {
      include: ['src/**/*.ts'],
      // A run of half an hour says what it saw, whatever failed.
      reportOnFailure: true,
      reporter: [['text', { skipFull: true }], 'text-summary'],
      thresholds: { lines: 90 },
    },
  },
});
