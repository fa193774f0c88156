/** What was found and judged, as lines that can be kept: how many there are of a kind, and a digest of all that is said of them. */
import { createHash } from 'node:crypto';
import { fileUnder } from '../../src/collect.js';
import type { Crossings, Federation, Finding } from '../../src/model.js';
import { judge } from '../../src/rules/index.js';
import { rules } from '../shipped-rules.js';
import type { ApprovedModel } from './models.js';

/** Tenths of a millimetre or degree, cut where measures of models rarely lie, so that a last digit turns no digest. */
const STEPS = 10;
const BETWEEN = 0.37;
const DIGITS = 12;

/** What the digest of it is made from. */
export const listing = (value: unknown): string =>
  JSON.stringify(value, (_, one) => (typeof one === 'number' ? Math.floor(one * STEPS + BETWEEN) / STEPS : one), 1) ??
  'undefined';

const digest = (value: unknown): string => createHash('sha256').update(listing(value)).digest('hex').slice(0, DIGITS);

/** Of a building one for each kind of thing that there is; a small model has one in all. */
export const linesOf = ({ building }: ApprovedModel, said: Readonly<Record<string, unknown>>): string[] =>
  building
    ? Object.entries(said).map(
        ([name, value]) => `${name}: ${Array.isArray(value) ? value.length : 1}, ${digest(value)}`,
      )
    : [digest(said)];

/** All that is judged of it, by the brief of the model and without one; findings by their checks. */
export function judged(
  { models }: Federation,
  crossings: Crossings,
  { brief }: ApprovedModel,
): Readonly<Record<string, unknown>> {
  const under = (name: string, options: object) => {
    const { findings, ...rest } = judge(crossings, rules, { models, allFindings: true, ...options });
    const byCheck = new Map<string, Finding[]>();
    for (const finding of findings) fileUnder(byCheck, finding.check, finding);
    return [...Object.entries(rest), ...byCheck].map(([key, value]) => [`${name}, ${key}`, value] as const);
  };
  return Object.fromEntries([...under('with a brief', { brief }), ...under('without', {})]);
}
