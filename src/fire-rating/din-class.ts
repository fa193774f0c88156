import type { Minutes } from '../model.js';
import { wholeNumber } from './quantity.js';
import type { Cursor } from './tokens.js';
import type { Flag, RatingContext, Reading } from './types.js';

const PERIODS = [30, 60, 90, 120, 180];

interface DinLetter {
  /** What the class is for. On anything else the text is misplaced, and what it means there is not known. */
  readonly objects: readonly RatingContext['object'][];
  readonly criteria: 'integrity' | 'integrityAndInsulation' | 'neither';
  readonly flags: readonly Flag[];
}

/** DIN 4102 letters that name their object; `F` (structural elements) is read apart. */
const LETTERS: Readonly<Record<string, DinLetter>> = {
  L: { objects: ['duct', 'other'], criteria: 'integrityAndInsulation', flags: [] },
  K: { objects: ['damper', 'other'], criteria: 'integrityAndInsulation', flags: [] },
  T: { objects: ['door', 'other'], criteria: 'integrityAndInsulation', flags: [] },
  S: { objects: ['cable', 'other'], criteria: 'integrityAndInsulation', flags: [] }, // cable seal
  I: { objects: ['barrier', 'cable', 'other'], criteria: 'integrityAndInsulation', flags: [] }, // service shaft, channel
  G: { objects: ['barrier', 'door', 'other'], criteria: 'integrity', flags: [] }, // glazing
  R: { objects: ['pipeSeal'], criteria: 'integrityAndInsulation', flags: [] }, // elsewhere EN loadbearing
  E: { objects: ['cable'], criteria: 'neither', flags: ['P'] }, // circuit integrity; elsewhere EN integrity
};

/** DIN 4102: `F 90-AB`, `L 90`, `K90`, `T 30`. */
export function dinClass(cursor: Cursor, context: RatingContext): Reading | undefined {
  const letter = cursor.take('word')?.text ?? '';
  const minutes = wholeNumber(cursor.take('number'));
  if (!PERIODS.includes(minutes)) return undefined;
  if (letter === 'F') return structural(cursor, context, minutes);
  const meaning = Object.hasOwn(LETTERS, letter) ? LETTERS[letter] : undefined;
  if (!meaning?.objects.includes(context.object) || !cursor.atEnd) return undefined;
  return {
    loadbearing: 'none',
    integrity: meaning.criteria === 'neither' ? 'none' : minutes,
    insulation: meaning.criteria === 'integrityAndInsulation' ? minutes : 'none',
    duration: null,
    flags: meaning.flags,
  };
}

/** `F 90` holds for what the element does: carry, close off, or both. -A, -AB, -B name its material. */
function structural(cursor: Cursor, context: RatingContext, minutes: number): Reading | undefined {
  if (cursor.takeSymbol('-') !== undefined && cursor.peek()?.kind !== 'word') return undefined;
  cursor.takeWord('A', 'AB', 'BA', 'B');
  if (!cursor.atEnd || (context.object !== 'barrier' && context.object !== 'other')) return undefined;
  const whereTrue = (does: boolean | undefined): Minutes => (does === undefined ? null : does ? minutes : 'none');
  const loadbearing = whereTrue(context.loadBearing);
  const separation = whereTrue(context.separating ?? (context.object === 'barrier' ? true : undefined));
  // An element that neither carries nor closes off has nothing to resist with: text and model contradict each other.
  if (loadbearing === 'none' && separation === 'none') return undefined;
  const unknown = loadbearing === null && separation === null;
  return {
    loadbearing,
    integrity: separation,
    insulation: separation,
    duration: unknown ? minutes : null,
    flags: [],
  };
}
