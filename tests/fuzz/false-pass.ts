/**
 * Whether what passed is proven by what is written. Reads the texts with the YAML library alone, none of the program's own
 * loading; a document is known by what stands in it:
 *
 * 1. a check about fire passes only with a measure and a limit that it meets, by plain arithmetic;
 * 2. its basis and its document both say `tested`, with evidence, or, under a brief that says `demonstration: true`, at
 *    least `demonstration`; or
 * 3. its basis says `system`, what it measures or its limit is a fact of the system as it stands, and there is a tested
 *    system or damper that proves by itself and in which every number of the limit is written; of a riser, that goes by the
 *    smaller side of its duct, a multiple of what is written.
 *
 * That the check says it is about fire is taken from its document, and which of several systems was gone by is not seen.
 */
import { parse } from 'yaml';
import type { Finding } from '../../src/model.js';

export interface Written {
  readonly documents: readonly string[];
  /** undefined: none. */
  readonly brief: string | undefined;
}

type Fields = { readonly [key: string]: unknown };
const fieldsOf = (value: unknown): Fields => (typeof value === 'object' && value !== null ? (value as Fields) : {});

interface Check {
  readonly fields: Fields;
  readonly document: Fields;
}

const PARSED = new Map<string, Fields>();

function parsed(text: string): Fields {
  const known = PARSED.get(text) ?? fieldsOf(parse(text, { uniqueKeys: false }));
  // Shipped documents come in every run, changed ones in one.
  if (PARSED.size < 40) PARSED.set(text, known);
  return known;
}

function checksIn({ documents }: Written): Map<unknown, Check> {
  const all = documents.map(parsed).flatMap((document): [unknown, Check][] => {
    const checks = Array.isArray(document.checks) ? document.checks.map(fieldsOf) : [];
    return checks.map((fields) => [fields.id, { fields, document }]);
  });
  return new Map(all);
}

/** Findings that passed and whose check says that it is about fire. */
export function firePasses(findings: readonly Finding[], written: Written): readonly Finding[] {
  const checks = checksIn(written);
  return findings.filter(({ outcome, check }) => outcome === 'passed' && checks.get(check)?.fields.about !== 'model');
}

/** In words, what passed without proof. */
export function falsePasses(findings: readonly Finding[], written: Written): string[] {
  const checks = checksIn(written);
  const isDemonstration = written.brief !== undefined && parsed(written.brief).demonstration === true;
  const proving = written.documents.map(parsed).filter((document) => {
    const isTested = document.kind === 'tested-system' || document.kind === 'tested-damper';
    return isTested && proves(document, document.status, isDemonstration);
  });
  return firePasses(findings, written).flatMap((finding) => {
    const check = checks.get(finding.check);
    const why = check ? fault(finding, check, { isDemonstration, proving }) : 'no document holds the check';
    return why === undefined ? [] : [`${finding.check} passed with ${JSON.stringify(finding.limit)}: ${why}`];
  });
}

function proves(document: Fields, status: unknown, isDemonstration: boolean): boolean {
  const evidence = fieldsOf(document.evidence);
  const isNamed = ['report', 'laboratory', 'standard', 'date', 'scope'].every((key) => Boolean(evidence[key]));
  if (status === 'tested') return document.status === 'tested' && isNamed;
  const isGood = document.status === 'demonstration' || (document.status === 'tested' && isNamed);
  return status === 'demonstration' && isDemonstration && isGood;
}

interface Ground {
  readonly isDemonstration: boolean;
  readonly proving: readonly Fields[];
}

function fault(finding: Finding, { fields, document }: Check, ground: Ground): string | undefined {
  const { measured, limit } = finding;
  if (measured === null || limit === null) return 'nothing was measured, or there is no limit';
  if (!isMet(measured, limit)) return `${measured} does not meet it`;
  const { status } = fieldsOf(fields.basis);
  if (status !== 'system')
    return proves(document, status, ground.isDemonstration)
      ? undefined
      : `its basis is ${status} in ${document.status}`;
  const said = [fields.measure, ...['atLeast', 'atMost', 'equals'].map((key) => fieldsOf(fields[key]).cel)];
  if (!said.some((one) => /^\s*system\.[A-Za-z]+\s*$/.test(String(one)))) return 'it goes by no fact of the system';
  if (ground.proving.length === 0) return 'no tested system proves anything';
  const numbers = [limit.atLeast, limit.atMost].filter((one) => one !== undefined);
  const isBacked = (document: Fields): boolean => numbers.every((one) => isWritten(one, document));
  return ground.proving.some(isBacked) ? undefined : 'no tested system that proves has these numbers';
}

function isMet(measured: unknown, { atLeast, atMost, equals, among }: NonNullable<Finding['limit']>): boolean {
  if (equals !== undefined) return measured === equals;
  if (among !== undefined) return among.some((one) => one === measured);
  if (typeof measured !== 'number' || (atLeast ?? atMost) === undefined) return false;
  return measured >= (atLeast ?? measured) && measured <= (atMost ?? measured);
}

function isWritten(one: number, document: Fields): boolean {
  const times = Number(fieldsOf(fieldsOf(document.supports).risers).timesSmallerSideAtMost);
  return numbersIn(document).includes(one) || (times > 0 && Number.isInteger(one / times));
}

function numbersIn(node: unknown): number[] {
  if (typeof node === 'number') return [node];
  return typeof node === 'object' && node !== null ? Object.values(node).flatMap(numbersIn) : [];
}
