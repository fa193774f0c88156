import { type ClassPart, combine, takeParts } from './combine.js';
import { takeMinuteUnit, wholeNumber } from './quantity.js';
import type { Cursor } from './tokens.js';
import { type Flag, isFlag, type RatingContext, type Reading } from './types.js';

/** Periods of EN 13501-2, and 150 of the CIS countries. */
const PERIODS = [15, 20, 30, 45, 60, 90, 120, 150, 180, 240, 360];
/** `ES`, `EIS`: the older way to write a damper's smoke leakage. */
const LETTERS = ['R', 'RE', 'REI', 'REW', 'E', 'EI', 'EW', 'ES', 'EIS'];

/**
 * EN 13501-2, -3 and -4, and the CIS countries' classes with the same letters: `REI 120`, `EI2 30-C`,
 * `EI 120 (ve ho i↔o) S`, `E600 120 (ho) S 500 single`, `R 120 / RE 60 / REI 30`.
 */
export function enClass(cursor: Cursor, { object }: RatingContext): Reading | undefined {
  const parts = takeParts(cursor, () => takeClass(cursor));
  if (!parts) return undefined;
  const letters = parts.length === 1 ? [...(parts[0]?.minutes.keys() ?? [])].join('') : '';
  // On these the single letter is a DIN 4102 class (see din-class.ts) or no class at all.
  if (letters === 'R' && object !== 'barrier' && object !== 'other') return undefined;
  if (letters === 'E' && object === 'cable') return undefined;
  return combine(parts);
}

function takeClass(cursor: Cursor): ClassPart | undefined {
  const letters = cursor.takeWord(...LETTERS);
  if (letters === undefined) return undefined;
  const flags = new Set<Flag>();
  if (letters.endsWith('W')) flags.add('W');
  if (letters.endsWith('S')) flags.add('S');
  takeIndex(cursor, letters, flags);
  if (cursor.peek()?.text === '-' && cursor.peek(1)?.text === 'M') {
    cursor.skip(2);
    flags.add('M');
  }
  const minutes = wholeNumber(cursor.take('number'));
  if (!PERIODS.includes(minutes)) return undefined;
  takeMinuteUnit(cursor);
  if (!takeSuffixes(cursor, flags)) return undefined;
  return { minutes: new Map([...letters.replace('S', '')].map((letter) => [letter, minutes])), flags: [...flags] };
}

/** The 2 of `EI2 30` and the 600 of `E600 120`: a number glued to the letters, with the minutes after a space. */
function takeIndex(cursor: Cursor, letters: string, flags: Set<Flag>): void {
  const [index, minutes] = [cursor.peek(), cursor.peek(1)];
  if (index?.kind !== 'number' || !index.glued || minutes?.kind !== 'number' || minutes.glued) return;
  // R stands before EI1 and EI2 too; the flag names the insulation variant only.
  const name = `${letters.replace('REI', 'EI')}${index.text}`;
  if (!isFlag(name)) return;
  flags.add(name);
  cursor.skip(1);
}

/** False when the same suffix comes twice: then the text is not understood. */
function takeSuffixes(cursor: Cursor, flags: Set<Flag>): boolean {
  const add = (found: readonly Flag[]) => {
    const repeated = found.some((flag) => flags.has(flag));
    for (const flag of found) flags.add(flag);
    return !repeated;
  };
  for (;;) {
    const bracket = cursor.attempt(() => takeBracket(cursor));
    const found = bracket ?? cursor.attempt(() => takeSuffix(cursor)) ?? cursor.attempt(() => takeUse(cursor));
    if (!found) return true;
    if (!add(found)) return false;
  }
}

/** `(ve ho i↔o)`: EN 13501-3 */
function takeBracket(cursor: Cursor): Flag[] | undefined {
  if (cursor.takeSymbol('(') === undefined) return undefined;
  const flags: Flag[] = [];
  while (cursor.takeSymbol(')') === undefined) {
    const use = takeUse(cursor);
    if (!use || use.some((flag) => flags.includes(flag))) return undefined;
    flags.push(...use);
    if (cursor.peek()?.text !== ')') cursor.takeSymbol(',', ';', '/', '-', '+');
  }
  return flags.length > 0 ? flags : undefined;
}

/** Orientation, side of the fire, number of compartments: EN 13501-3 and -4. */
function takeUse(cursor: Cursor): Flag[] | undefined {
  const word = cursor.takeWord('VE', 'HO', 'SINGLE', 'MULTI')?.toLowerCase();
  if (word !== undefined) return isFlag(word) ? [word] : undefined;
  const from = cursor.takeWord('I', 'O');
  const arrow = cursor.takeSymbol('↔', '→', '←');
  const to = cursor.takeWord('I', 'O');
  if (from === undefined || arrow === undefined || to === undefined || from === to) return undefined;
  if (arrow === '↔') return ['i>o', 'o>i'];
  return (from === 'I') === (arrow === '→') ? ['i>o'] : ['o>i'];
}

/** `-C`, `C5`, `-M`, `S`, `Sa`, `S200`, `S 1500`, `-U/C`, each with or without its dash. */
function takeSuffix(cursor: Cursor): Flag[] | undefined {
  cursor.takeSymbol('-');
  const word = cursor.takeWord('C', 'U', 'M', 'S', 'SA');
  if (word === 'SA') return ['Sa'];
  if (word === 'M') return ['M'];
  if (word === 'S') return takeSmoke(cursor);
  if (word === undefined) return undefined;
  const ends = cursor.attempt(() => takePipeEnds(cursor, word));
  if (ends) return [ends];
  return word === 'C' ? takeClosing(cursor) : undefined;
}

function takeSmoke(cursor: Cursor): Flag[] | undefined {
  const next = cursor.peek();
  if (next?.kind !== 'number') return ['S'];
  cursor.skip(1);
  if (next.text === '200') return next.glued ? ['S200'] : undefined;
  const pressure = `S${next.text}`;
  return isFlag(pressure) ? ['S', pressure] : undefined;
}

function takeClosing(cursor: Cursor): Flag[] | undefined {
  const durability = cursor.take('number', true);
  if (!durability) return ['C'];
  const name = `C${durability.text}`;
  return isFlag(name) ? ['C', name] : undefined;
}

function takePipeEnds(cursor: Cursor, inside: string): Flag | undefined {
  const slash = cursor.take('symbol', true);
  const outside = cursor.take('word', true);
  const name = `${inside}/${outside?.text}`;
  return slash?.text === '/' && isFlag(name) ? name : undefined;
}
