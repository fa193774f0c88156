import type { Cursor, Token } from './tokens.js';

/** The longest class in use (EN 13501-2 periods end there); a longer time is a slip of the pen or another unit. */
export const LONGEST = 360;
/** No notation has a shorter class; 0 is read as it stands. */
const SHORTEST = 10;

const MINUTE_WORDS = ['MIN', 'MINS', 'MN', 'MINUTE', 'MINUTES', 'MINUTEN'];
const HOUR_WORDS = ['H', 'HR', 'HRS', 'HOUR', 'HOURS', 'STD', 'STUNDE', 'STUNDEN', 'HEURE', 'HEURES'];
const ABBREVIATIONS = ['MIN', 'MINS', 'MN', 'H', 'HR', 'HRS', 'STD'];

/** Exact, so that 1.1 hours are 66 minutes and a third of an hour is 20. */
interface Amount {
  readonly over: number;
  readonly under: number;
}

/** The whole number a token states, or NaN. Leading zeros and decimals are not how a class is written. */
export function wholeNumber(token: Token | undefined): number {
  return token?.kind === 'number' && /^(0|[1-9]\d{0,3})$/.test(token.text) ? Number(token.text) : Number.NaN;
}

export function plausible(minutes: number): boolean {
  return minutes === 0 || (Number.isInteger(minutes) && minutes >= SHORTEST && minutes <= LONGEST);
}

export function takeMinuteUnit(cursor: Cursor): boolean {
  return takeUnit(cursor, MINUTE_WORDS);
}

/**
 * "60 min", "1 HR", "1-HR", "½ h", "1 1/2 HR", "1-1/2 hr", "1.5 hours", "1h30", "1 hr 30 min": minutes.
 * @param bare What a number without a unit is; left out: such a number is not read.
 */
export function takeDuration(cursor: Cursor, bare?: 'hours'): number | undefined {
  return cursor.attempt(() => {
    const amount = takeAmount(cursor);
    if (!amount) return undefined;
    takeInnerDash(cursor, (next) => next.kind === 'word');
    const minutes = takeUnitValue(cursor, amount, bare);
    return minutes !== undefined && plausible(minutes) ? minutes : undefined;
  });
}

function takeUnitValue(cursor: Cursor, amount: Amount, bare: 'hours' | undefined): number | undefined {
  if (takeMinuteUnit(cursor)) return amount.over / amount.under;
  const french = cursor.peek()?.text === 'H';
  if (!takeUnit(cursor, HOUR_WORDS)) return bare === 'hours' ? (60 * amount.over) / amount.under : undefined;
  const hours = (60 * amount.over) / amount.under;
  return amount.under === 1 ? hours + takeMinutesAfterHours(cursor, french) : hours;
}

/** The 30 of "1 hr 30 min" and of the French "1h30". */
function takeMinutesAfterHours(cursor: Cursor, french: boolean): number {
  const minutes = cursor.attempt(() => {
    const value = wholeNumber(cursor.take('number'));
    const united = takeMinuteUnit(cursor);
    return value >= 10 && value < 60 && (united || french) ? value : undefined;
  });
  return minutes ?? 0;
}

function takeAmount(cursor: Cursor): Amount | undefined {
  const alone = cursor.take('fraction');
  if (alone) return fraction(alone);
  const number = cursor.take('number');
  if (!number) return undefined;
  const whole = wholeNumber(number);
  if (Number.isNaN(whole)) return decimal(number);
  takeInnerDash(cursor, (next) => next.kind === 'fraction');
  const rest = cursor.take('fraction');
  if (!rest) return { over: whole, under: 1 };
  const part = fraction(rest);
  return { over: whole * part.under + part.over, under: part.under };
}

/** A hyphen without spaces, as in "1-HR"; one with spaces would be a range or a minus. */
function takeInnerDash(cursor: Cursor, follows: (next: Token) => boolean): void {
  const [dash, next] = [cursor.peek(), cursor.peek(1)];
  if (dash?.text === '-' && dash.glued && next?.glued && follows(next)) cursor.skip(1);
}

function fraction(token: Token): Amount {
  const [over, under] = token.text.split('/');
  return { over: Number(over), under: Number(under) };
}

/** "1.5" or "1,5"; more than two decimals are no way to state a fire rating. */
function decimal(token: Token): Amount | undefined {
  const parts = /^(0|[1-9]\d?)[.,](\d{1,2})$/.exec(token.text);
  if (!parts) return undefined;
  const decimals = parts[2] ?? '';
  return { over: Number(`${parts[1]}${decimals}`), under: 10 ** decimals.length };
}

function takeUnit(cursor: Cursor, words: readonly string[]): boolean {
  const word = cursor.takeWord(...words);
  if (word === undefined) return false;
  if (ABBREVIATIONS.includes(word) && cursor.peek()?.glued) cursor.takeSymbol('.');
  return true;
}
