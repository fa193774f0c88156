import { Environment, EvaluationError } from '@marcbachmann/cel-js';
import type { Unit } from '../model.js';
import { perhaps } from './closest.js';
import { withinCost } from './expression-cost.js';
import { ExpressionError, factsNamed, inspect, pathOf } from './expression-sense.js';
import { unitOf } from './expression-units.js';
import {
  EACH,
  type Each,
  FACTS,
  type Fact,
  type FactGroup,
  type FactObject,
  factAt,
  factPaths,
  isGroup,
  missingName,
  VARIABLES,
} from './fact-schema.js';

export type ResultType = 'number' | 'text' | 'yesNo';

export type Known = { readonly known: true; readonly value: number | string | boolean };
/** Not known: for want of a fact (`missing`), or because the arithmetic leads nowhere (`problem`). */
export type Unknown = { readonly known: false; readonly missing: readonly string[]; readonly problem: string | null };

export interface Expression {
  readonly type: ResultType;
  /** Of a number, as its facts say it. */
  readonly unit: Unit | undefined;
  /** The declared fact when the expression is nothing but a fact's name. */
  readonly fact: Fact | undefined;
  /** Paths of all facts that it names, each once. */
  readonly reads: readonly string[];
  evaluate(facts: FactObject): Known | Unknown;
}

/**
 * With these, and with what `inspect` refuses, an expression can't be slow: no way to build long values, no regular
 * expressions, no loop in a loop, so the work is at most the length of the expression times that of what it reads. How
 * long that is only the model says, so `withinCost` looks before each evaluation.
 */
const LIMITS = { maxAstNodes: 200, maxDepth: 24, maxListElements: 50, maxMapEntries: 0, maxCallArguments: 3 };
const CEL_TYPES = { number: 'double', text: 'string', yesNo: 'bool', texts: 'list<string>' } as const;
const RESULT_TYPES: { readonly [cel: string]: ResultType } = {
  double: 'number',
  int: 'number',
  string: 'text',
  bool: 'yesNo',
};

const environments = new Map<Each, Environment>(EACH.map((each) => [each, createEnvironment(each)]));

/** Parses and type-checks; throws {@link ExpressionError}. */
export function compile(text: string, each: Each, expected?: ResultType): Expression {
  const environment = environments.get(each)!;
  const parsed = attempt(() => environment.parse(text), each);
  inspect(parsed.ast, each);
  const checked = parsed.check();
  if (!checked.valid) throw translate(checked.error, each);
  const type = RESULT_TYPES[checked.type ?? ''];
  if (!type) {
    const gives = checked.type?.startsWith('$') ? 'a group of facts' : checked.type;
    throw new ExpressionError(`the expression gives ${gives}, not a number, text, true or false`, 0);
  }
  if (expected && type !== expected) {
    throw new ExpressionError(`the expression gives ${WORDS[type]}; ${WORDS[expected]} is needed here`, 0);
  }
  const path = pathOf(parsed.ast);
  const entry = path === undefined ? undefined : factAt(path);
  const reads = factsNamed(parsed.ast);
  const unit = unitOf(parsed.ast);
  return {
    type,
    unit: type === 'number' ? unit : undefined,
    fact: entry && !isGroup(entry) ? entry : undefined,
    reads,
    evaluate: withinCost(text.length, reads, (facts) => evaluate(() => parsed(facts))),
  };
}

const WORDS: { readonly [T in ResultType]: string } = { number: 'a number', text: 'a text', yesNo: 'true or false' };

function evaluate(run: () => unknown): Known | Unknown {
  try {
    const value = run();
    if (typeof value === 'bigint') return { known: true, value: Number(value) };
    if (typeof value === 'number') {
      return Number.isFinite(value)
        ? { known: true, value: withoutNoise(value) }
        : { known: false, missing: [], problem: 'the result is no finite number' };
    }
    if (typeof value === 'string' || typeof value === 'boolean') return { known: true, value };
    throw new Error(`An expression gave ${typeof value}, which its type check should have refused.`);
  } catch (cause) {
    if (!(cause instanceof EvaluationError)) throw cause;
    const path = cause.code === 'no_such_key' ? pathOf(cause.node) : undefined;
    return path === undefined
      ? { known: false, missing: [], problem: cause.summary }
      : { known: false, missing: [missingName(path)], problem: null };
  }
}

/** 0.1 + 0.2 is 0.3 here: binary noise must not decide whether a limit is met. Facts are rounded far coarser. */
const withoutNoise = (value: number): number => Number(value.toFixed(6));

function createEnvironment(each: Each): Environment {
  const environment = new Environment({ limits: LIMITS });
  for (const variable of VARIABLES[each]) {
    environment.registerVariable({ name: variable, schema: celSchema(FACTS[variable]) });
  }
  // CEL compares a double with an int by size but knows no equality or arithmetic of the two; rule authors write 10
  // for 10.0, and facts are all doubles.
  environment.registerOperator('double == int', (a: number, b: bigint) => a === Number(b));
  const arithmetic: { readonly [operator: string]: (a: number, b: number) => number } = {
    '+': (a, b) => a + b,
    '-': (a, b) => a - b,
    '*': (a, b) => a * b,
    '/': (a, b) => a / b,
  };
  for (const [operator, apply] of Object.entries(arithmetic)) {
    environment.registerOperator(`double ${operator} int: double`, (a: number, b: bigint) => apply(a, Number(b)));
    environment.registerOperator(`int ${operator} double: double`, (a: bigint, b: number) => apply(Number(a), b));
  }
  return environment;
}

interface CelSchema {
  [name: string]: string | CelSchema;
}

function celSchema(entry: FactGroup): CelSchema {
  const schema: CelSchema = {};
  for (const [name, inner] of Object.entries(entry.fields)) {
    schema[name] = isGroup(inner) ? celSchema(inner) : CEL_TYPES[inner.type];
  }
  return schema;
}

function attempt<T>(run: () => T, each: Each): T {
  try {
    return run();
  } catch (cause) {
    throw translate(cause, each);
  }
}

interface CelError {
  readonly code: string;
  readonly summary: string;
  readonly node?: unknown;
  readonly range?: { readonly start: number };
}

function translate(cause: unknown, each: Each): ExpressionError {
  if (!(cause instanceof Error) || !('code' in cause) || !('summary' in cause)) throw cause;
  const { code, summary, node, range } = cause as Error & CelError;
  return new ExpressionError(explain(code, summary, pathOf(node), each), range?.start ?? 0);
}

function explain(code: string, summary: string, path: string | undefined, each: Each): string {
  if (code === 'unknown_variable') return noFact(path ?? summary, VARIABLES[each], each);
  if (code === 'no_such_key') return noFact(path ?? summary, factPaths(each), each);
  if (code === 'limit_exceeded') return `the expression is too large: ${summary}`;
  // Lists and choices keep CEL's strict types; the usual slip is an int among doubles.
  const mixed = code !== 'no_matching_overload' && /double/.test(summary) && /\bint\b/.test(summary);
  return mixed ? `${summary}; facts are decimal numbers: write 10.0 for 10` : summary;
}

/** Suggests the nearest fact, or lists those of the same variable. */
function noFact(name: string, known: readonly string[], each: Each): string {
  const variable = name.split('.')[0]!;
  const near = known.filter((fact) => !fact.includes('.') || fact.startsWith(`${variable}.`));
  return `there is no fact "${name}" for each: ${each}${perhaps(name, known) || `; known: ${near.join(', ')}`}`;
}
