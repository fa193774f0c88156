/** The parts of the guide's example, and what a proof-reader is shown of a note. */
import { loadRules } from '../../src/rules/index.js';
import type { Noted } from '../../src/rules/noted.js';
import type { Detail } from '../../src/rules/tested-detail.js';
import type { Fixing, TestedSystem } from '../../src/rules/tested-system.js';
import { guideExample } from './guide.js';

export const GOOD = loadRules([guideExample()]).systems[0]!;
export const [PINS] = GOOD.fixings as [Fixing];
export const [STUD, MASONRY] = GOOD.details as [Detail, Detail];

export const withScope = (
  scope: Partial<TestedSystem['scope']>,
  changes: Partial<TestedSystem> = {},
): TestedSystem => ({ ...GOOD, ...changes, scope: { ...GOOD.scope, ...scope } });

/** All of it: kind, place, message, what to do. */
export const said = (notes: readonly Noted[]): string[] =>
  notes.map(({ kind, path, message, remedy }) => `${kind} at ${path.join('.')}: ${message}. ${remedy}`);
