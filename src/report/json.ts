import { jsonText } from '../words/json-text.js';
import type { Report } from './schema.js';

/** report.json: UTF-8, two spaces, a newline at the end; the same report gives the same bytes. */
export function writeJson(report: Report): Uint8Array {
  return new TextEncoder().encode(jsonText(report, 2));
}
