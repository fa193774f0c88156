/** What can't be planned is refused in one line that names it. */
import { listed, number } from '../../words/text.js';
import { type CutPart, CuttingError, type CuttingOptions, type Stock } from './types.js';

export function checkInput(parts: readonly CutPart[], stocks: readonly Stock[], options: CuttingOptions): void {
  stocks.forEach(checkStock);
  parts.forEach(checkPart);
  const { keep, effort } = options;
  if (keep) {
    checkSize(keep.length, 'The least length of a kept offcut');
    if (keep.width !== undefined) checkSize(keep.width, 'The least width of a kept offcut');
  }
  if (effort !== undefined) checkSize(effort, 'The effort');
  const asked = parts.filter(({ count }) => count > 0);
  if (asked.length === 0) return;
  const sold = stocks.filter(({ onHand }) => onHand === undefined);
  if (sold.length === 0) refuse('No stock that can be bought is on offer.');
  const bars = stocks.filter(({ form }) => form === 'bar');
  if (bars.length > 0 && bars.length < stocks.length)
    refuse(`Bars and ${stocks.find(({ form }) => form !== 'bar')!.form}s can't be cut in one plan: ${idsOf(stocks)}.`);
  for (const part of asked) checkFit(part, stocks, sold);
}

function checkStock({ id, form, length, width, kerf, onHand }: Stock): void {
  checkSize(length, `The length of stock "${id}"`);
  if (form === 'bar' && width !== undefined) refuse(`Stock "${id}" is a bar and can't have a width.`);
  if (form !== 'bar') checkSize(width, `The width of stock "${id}"`);
  if (!(Number.isFinite(kerf) && kerf >= 0)) refuse(`The kerf of stock "${id}" is no length: ${kerf}.`);
  if (onHand !== undefined) checkCount(onHand, `The number on hand of stock "${id}"`);
}

function checkPart({ id, length, width, count }: CutPart): void {
  checkSize(length, `The length of part "${id}"`);
  if (width !== undefined) checkSize(width, `The width of part "${id}"`);
  checkCount(count, `The count of part "${id}"`);
}

function checkSize(value: number | undefined, what: string): void {
  if (value === undefined) refuse(`${what} is missing.`);
  if (!(Number.isFinite(value) && value > 0)) refuse(`${what} has to be more than 0: ${value}.`);
}

function checkCount(value: number, what: string): void {
  if (!(Number.isSafeInteger(value) && value >= 0)) refuse(`${what} is no whole number: ${value}.`);
}

function checkFit(part: CutPart, stocks: readonly Stock[], sold: readonly Stock[]): void {
  const { id, length, width, mayTurn } = part;
  if (stocks[0]!.form === 'bar' && width !== undefined) refuse(`Part "${id}" has a width, but is cut from bars.`);
  const widths = new Set(stocks.map((stock) => stock.width));
  if (width === undefined && widths.size > 1)
    refuse(`Part "${id}" has no width, and the stock is not of one width: ${idsOf(stocks)}.`);
  const fits = (stock: Stock): boolean =>
    (length <= stock.length && (width ?? 0) <= (stock.width ?? 0)) ||
    (mayTurn === true && width !== undefined && width <= stock.length && length <= stock.width!);
  if (sold.some(fits)) return;
  const size = width === undefined ? number(length) : `${number(length)} × ${number(width)}`;
  refuse(`Part "${id}" (${size} mm) is larger than any stock on offer: ${listed(sold.map(sizeWords))}.`);
}

const sizeWords = ({ id, length, width }: Stock): string =>
  `"${id}" (${number(length)}${width === undefined ? '' : ` × ${number(width)}`} mm)`;

const idsOf = (stocks: readonly Stock[]): string => listed(stocks.map(({ id }) => `"${id}"`));

function refuse(message: string): never {
  throw new CuttingError(message);
}
