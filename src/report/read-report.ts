/** report.json back from its text, or why it can not be read, in words that follow the file's name. */
import * as z from 'zod';
import { type Report, reportSchema } from './schema.js';

export class ReportError extends Error {}

const head = z.object({ format: z.literal('ratedrun-report'), version: z.int().positive() });
const VERSION = 1;

/** @throws ReportError */
export function readReport(text: string): Report {
  const data = parsed(text);
  const { success, data: said } = head.safeParse(data);
  if (!success) throw new ReportError('is no report of this program; name a folder that ratedrun check wrote.');
  if (said.version > VERSION)
    throw new ReportError(
      `has format version ${said.version}, and this program reads up to ${VERSION}; take a later one.`,
    );
  const report = reportSchema.safeParse(data);
  if (report.success) return report.data;
  const [issue] = report.error.issues;
  throw new ReportError(
    `can not be used (${[issue?.path.join('.'), issue?.message].filter((part) => part).join(': ')}): it is damaged or older than this program; check its models again.`,
  );
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text.replace(/^\ufeff/, ''));
  } catch {
    throw new ReportError('is not JSON, or cut off; name a folder that ratedrun check wrote.');
  }
}
