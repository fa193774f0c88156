/** How parts are cut from stock so that the least is bought, and how much less would be possible at most. */
import { assemble } from './assemble.js';
import { checkInput } from './check-input.js';
import { problemOf } from './problem.js';
import { search } from './search.js';
import { loadSolver } from './solver.js';
import { Standing } from './standing.js';
import type { CutPart, CuttingOptions, CuttingPlan, Stock } from './types.js';

/**
 * Bars, and rolls whose parts are as wide as they are, are planned by lengths; sheets and other rolls by cuts from edge to
 * edge in at most three stages. The same input gives the same plan.
 *
 * @param parts none with a count of 0 is cut; ids may repeat
 * @param stocks what is on offer, all of one material: bars, or rolls and sheets; at least one that can be bought
 * @throws CuttingError for a part that no stock for sale takes, and for sizes and counts that are none
 * @throws the reason of `options.signal` when it is aborted
 */
export async function planCuts(
  parts: readonly CutPart[],
  stocks: readonly Stock[],
  options: CuttingOptions = {},
): Promise<CuttingPlan> {
  options.signal?.throwIfAborted();
  checkInput(parts, stocks, options);
  const asked = parts.filter(({ count }) => count > 0);
  const offered = stocks.filter(({ onHand }) => onHand !== 0);
  if (asked.length === 0) return NOTHING;
  const problem = problemOf(asked, offered);
  const standing = new Standing(problem, options);
  const steps = options.effort === undefined ? undefined : options.effort * 1e6;
  await search(problem, standing, loadSolver, steps);
  return assemble(problem, standing, options.keep);
}

const NOTHING: CuttingPlan = {
  patterns: [],
  used: [],
  bought: 0,
  lowerBound: 0,
  boundHoldsFor: 'every plan',
  gap: 0,
  waste: 0,
  method: 'nothing is to be cut',
};

/** What a plan keeps, as stock on hand for the next one; equal offcuts together. */
export function keptOffcuts({ patterns }: CuttingPlan): Stock[] {
  const kept = new Map<string, Stock & { readonly onHand: number }>();
  for (const { stock, times, offcuts } of patterns)
    for (const { length, width } of offcuts.filter((offcut) => offcut.kept)) {
      const size = width === undefined ? `${length}` : `${length} × ${width}`;
      const id = `offcut of ${stock.id}, ${size}`;
      const onHand = (kept.get(id)?.onHand ?? 0) + times;
      kept.set(id, {
        id,
        form: stock.form,
        length,
        ...(width === undefined ? {} : { width }),
        kerf: stock.kerf,
        onHand,
      });
    }
  return [...kept.values()];
}
