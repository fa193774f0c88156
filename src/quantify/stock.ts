/** What each material is delivered as. */
import type { TestedSystem } from '../rules/index.js';
import { number } from '../words/text.js';
import type { QuantifyChoices } from './choices.js';
import type { Stock } from './cutting/types.js';
import type { Material, MaterialKind } from './takeoff.js';

/** Blanket is cut with a knife, which takes nothing away. */
const SAWN: readonly MaterialKind[] = ['angle', 'rod', 'bearer', 'board', 'boardCollar'];

/** None: it is not cut, or nobody says how it is delivered. What the brief says goes before what a document says. */
export function stocksOf(
  { kind, testedSystem }: Material,
  systems: ReadonlyMap<string, TestedSystem>,
  { stocks, kerf }: Pick<QuantifyChoices, 'stocks' | 'kerf'>,
): Stock[] {
  const own = stocks.filter(({ of }) => of === kind);
  const layer = testedSystem === null ? undefined : systems.get(testedSystem)?.layer;
  const ofLayer = kind === 'blanket' || kind === 'board' ? (layer?.pieces ?? []) : [];
  const saw = SAWN.includes(kind) ? kerf : 0;
  if (own.length > 0)
    return own.map(({ length, width }) =>
      stock(width === undefined ? 'bar' : kind === 'blanket' ? 'roll' : 'sheet', length, width, saw),
    );
  return ofLayer.map(({ form, length, width }) => stock(form, length, width, saw));
}

const stock = (form: Stock['form'], length: number, width: number | undefined, kerf: number): Stock => ({
  id: `${form} ${[length, ...(width === undefined ? [] : [width])].map(number).join(' x ')}`,
  ...{ form, length, kerf },
  ...(width !== undefined && { width }),
});
