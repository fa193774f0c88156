/** Two revisions of one building as found, and what is true of them: which crossing is which. */

import { carryKeys } from '../../src/compare/carry-keys.js';
import { findPenetrations } from '../../src/find/find-penetrations.js';
import type { Crossings, Federation } from '../../src/model.js';
import { readFederation } from '../../src/read/read-federation.js';
import { buildReport } from '../../src/report/build-report.js';
import type { Report } from '../../src/report/schema.js';
import { judgeWithResults } from '../../src/rules/index.js';
import { type Edit, newIdOf, withNewIds } from '../reexport.js';
import { rules } from '../shipped-rules.js';

export interface File {
  readonly name: string;
  readonly text: string;
}

const encoder = new TextEncoder();

export async function found(files: readonly File[]): Promise<{ federation: Federation; crossings: Crossings }> {
  const federation = await readFederation(files.map(({ name, text }) => ({ name, bytes: encoder.encode(text) })));
  return { federation, crossings: findPenetrations(federation) };
}

export interface ReportOptions {
  readonly previous?: Report;
  readonly createdAt?: string;
  readonly allFindings?: boolean;
}

export async function reportOf(files: readonly File[], options: ReportOptions = {}): Promise<Report> {
  const { previous, createdAt = '2026-01-01T00:00:00Z', allFindings = false } = options;
  const { federation, crossings } = await found(files);
  const carried = previous ? carryKeys(crossings, previous) : crossings;
  const { models } = federation;
  const judged = judgeWithResults(carried, rules, { models, allFindings });
  return buildReport({ models, crossings: carried, ...judged, previous, createdAt, toolVersion: '0' });
}

/** Each file by its own edit; then, where a seed is given, all under new GlobalIds. */
export const edited = (files: readonly File[], edits: { readonly [file: string]: Edit }, seed?: string): File[] =>
  files.map(({ name, text }) => {
    const changed = edits[name]?.(text) ?? text;
    return { name, text: seed === undefined ? changed : withNewIds(seed)(changed) };
  });

export interface Measured {
  /** Crossings that both revisions have. */
  readonly common: number;
  readonly kept: number;
  /** Given the key of another crossing. */
  readonly wrong: readonly string[];
  readonly lost: readonly string[];
}

/**
 * Carries keys over to the edited files under new GlobalIds, and compares with the keys that they have when GlobalIds
 * are kept: those are true.
 */
export async function measured(
  files: readonly File[],
  edits: { readonly [file: string]: Edit },
  seed: string,
  renamed: (name: string) => string = (name) => name,
): Promise<Measured> {
  const before = await reportOf(files);
  const truth = (await found(edited(files, edits))).crossings.penetrations;
  const again = edited(files, edits, seed).map(({ name, text }) => ({ name: renamed(name), text }));
  const carried = carryKeys((await found(again)).crossings, before).penetrations;
  const pairOf = (duct: string, barrier: string, place: readonly number[]) => [duct, barrier, place].join(' ');
  const trueKeys = new Map(
    truth.map((p) => [pairOf(newIdOf(p.duct.globalId, seed), newIdOf(p.barrier.globalId, seed), p.position), p.key]),
  );
  const old = new Set(before.penetrations.map(({ key }) => key));
  const [wrong, lost]: string[][] = [[], []];
  let [common, kept] = [0, 0];
  for (const p of carried) {
    const key = trueKeys.get(pairOf(p.duct.globalId, p.barrier.globalId, p.position));
    if (key === undefined) throw new Error(`${p.duct.name} through ${p.barrier.name} is in one of the two only`);
    const said = `${p.duct.name} through ${p.barrier.name}`;
    if (old.has(key)) common++;
    if (p.key === key) kept++;
    else if (old.has(p.key)) wrong!.push(said);
    else if (old.has(key)) lost!.push(said);
  }
  return { common, kept, wrong: wrong!, lost: lost! };
}
