/** `ratedrun compare`: what is new, absent, moved, changed between two reports. */
import { basename, dirname } from 'node:path';
import { compareReports } from '../compare/compare-reports.js';
import { writeComparison } from '../compare/write-comparison.js';
import { jsonText } from '../words/json-text.js';
import { writeOutputs } from './io.js';
import { readReportIn } from './read-report.js';
import type { Streams } from './streams.js';

export interface CompareOptions {
  readonly json?: boolean;
  /** Written there instead of to stdout. */
  readonly out?: string;
}

export async function compare(before: string, after: string, options: CompareOptions, io: Streams): Promise<number> {
  const [was, is] = [await readReportIn(before), await readReportIn(after)];
  const comparison = compareReports(was, is);
  const text = options.json ? jsonText(comparison, 2) : writeComparison(comparison);
  if (options.out === undefined) io.out.write(text);
  else await writeOutputs(dirname(options.out), { [basename(options.out)]: new TextEncoder().encode(text) });
  return 0;
}
