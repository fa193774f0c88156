/** Which facts a check goes by, told by its compiled expressions. */
import { SITE } from './check-set.js';
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

/** All that a check's verdict hangs on: what it names, and what its services, its tables, its proof and its tolerances go by. */
export function factsDeciding(check: CompiledCheck): string[] {
  const { proof, limit, definition } = check;
  const sides = [limit.atLeast, limit.atMost, limit.equals].filter((side) => side !== undefined);
  return [
    ...factsReadBy(check),
    ...(definition.services ? ['duct.service'] : []),
    ...(proof === 'system' ? ['system.status'] : []),
    ...(sides.some((side) => 'table' in side) ? ['duct.shape'] : []),
    ...(sides.some((side) => 'rows' in side) ? ['barrier.minutes'] : []),
    ...(definition.tolerances ?? []).filter((one) => one !== SITE),
  ];
}

function readsOf(side: LimitValue<number | string | boolean>): readonly string[] {
  if ('expression' in side) return side.expression.reads;
  if ('table' in side) return ['duct.width', 'duct.height', 'duct.diameter'];
  return 'rows' in side ? ['barrier.rating'] : [];
}
