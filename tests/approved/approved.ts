/** The lines that somebody took for right, by model and stage; and the text that they are kept as. */
import { readFileSync } from 'node:fs';
import { fileUnder } from '../../src/collect.js';

export const APPROVED = 'tests/approved/approved.txt';

/** Name and stage of a model to its lines. */
export type Approved = ReadonlyMap<string, readonly string[]>;

export const approvedText = (approved: Approved): string =>
  [...approved].flatMap(([name, lines]) => lines.map((line) => `${name}: ${line}\n`)).join('');

export function readApproved(): Approved {
  const approved = new Map<string, string[]>();
  for (const text of readFileSync(APPROVED, 'utf8').trimEnd().split('\n')) {
    const [name = '', line = ''] = text.split(/: (.*)/);
    fileUnder(approved, name, line);
  }
  return approved;
}
