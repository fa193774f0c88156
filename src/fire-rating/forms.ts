import type { Minutes } from '../model.js';
import { type ClassPart, combine, takeParts } from './combine.js';
import { dinClass } from './din-class.js';
import { enClass } from './en-class.js';
import { plausible, takeDuration, takeMinuteUnit, wholeNumber } from './quantity.js';
import type { Cursor } from './tokens.js';
import type { RatingContext, Reading } from './types.js';

/** Reads a whole text in one country's way of writing, or gives nothing. */
export type Form = (cursor: Cursor, context: RatingContext) => Reading | undefined;

/** Australia (FRL), New Zealand and Hong Kong (FRR): `-/120/60` is loadbearing / integrity / insulation. */
const threeFields: Form = (cursor) => {
  const loadbearing = takeField(cursor);
  if (cursor.takeSymbol('/') === undefined) return undefined;
  const integrity = takeField(cursor);
  if (cursor.takeSymbol('/') === undefined) return undefined;
  const insulation = takeField(cursor);
  takeMinuteUnit(cursor);
  if (loadbearing === undefined || integrity === undefined || insulation === undefined) return undefined;
  return { loadbearing, integrity, insulation, duration: null, flags: [] };
};

/** Steps of five keep dates (12/10/23) out. */
function takeField(cursor: Cursor): Minutes | undefined {
  if (cursor.takeSymbol('-') !== undefined) return 'none';
  const minutes = wholeNumber(cursor.take('number'));
  return plausible(minutes) && minutes % 5 === 0 ? minutes : undefined;
}

/**
 * ASTM E814 / UL 1479 seals: `F 2 / T 1`, `F Rating 2 hr, T Rating 0 hr`. F is integrity, T insulation, in hours.
 * Both must be there: a lone `F 2` leaves T open and looks like DIN. T includes F, so it can't be longer.
 */
const flameAndTemperature: Form = (cursor) => {
  const ratings = new Map<string, number>();
  while (ratings.size < 2) {
    const letter = cursor.takeWord('F', 'T');
    if (letter === undefined || ratings.has(letter)) return undefined;
    if (cursor.peek()?.text === '-' && cursor.peek(1)?.text === 'RATING') cursor.skip(1);
    cursor.takeWord('RATING');
    cursor.takeSymbol('-', ':', '=');
    const minutes = takeDuration(cursor, 'hours');
    if (minutes === undefined) return undefined;
    ratings.set(letter, minutes);
    if (ratings.size < 2) cursor.takeSymbol('/', ',', ';');
  }
  const [integrity, insulation] = [ratings.get('F') ?? null, ratings.get('T') ?? null];
  if (integrity === null || insulation === null || insulation > integrity) return undefined;
  return { loadbearing: 'none', integrity, insulation, duration: null, flags: [] };
};

/** United Kingdom fire doors: `FD30`, `FD30S` (S: cold-smoke seal). Integrity only. */
const fireDoor: Form = (cursor, { object }) => {
  if (object !== 'door' && object !== 'other') return undefined;
  if (cursor.takeWord('FD') === undefined) return undefined;
  const minutes = wholeNumber(cursor.take('number'));
  if (![20, 30, 45, 60, 90, 120, 180, 240].includes(minutes)) return undefined;
  const smoke = cursor.takeWord('S') !== undefined;
  return { loadbearing: 'none', integrity: minutes, insulation: 'none', duration: null, flags: smoke ? ['S'] : [] };
};

const FRENCH: Readonly<Record<string, string>> = { SF: 'R', PF: 'E', CF: 'EI' };

/** France before the EN classes: stable au feu, pare-flammes, coupe-feu: `CF 2h`, `SF 1/2h`. */
const french: Form = (cursor) => {
  const parts = takeParts(cursor, (): ClassPart | undefined => {
    const letters = FRENCH[cursor.takeWord('SF', 'PF', 'CF') ?? ''];
    const minutes = letters === undefined ? undefined : takeDuration(cursor);
    if (letters === undefined || minutes === undefined) return undefined;
    return { minutes: new Map([...letters].map((letter) => [letter, minutes])), flags: [] };
  });
  return parts && combine(parts);
};

/**
 * United Kingdom and United States: one time for the whole element, `60 min`, `1 1/2 HR`. On a damper it is integrity
 * alone, because damper tests (UL 555) set no limit to the temperature rise.
 */
const oneDuration: Form = (cursor, { object, unit }) => {
  // A bare 0 is what an unfilled property looks like; "0 HR" was written by someone.
  const duration = takeDuration(cursor) ?? (takeDuration(cursor, unit) || undefined);
  if (duration === undefined) return undefined;
  if (object === 'damper') return { loadbearing: 'none', integrity: duration, insulation: 'none', duration, flags: [] };
  return { loadbearing: null, integrity: null, insulation: null, duration, flags: [] };
};

export const FORMS: readonly Form[] = [
  threeFields,
  enClass,
  dinClass,
  flameAndTemperature,
  fireDoor,
  french,
  oneDuration,
];
