import { builtOf } from '../construction/built-of.js';
import { serviceOf } from '../strategy/index.js';
import { candidatesOf } from './candidates.js';
import type { Example } from './check-set.js';
import type { ConstructionExample } from './construction-table.js';
import { testedDamperFacts } from './damper-facts.js';
import { damperFitOf, type Fit } from './damper-fit.js';
import { evaluateCheck, type Verdict } from './evaluate.js';
import type { FactObject } from './fact-schema.js';
import { type FlangeExample, usualFlange } from './flange-table.js';
import type { CompiledCheck, LoadedFlangeTable, LoadedServices, LoadedTable, RuleSet } from './rule-set.js';
import { say } from './say.js';
import { scopeLines } from './scope-lines.js';
import type { ServiceExample } from './service-table.js';
import { systemFacts } from './system-facts.js';
import type { DamperExample, TestedDamper } from './tested-damper.js';
import type { SystemExample, TestedSystem } from './tested-system.js';
import { NOT_KNOWN } from './words.js';

export interface ExampleResult {
  readonly file: string;
  readonly line: number;
  /** Id of the check, of the tested system or of the table. */
  readonly check: string;
  /** From 1, within the check or the document. */
  readonly example: number;
  readonly why: string | null;
  readonly ok: boolean;
  readonly expected: string;
  readonly got: string;
  /** What a finding would say. */
  readonly messages: readonly string[];
}

/** Runs the worked examples that the documents carry: facts in, outcome out. */
export function runExamples(rules: RuleSet): ExampleResult[] {
  return [
    ...rules.checks.flatMap((check) =>
      check.examples.map(({ definition, line }, i) => runExample(check, definition, line, i + 1)),
    ),
    ...rules.systems.flatMap((system) =>
      system.examples.map(({ definition, line }, i) => runSystemExample(system, definition, line, i + 1)),
    ),
    ...rules.services.flatMap((services) =>
      services.examples.map(({ definition, line }, i) => runServiceExample(services, definition, line, i + 1)),
    ),
    ...rules.dampers.flatMap((damper) =>
      damper.examples.map(({ definition, line }, i) => runDamperExample(damper, definition, line, i + 1)),
    ),
    ...rules.tables.flatMap((table) =>
      table.examples.map(({ definition, line }, i) => runTableExample(table, definition, line, i + 1)),
    ),
    ...rules.flanges.flatMap((table) =>
      table.examples.map(({ definition, line }, i) => runFlangeExample(table, definition, line, i + 1)),
    ),
  ];
}

interface Compared {
  readonly line: number;
  readonly number: number;
  readonly expected: string;
  readonly got: string;
  readonly messages?: readonly string[];
}

function compared(
  { id, file }: { readonly id: string; readonly file: string },
  why: string | undefined,
  { line, number, expected, got, messages = [] }: Compared,
): ExampleResult {
  return { file, line, check: id, example: number, why: why ?? null, ok: got === expected, expected, got, messages };
}

function runFlangeExample(
  table: LoadedFlangeTable,
  example: FlangeExample,
  line: number,
  number: number,
): ExampleResult {
  const words = (height: number | undefined): string => String(height ?? NOT_KNOWN);
  const [expected, got] = [words(example.flangeHeight), words(usualFlange(table, example.duct))];
  return compared(table, example.why, { line, number, expected, got });
}

function runSystemExample(system: TestedSystem, example: SystemExample, line: number, number: number): ExampleResult {
  const [best] = candidatesOf(system, example.facts, example);
  const lines = scopeLines(best!, example.facts);
  const named = (wanted: false | undefined): string[] => lines.flatMap(({ name, met }) => (met === wanted ? name : []));
  const fit = { misses: named(false), unknown: named(undefined) };
  return limitsResult(system, example, { line, number, facts: systemFacts(best!, example.facts), fit });
}

function runDamperExample(damper: TestedDamper, example: DamperExample, line: number, number: number): ExampleResult {
  const facts = testedDamperFacts(damper, example.facts);
  return limitsResult(damper, example, { line, number, facts, fit: damperFitOf(facts, example.facts) });
}

interface Limits {
  readonly line: number;
  readonly number: number;
  readonly facts: FactObject;
  readonly fit: Fit;
}

/** What a document gives, leaves open and misses, as far as the example asks. */
function limitsResult(
  document: TestedSystem | TestedDamper,
  example: SystemExample | DamperExample,
  { line, number, facts, fit }: Limits,
): ExampleResult {
  const gives = (values: FactObject): string[] =>
    Object.keys(example.gives ?? {}).map((name) => `${name} ${String(values[name] ?? NOT_KNOWN)}`);
  const unknown = (example.unknown ?? []).map((name) => `${name} ${NOT_KNOWN}`);
  const found = (example.unknown ?? []).map((name) => `${name} ${String(facts[name] ?? NOT_KNOWN)}`);
  const misses = (names: readonly string[]): string => `misses ${[...names].sort().join(', ') || 'nothing'}`;
  const expected = [...gives(example.gives ?? {}), ...unknown, ...(example.misses ? [misses(example.misses)] : [])];
  const got = [...gives(facts), ...found, ...(example.misses ? [misses(fit.misses)] : [])];
  return compared(document, example.why, { line, number, expected: expected.join('; '), got: got.join('; ') });
}

function runTableExample(
  table: LoadedTable,
  example: ConstructionExample,
  line: number,
  number: number,
): ExampleResult {
  const built = builtOf(
    example.layers.map((layer) => (typeof layer === 'string' ? { material: layer } : layer)),
    true,
    example.names,
    table.rows,
  );
  const words = (construction: string, roles: readonly string[] | undefined): string =>
    [construction, ...(roles ? [roles.join(', ')] : [])].join(': ');
  const expected = words(example.construction, example.roles);
  const got = words(built.construction, example.roles && built.roles.map((role) => role ?? 'unknown'));
  return compared(table, example.why, { line, number, expected, got });
}

function runServiceExample(
  services: LoadedServices,
  { names, service, why }: ServiceExample,
  line: number,
  number: number,
): ExampleResult {
  const found = serviceOf({ system: null, systemNames: names }, services.rows, []);
  return compared(services, why, { line, number, expected: service, got: found?.service ?? 'none' });
}

function runExample(check: CompiledCheck, example: Example, line: number, number: number): ExampleResult {
  const { demonstration = false, jurisdiction, edition, siteTolerance } = example.brief ?? {};
  const proof = { demonstration, jurisdiction, edition: edition === undefined ? [] : [edition], siteTolerance };
  const verdicts = evaluateCheck(check, example.facts, proof);
  const expected = describe(example.outcome, example.wouldBe, example.missing, example.reasons);
  const got = describeVerdicts(verdicts, example);
  const messages = verdicts.map((verdict) => say(check, verdict, example.facts, 0).message);
  return compared({ id: check.definition.id, file: check.file }, example.why, {
    line,
    number,
    expected,
    got,
    messages,
  });
}

/** Says as much as the example asks for. `wouldBe` is always compared: it is too easily forgotten. */
function describeVerdicts(verdicts: readonly Verdict[], example: Example): string {
  const outcomes = [...new Set(verdicts.map(({ outcome }) => outcome))].join(' and ');
  const wouldBe = verdicts.find((verdict) => verdict.wouldBe !== null)?.wouldBe ?? undefined;
  const missing = example.missing && [...new Set(verdicts.flatMap((verdict) => verdict.missing))];
  const reasons = example.reasons && verdicts.flatMap(({ reason }) => (reason === null ? [] : [reason]));
  return describe(outcomes, wouldBe, missing, reasons);
}

function describe(
  outcome: string,
  wouldBe: string | undefined,
  missing: readonly string[] | undefined,
  reasons: readonly string[] | undefined,
): string {
  return [
    outcome,
    wouldBe === undefined ? '' : `would be ${wouldBe}`,
    missing ? `missing ${[...missing].sort().join(', ')}` : '',
    reasons ? `for ${[...reasons].sort().join(', ')}` : '',
  ]
    .filter((part) => part !== '')
    .join(', ');
}
