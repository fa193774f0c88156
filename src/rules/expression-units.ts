import type { ASTNode } from '@marcbachmann/cel-js';
import type { Unit } from '../model.js';
import { childrenOf, ExpressionError, pathOf } from './expression-sense.js';
import { factAt, isGroup } from './fact-schema.js';

/** What has to be in one unit: sums, comparisons, the items of a list. */
const ALIKE = ['+', '-', '%', '<', '<=', '>', '>=', '==', '!=', 'in', 'list', '?:'];
const GIVES_ITS_UNIT = ['+', '-', '%', '-_', '?:', 'list'];

/**
 * The unit that an expression gives; undefined: none, or one that facts do not say. Numbers that are written down take
 * the unit of what stands beside them.
 *
 * @throws ExpressionError where units are added or compared that don't fit
 */
export function unitOf(node: ASTNode): Unit | undefined {
  const path = pathOf(node);
  const entry = path === undefined ? undefined : factAt(path);
  if (entry) return isGroup(entry) ? undefined : entry.unit;
  const children = childrenOf(node).map((child) => ({ child, unit: unitOf(child) }));
  // The condition of a choice is no part of what it gives.
  const parts = node.op === '?:' ? children.slice(1) : children;
  const [first, ...others] = parts.filter(({ unit }) => unit !== undefined);
  const odd = others.find(({ unit }) => unit !== first!.unit);
  if (ALIKE.includes(node.op) && odd)
    throw new ExpressionError(`${first!.unit} and ${odd.unit} do not go together`, odd.child.range.start);
  if (GIVES_ITS_UNIT.includes(node.op)) return first?.unit;
  // A length by a length is none; a length by a number is one.
  const [left, right] = children.map(({ unit }) => unit);
  if (node.op === '*') return left && right ? undefined : (left ?? right);
  return node.op === '/' && !right ? left : undefined;
}
