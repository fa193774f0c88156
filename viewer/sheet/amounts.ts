/** Values and limits as the reader's country writes them; words of values are those of the papers. */
import type { Limit, Unit } from '../../src/model.js';
import { listed } from '../../src/words/text.js';
import { valueWords } from '../../src/words/values.js';
import { number, quantity } from '../format.js';
import { WORDS } from '../words.js';

export type Value = number | string | boolean;

/** `1,250 mm`, `25°`, `7.87`, `damper and protection`. */
export function amount(value: Value, unit: Unit | null, locale?: string): string {
  if (typeof value !== 'number') return valueWords(value);
  if (unit === 'deg') return `${number(value, 2, locale)}°`;
  return unit === null ? number(value, 2, locale) : quantity(value, unit, 2, locale);
}

/** `10 to 50 mm`, `at most 5 mm`, `steel or stainless`. */
export function allowedWords({ atLeast, atMost, equals, among }: Limit, unit: Unit | null, locale?: string): string {
  const { tape } = WORDS;
  const said = (value: Value): string => amount(value, unit, locale);
  if (atLeast !== undefined && atMost !== undefined) return tape.between(amount(atLeast, null, locale), said(atMost));
  if (atLeast !== undefined) return tape.atLeast(said(atLeast));
  if (atMost !== undefined) return tape.atMost(said(atMost));
  if (equals !== undefined) return said(equals);
  return listed((among ?? []).map(said), 'or');
}

/** `20 mm over`, `5 mm short`, `12 mm inside`; empty of what is no number. */
export function offWords(
  measured: Value,
  { atLeast, atMost, equals }: Limit,
  unit: Unit | null,
  locale?: string,
): string {
  if (typeof measured !== 'number' || typeof equals === 'string' || typeof equals === 'boolean') return '';
  const { tape } = WORDS;
  const [low, high] = [atLeast ?? equals, atMost ?? equals];
  const by = (value: number): string => amount(Number(value.toFixed(2)), unit, locale);
  if (high !== undefined && measured > high) return tape.over(by(measured - high));
  if (low !== undefined && measured < low) return tape.under(by(low - measured));
  const inside = Math.min(...[low, high].flatMap((bound) => (bound === undefined ? [] : [Math.abs(measured - bound)])));
  if (!Number.isFinite(inside)) return '';
  return inside === 0 ? tape.atLimit : tape.inside(by(inside));
}
