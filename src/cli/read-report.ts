import { join } from 'node:path';
import { ReportError, readReport } from '../report/read-report.js';
import type { Report } from '../report/schema.js';
import { readInput, UsageError } from './io.js';

/**
 * The report that `check` wrote into a folder.
 * @throws UsageError
 */
export async function readReportIn(folder: string): Promise<Report> {
  const path = join(folder, 'report.json');
  const bytes = await readInput(path);
  try {
    return readReport(new TextDecoder().decode(bytes));
  } catch (error) {
    if (error instanceof ReportError) throw new UsageError(`${path} ${error.message}`);
    throw error;
  }
}
