import type { Minutes } from '../model.js';
import type { Cursor } from './tokens.js';
import { FLAGS, type Flag, type Reading } from './types.js';

/** One class of a text that may hold several, e.g. the `RE 60` of `R 120 / RE 60 / REI 30`. */
export interface ClassPart {
  /** Minutes of each letter the class has. */
  readonly minutes: ReadonlyMap<string, number>;
  readonly flags: readonly Flag[];
}

export function inOrder(flags: Iterable<Flag>): Flag[] {
  const has = new Set(flags);
  return FLAGS.filter((flag) => has.has(flag));
}

/** Classes divided by a slash, comma, semicolon or plus, up to the end of the text. */
export function takeParts(cursor: Cursor, takePart: () => ClassPart | undefined): ClassPart[] | undefined {
  const parts: ClassPart[] = [];
  do {
    const part = takePart();
    if (!part) return undefined;
    parts.push(part);
  } while (cursor.takeSymbol('/', ',', ';', '+') !== undefined);
  return cursor.atEnd ? parts : undefined;
}

/**
 * A combined class means the longest time for each criterion. Each part must then add something: where one does not
 * (`EI 60 / EI 90`), the text contradicts or repeats itself. Orientation, fire side and the like must be the same on
 * all parts, because a rating has only one place to keep them.
 */
export function combine(parts: readonly ClassPart[]): Reading | undefined {
  const [first] = parts;
  if (!first || parts.some((part) => suffixes(part) !== suffixes(first))) return undefined;
  const adds = (part: ClassPart) =>
    [...part.minutes].some(([letter, minutes]) =>
      parts.every((other) => other === part || (other.minutes.get(letter) ?? -1) < minutes),
    );
  if (!parts.every(adds)) return undefined;
  const longest = (letter: string): Minutes => {
    const stated = parts.flatMap((part) => part.minutes.get(letter) ?? []);
    return stated.length > 0 ? Math.max(...stated) : 'none';
  };
  return {
    loadbearing: longest('R'),
    integrity: longest('E'),
    insulation: longest('I'),
    duration: null,
    flags: inOrder(parts.flatMap((part) => part.flags)),
  };
}

/** Radiation (W) is a letter with minutes of its own, so parts may differ in it. */
function suffixes(part: ClassPart): string {
  return inOrder(part.flags.filter((flag) => flag !== 'W')).join();
}
