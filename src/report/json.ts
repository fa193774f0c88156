/** report.json: the report as programs read it. */
import { jsonText } from '../words/json-text.js';
import type { Report } from './schema.js';

/**
 * What a list of the report holds stands on a line each, so that people compare two reports line by line, and no text is as
 * long as the report of a tower is: longer than texts may be.
 */
export function writeJson(report: Report): Uint8Array {
  const encoder = new TextEncoder();
  const parts: Uint8Array[] = [];
  const write = (text: string): void => void parts.push(encoder.encode(text));
  let before = '{\n';
  for (const [name, value] of Object.entries(report)) {
    write(`${before}${JSON.stringify(name)}: `);
    if (Array.isArray(value) && value.length > 0) writeList(value, write);
    else write(onOneLine(value));
    before = ',\n';
  }
  write('\n}\n');
  return joined(parts);
}

function writeList(list: readonly unknown[], write: (text: string) => void): void {
  let before = '[\n';
  for (const item of list) {
    write(`${before}${onOneLine(item)}`);
    before = ',\n';
  }
  write('\n]');
}

const onOneLine = (value: unknown): string => jsonText(value).trimEnd();

function joined(parts: readonly Uint8Array[]): Uint8Array {
  const bytes = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    bytes.set(part, at);
    at += part.length;
  }
  return bytes;
}
