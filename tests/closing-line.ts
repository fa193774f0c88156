/** Ends a run with one plain line of counts, and fails it when tests were skipped that this run may not skip. */
import type { Reporter, TestModule } from 'vitest/node';

export default class ClosingLine implements Reporter {
  onTestRunEnd(modules: readonly TestModule[]): void {
    const counts = { passed: 0, failed: 0, skipped: 0 };
    const skipped: string[] = [];
    for (const module of modules) {
      if (module.errors().length > 0) counts.failed++; // a file that could not even be loaded
      for (const test of module.children.allTests()) {
        const { state } = test.result();
        if (state === 'pending') continue;
        counts[state]++;
        if (state === 'skipped') skipped.push(test.fullName);
      }
    }
    const allowed = process.env.RATEDRUN_ALLOW_SKIPS !== 'no';
    if (skipped.length > 0 && !allowed) {
      process.exitCode = 1;
      process.stdout.write(`\nSkipped, which this run may not:\n${skipped.map((name) => `  ${name}\n`).join('')}`);
    }
    process.stdout.write(`\n${counts.passed} passed, ${counts.failed} failed, ${counts.skipped} skipped\n`);
  }
}
