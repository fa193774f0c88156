import { join } from 'node:path';
import { ReportError, readReport } from '../report/read-report.js';
import type { Report } from '../report/schema.js';
import { readInput, readOutputs, UsageError } from './io.js';

export const REPORT_FILE = 'report.json';

/**
 * The report that `check` wrote into a folder.
 * @throws UsageError
 */
export async function readReportIn(folder: string): Promise<Report> {
  const path = join(folder, REPORT_FILE);
  const bytes = await readOutputs(folder, [REPORT_FILE], () => readInput(path));
  try {
    return readReport(new TextDecoder().decode(bytes));
  } catch (error) {
    if (error instanceof ReportError) throw new UsageError(`${path} ${error.message}`);
    throw error;
  }
}
