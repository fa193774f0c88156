/** Which facts a check goes by, told by its compiled expressions. */
import type { CompiledCheck, LimitValue } from './rule-set.js';

/** Paths of facts, each once; what its tables go by too. Messages only show facts, and judge nothing. */
export function factsReadBy({ where, reasons, measure, limit }: CompiledCheck): string[] {
  const expressions = [where, ...reasons.map(({ when }) => when), measure];
  const { atLeast, atMost, equals } = limit;
  return [
    ...new Set([
      ...expressions.flatMap((one) => one?.reads ?? []),
      ...[atLeast, atMost, equals].flatMap((side) => (side ? readsOf(side) : [])),
    ]),
  ];
}

function readsOf(side: LimitValue<number | string | boolean>): readonly string[] {
  if ('expression' in side) return side.expression.reads;
  if ('table' in side) return ['duct.width', 'duct.height', 'duct.diameter'];
  return 'rows' in side ? ['barrier.rating'] : [];
}
