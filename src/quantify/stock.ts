/** What each material is delivered as. */
import type { TestedSystem } from '../rules/index.js';
import { number } from '../words/text.js';
import type { QuantifyChoices } from './choices.js';
import type { Stock } from './cutting/types.js';
import type { RollSize } from './formulas/wrap.js';
import type { Material, MaterialKind } from './takeoff.js';

/** Blanket is cut with a knife, which takes nothing away. */
const SAWN: readonly MaterialKind[] = ['angle', 'rod', 'bearer', 'board', 'boardCollar'];

/** None: it is not cut, or nobody says how it is delivered. */
export function stocksOf(
  { kind, testedSystem }: Material,
  systems: ReadonlyMap<string, TestedSystem>,
  { stocks, kerf }: Pick<QuantifyChoices, 'stocks' | 'kerf'>,
): Stock[] {
  const saw = SAWN.includes(kind) ? kerf : 0;
  if (kind === 'blanket' || kind === 'board')
    return deliveredAs(kind, testedSystem === null ? undefined : systems.get(testedSystem), stocks).map(
      ({ form, length, width }) => stock(form, length, width, saw),
    );
  return stocks
    .filter(({ of }) => of === kind)
    .map(({ length, width }) => stock(width === undefined ? 'bar' : 'sheet', length, width, saw));
}

/** A layer as the brief has it, else as the document does. */
export function deliveredAs(
  kind: 'blanket' | 'board',
  system: TestedSystem | undefined,
  stocks: QuantifyChoices['stocks'],
): readonly (RollSize & { readonly form: 'roll' | 'sheet' })[] {
  const own = stocks.flatMap(({ of, length, width }) =>
    of === kind && width !== undefined ? [{ length, width }] : [],
  );
  if (own.length === 0) return system?.layer?.pieces ?? [];
  return own.map((size) => ({ form: kind === 'blanket' ? 'roll' : 'sheet', ...size }));
}

const stock = (form: Stock['form'], length: number, width: number | undefined, kerf: number): Stock => ({
  id: `${form} ${[length, ...(width === undefined ? [] : [width])].map(number).join(' x ')}`,
  ...{ form, length, kerf },
  ...(width !== undefined && { width }),
});
