import type { Unit } from '../model.js';
import type { BarrierTable, CheckDefinition } from './check-set.js';
import { compile, type Expression, type ResultType } from './expression.js';
import { ExpressionError, notAValue } from './expression-sense.js';
import { VARIABLES, type Variable } from './fact-schema.js';
import type { CompiledCheck, CompiledLimit, LimitValue } from './rule-set.js';
import { requireSizeValue, type SizeTable } from './size-value.js';
import { templateProblem } from './template.js';
import type { Path, YamlSource } from './yaml-source.js';

/** Type-checks every expression and template of a check; throws {@link RuleDocumentError} at its place. */
export function compileCheck(source: YamlSource, path: Path, check: CheckDefinition): CompiledCheck {
  const cel = (text: string, at: Path, expected?: ResultType): Expression => {
    try {
      return compile(text, check.each, expected);
    } catch (cause) {
      if (!(cause instanceof ExpressionError)) throw cause;
      throw source.errorInText([...path, ...at], cause.offset, cause.message);
    }
  };
  const measure = check.measure === undefined ? null : cel(check.measure, ['measure']);
  if (measure) requireUnit(source, [...path, 'measure'], measure.unit, check.unit);
  requireTemplates(source, path, check);
  if (check.basis.status === 'system') requireSystemFact(source, path, check);
  return {
    definition: check,
    file: source.file,
    each: check.each,
    where: check.where === undefined ? null : cel(check.where, ['where'], 'yesNo'),
    reasons: (check.cantTellWhen ?? []).map((definition, i) => ({
      definition,
      when: cel(definition.when, ['cantTellWhen', i, 'when'], 'yesNo'),
    })),
    measure,
    limit: measure ? compileLimit(source, path, check, measure, cel) : {},
    proof: check.about === 'model' ? 'model' : check.basis.status,
    examples: check.examples.map((definition, i) => ({
      definition,
      line: source.lineOf([...path, 'examples', i]),
    })),
  };
}

/** One fact of the system, as it stands: a rule author's arithmetic on it is not what was tested. */
const SYSTEM_FACT = /^system\.(?!id$|name$|status$|fixing$)[A-Za-z]+$/;

/** A tested system can vouch for its own limits alone. */
function requireSystemFact(source: YamlSource, path: Path, check: CheckDefinition): void {
  if (!VARIABLES[check.each].includes('system')) {
    throw source.errorAt([...path, 'basis', 'status'], `there is no chosen system for each: ${check.each}`);
  }
  const isSystems = (limit: unknown): boolean =>
    limit === undefined ||
    (typeof limit === 'object' && limit !== null && 'cel' in limit && SYSTEM_FACT.test(String(limit.cel).trim()));
  const { measure, atLeast, atMost, equals, among } = check;
  const isMeasured = SYSTEM_FACT.test((measure ?? '').trim());
  const hasLimits = (atLeast ?? atMost ?? equals) !== undefined && among === undefined;
  if (isMeasured || (hasLimits && [atLeast, atMost, equals].every(isSystems))) return;
  throw source.errorAt(
    [...path, 'basis', 'status'],
    'basis "system" needs a fact of the system, just as it is, as the measure or as every limit, e.g. atMost: { cel: system.gapAtMost }',
  );
}

interface Cel {
  readonly cel: string;
}

type Compile = (text: string, at: Path, expected?: ResultType) => Expression;

function compileLimit(
  source: YamlSource,
  path: Path,
  check: CheckDefinition,
  measure: Expression,
  cel: Compile,
): CompiledLimit {
  const { atLeast, atMost, equals, among } = check;
  if ((atLeast !== undefined || atMost !== undefined) && measure.type !== 'number') {
    throw source.errorAt(
      [...path, 'measure'],
      `atLeast and atMost need a measure that is a number; this one is ${measure.type}`,
    );
  }
  const value = <T extends number | string | boolean>(
    given: T | Cel | SizeTable | BarrierTable,
    key: string,
  ): LimitValue<T> => {
    if (typeof given === 'object' && 'byBarrier' in given) {
      requireVariable(source, [...path, key], check, 'barrier', "the minutes of the barrier's rating");
      return { rows: given.byBarrier };
    }
    if (typeof given === 'object' && 'bySize' in given) {
      requireSizeValue(source, [...path, key], given);
      requireVariable(source, [...path, key], check, 'duct', 'the size of the duct');
      return { table: given };
    }
    if (typeof given === 'object') {
      const expression = cel(given.cel, [key, 'cel'], measure.type);
      requireUnit(source, [...path, key, 'cel'], expression.unit, check.unit);
      return { expression };
    }
    requireFit(source, [...path, key], given, measure, check.measure ?? '');
    return { literal: given };
  };
  for (const [i, given] of (among ?? []).entries()) {
    requireFit(source, [...path, 'among', i], given, measure, check.measure ?? '');
  }
  return {
    ...(atLeast !== undefined && { atLeast: value<number>(atLeast, 'atLeast') }),
    ...(atMost !== undefined && { atMost: value<number>(atMost, 'atMost') }),
    ...(equals !== undefined && { equals: value<number | string | boolean>(equals, 'equals') }),
    ...(among && { among }),
  };
}

function requireVariable(
  source: YamlSource,
  at: Path,
  { each }: CheckDefinition,
  variable: Variable,
  says: string,
): void {
  if (VARIABLES[each].includes(variable)) return;
  throw source.errorAt(at, `a table goes by ${says}, and there is none for each: ${each}`);
}

/** What is measured, its limit and the check are in one unit, as far as each says one. */
function requireUnit(source: YamlSource, at: Path, own: Unit | undefined, unit: Unit | undefined): void {
  if (own === undefined || unit === undefined || own === unit) return;
  throw source.errorAt(at, `this is in ${own}, but the unit of the check is ${unit}`);
}

const TYPE_OF: { readonly [T in ResultType]: string } = { number: 'number', text: 'string', yesNo: 'boolean' };

function requireFit(
  source: YamlSource,
  at: Path,
  given: number | string | boolean,
  measure: Expression,
  text: string,
): void {
  if (typeof given !== TYPE_OF[measure.type]) {
    throw source.errorAt(at, `the limit is a ${typeof given}, but what is measured is a ${TYPE_OF[measure.type]}`);
  }
  const values = measure.fact?.values;
  if (values && typeof given === 'string' && !values.includes(given)) {
    throw source.errorAt(at, notAValue(text.trim(), given, values));
  }
}

function requireTemplates(source: YamlSource, path: Path, check: CheckDefinition): void {
  const templates: [Path, string | undefined][] = [
    [['message', 'failed'], check.message?.failed],
    [['message', 'cantTell'], check.message?.cantTell],
    [['remedy', 'failed'], check.remedy?.failed],
    [['remedy', 'cantTell'], check.remedy?.cantTell],
    ...(check.cantTellWhen ?? []).flatMap(({ message, remedy }, i): [Path, string | undefined][] => [
      [['cantTellWhen', i, 'message'], message],
      [['cantTellWhen', i, 'remedy'], remedy],
    ]),
  ];
  for (const [at, template] of templates) {
    const problem = template === undefined ? null : templateProblem(template, check.each);
    if (problem) throw source.errorInText([...path, ...at], problem.offset, problem.message);
  }
}
