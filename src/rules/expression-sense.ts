import type { ASTNode } from '@marcbachmann/cel-js';
import { perhaps } from './closest.js';
import { type Each, factAt, factPaths, isGroup, VARIABLES } from './fact-schema.js';

/** What is wrong with an expression and where in its text. */
export class ExpressionError extends Error {
  override readonly name = 'ExpressionError';
  constructor(
    message: string,
    /** Characters from the start of the expression. */
    readonly offset: number,
  ) {
    super(message);
  }
}

const LOOPS = ['exists', 'all', 'exists_one', 'filter'];
const SEARCHES = ['startsWith', 'endsWith', 'contains'];
const FUNCTIONS = ['has', 'size', ...SEARCHES, ...LOOPS];
const COMPARISONS = ['<', '<=', '>', '>=', '==', '!=', 'in'];
const ARITHMETIC = ['+', '-', '*', '/', '%', '-_'];

interface Place {
  readonly each: Each;
  readonly isInLoop: boolean;
  readonly isCompared: boolean;
}

/**
 * Refuses what CEL's own type check lets pass: what costs more than the length of the expression times the length of what
 * it reads, misspelt names in has(), misspelt values, divisions that give something else than they seem to. Throws
 * {@link ExpressionError}.
 */
export function inspect(node: ASTNode, each: Each): void {
  inspectAt(node, { each, isInLoop: false, isCompared: false });
}

function inspectAt(node: ASTNode, place: Place): void {
  if (node.op === 'call' || node.op === 'rcall') {
    const name = node.args[0];
    if (!FUNCTIONS.includes(name)) {
      throw new ExpressionError(
        `function "${name}" may not be used${perhaps(name, FUNCTIONS)}; allowed: ${FUNCTIONS.join(', ')}`,
        node.range.start,
      );
    }
    if (name === 'has' && node.op === 'call') inspectHas(node.args[1][0], place.each);
    if (SEARCHES.includes(name) && node.op === 'rcall') inspectSearch(name, node.args[2][0]);
    if (LOOPS.includes(name) && node.op === 'rcall') {
      if (place.isInLoop)
        throw new ExpressionError(`a loop ("${name}") inside a loop may not be used`, node.range.start);
      const [list, [variable, body]] = [node.args[1], node.args[2]];
      inspectVariable(variable, place.each);
      inspectAt(list, place);
      if (body) inspectAt(body, { ...place, isInLoop: true });
      return;
    }
  }
  if (place.isInLoop && isListOfFacts(node))
    throw new ExpressionError('inside a loop no other list of facts may be read', node.range.start);
  if (node.op === '+' && node.args.some(isListOfFacts))
    throw new ExpressionError('lists of facts are not joined', node.range.start);
  if (node.op === '==' || node.op === '!=' || node.op === 'in') inspectValues(node.args[0], node.args[1]);
  if (node.op === '/') inspectDivision(node.args[0], node.args[1], place.isCompared);
  const isCompared = place.isCompared || COMPARISONS.includes(node.op);
  for (const child of childrenOf(node)) inspectAt(child, { ...place, isCompared });
}

/** Looking for one long text in another can take as long as their lengths multiplied. */
function inspectSearch(name: string, wanted: ASTNode | undefined): void {
  if (!wanted || (wanted.op === 'value' && typeof wanted.args === 'string')) return;
  throw new ExpressionError(`${name}() looks for a text that is written down, such as "shaft"`, wanted.range.start);
}

function inspectVariable(variable: ASTNode | undefined, each: Each): void {
  const known: readonly string[] = VARIABLES[each];
  if (variable?.op !== 'id' || !known.includes(variable.args)) return;
  throw new ExpressionError(`"${variable.args}" is the name of facts; call it otherwise`, variable.range.start);
}

/** A list as long as the model makes it; one that is written down is short. */
function isListOfFacts(node: ASTNode): boolean {
  const path = pathOf(node);
  const entry = path === undefined ? undefined : factAt(path);
  if (entry) return !isGroup(entry) && entry.type === 'texts';
  if (node.op === '?:') return node.args.slice(1).some(isListOfFacts);
  return node.op === 'rcall' && node.args[0] === 'filter' && isListOfFacts(node.args[1]);
}

/** 1 / 2 is 0 in CEL; and what is divided by 0 is infinite or no number, which a comparison takes for an answer. */
function inspectDivision(dividend: ASTNode, divisor: ASTNode, isCompared: boolean): void {
  if (isWhole(dividend) && isWhole(divisor)) {
    throw new ExpressionError('whole numbers lose their remainder when divided: write 1.0 / 2.0', dividend.range.start);
  }
  const isNumber = divisor.op === 'value' && Number(divisor.args) !== 0;
  if (isNumber || !isCompared) return;
  throw new ExpressionError(
    'in a comparison only a number that is written down and not 0 may divide: multiply the other side instead',
    divisor.range.start,
  );
}

function isWhole(node: ASTNode): boolean {
  if (node.op === 'value') return typeof node.args === 'bigint';
  if (node.op === 'call' || node.op === 'rcall') return node.args[0] === 'size';
  return ARITHMETIC.includes(node.op) && childrenOf(node).every(isWhole);
}

function inspectHas(argument: ASTNode | undefined, each: Each): void {
  const path = pathOf(argument);
  if (!argument || (path?.includes('.') && isPathFor(each, path))) return;
  const said = path === undefined ? '' : `; "${path}" is none${perhaps(path, factPaths(each))}`;
  throw new ExpressionError(`has() needs the name of a fact${said}`, argument.range.start);
}

const isPathFor = (each: Each, path: string): boolean =>
  VARIABLES[each].some((variable) => path === variable || path.startsWith(`${variable}.`)) &&
  factAt(path) !== undefined;

function inspectValues(left: ASTNode, right: ASTNode): void {
  for (const [a, b] of [
    [left, right],
    [right, left],
  ] as const) {
    const path = pathOf(a);
    const entry = path === undefined ? undefined : factAt(path);
    if (!entry || isGroup(entry) || !entry.values) continue;
    const literals = b.op === 'list' ? b.args : [b];
    for (const literal of literals) {
      if (literal.op !== 'value' || typeof literal.args !== 'string' || entry.values.includes(literal.args)) continue;
      throw new ExpressionError(notAValue(`${path}`, literal.args, entry.values), literal.range.start);
    }
  }
}

export const notAValue = (path: string, value: string, values: readonly string[]): string =>
  `${path} is never "${value}"${perhaps(value, values)}; it is one of ${values.join(', ')}`;

export function childrenOf(node: ASTNode): ASTNode[] {
  const found: ASTNode[] = [];
  const collect = (value: unknown): void => {
    if (Array.isArray(value)) value.forEach(collect);
    else if (isNode(value)) found.push(value);
  };
  collect(node.args);
  return found;
}

const isNode = (value: unknown): value is ASTNode =>
  typeof value === 'object' && value !== null && 'op' in value && 'range' in value;

/** `barrier.rating.state` for the nodes that spell it; undefined for anything but a plain chain of names. */
export function pathOf(node: unknown): string | undefined {
  if (!isNode(node)) return undefined;
  if (node.op === 'id') return node.args;
  if (node.op === '.') return join(pathOf(node.args[0]), node.args[1]);
  if (node.op === '[]' && node.args[1].op === 'value' && typeof node.args[1].args === 'string') {
    return join(pathOf(node.args[0]), node.args[1].args);
  }
  return undefined;
}

/** The facts that an expression names; the variables of loops are none. */
export function factsNamed(node: ASTNode): string[] {
  const path = pathOf(node);
  if (path !== undefined) return factAt(path) === undefined ? [] : [path];
  return [...new Set(childrenOf(node).flatMap(factsNamed))];
}

const join = (path: string | undefined, name: string): string | undefined =>
  path === undefined ? undefined : `${path}.${name}`;
