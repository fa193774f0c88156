/** `ratedrun check`: reads, finds, judges, writes, prints. */
import type { OutcomeCounts } from '../report/schema.js';
import { writeSummary } from '../report/summary.js';
import { makeReview, type ReviewPaths } from './make-review.js';
import { startProgress } from './progress.js';
import { REPORT_FILE } from './read-report.js';
import type { Streams } from './streams.js';

export interface CheckOptions extends ReviewPaths {
  readonly nonzeroFor?: 'failed' | 'cantTell' | 'nothing';
  readonly json?: boolean;
  readonly quiet?: boolean;
  readonly watch?: boolean;
}

export async function check(models: readonly string[], options: CheckOptions, io: Streams): Promise<number> {
  const progress = startProgress(io.err, options.quiet ?? false);
  try {
    const { report, files, written } = await makeReview(models, options, progress.report);
    progress.end();
    io.out.write(options.json ? files[REPORT_FILE]! : writeSummary(report, { files: written }));
    return exitCode(report.summary.outcomes, options.nonzeroFor);
  } finally {
    progress.end();
  }
}

export function exitCode(
  { failed, cantTell }: Pick<OutcomeCounts, 'failed' | 'cantTell'>,
  nonzeroFor: CheckOptions['nonzeroFor'] = 'cantTell',
): number {
  if (failed > 0 && nonzeroFor !== 'nothing') return 1;
  return failed === 0 && cantTell > 0 && nonzeroFor === 'cantTell' ? 3 : 0;
}
