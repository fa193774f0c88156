/** Plain text for people: numbers, plurals, wrapping, and text from models made safe to print. */

/**
 * What could make a terminal or a page lie: control characters (ECMA-48, both sets), line and paragraph separators, what
 * turns the direction of text after it (Unicode, UAX 9), and what is never seen but may carry words (annotation, tags).
 * Joiners and the soft hyphen stay: scripts and emoji are written with them.
 */
const UNPRINTABLE = String.raw`[\p{Cc}\p{Zl}\p{Zp}\p{Bidi_Control}\u180e\u2061-\u206f\ufeff\ufff9-\ufffb\u{e0000}-\u{e007f}]`;
const UNPRINTABLE_RUN = new RegExp(`${UNPRINTABLE}+`, 'gu');
const UNPRINTABLE_IN_LINES = new RegExp(`(?!\n)${UNPRINTABLE}`, 'gu');

/** Text from a model on one line: what is unprintable becomes a space, half a surrogate pair becomes U+FFFD. */
export function oneLine(text: string): string {
  return text
    .replace(/\p{Surrogate}/gu, '\ufffd')
    .replace(UNPRINTABLE_RUN, ' ')
    .replace(/ {2,}/g, ' ')
    .trim();
}

/** Whole lines as they may go to a terminal: each unprintable character but the line feed becomes a space. */
export const printable = (lines: string): string => lines.replace(UNPRINTABLE_IN_LINES, ' ');

/** One line, no longer than `length` characters. */
export function brief(text: string, length: number): string {
  const characters = [...oneLine(text)];
  return characters.length <= length ? characters.join('') : `${characters.slice(0, length - 1).join('')}…`;
}

/** A number as it was judged, without needless zeros: 30, 30.5, 0.25. */
export function number(value: number): string {
  return String(Object.is(value, -0) ? 0 : Number(value.toFixed(2)));
}

/** `1 wall`, `3 walls`. */
export function counted(count: number, noun: string, plural = `${noun}s`): string {
  return `${count} ${count === 1 ? noun : plural}`;
}

/** `a, b and c`. */
export function listed(items: readonly string[], last: 'and' | 'or' = 'and'): string {
  return items.length < 2 ? (items[0] ?? '') : `${items.slice(0, -1).join(', ')} ${last} ${items.at(-1)}`;
}

/** What a file is called, wherever it lies and from whatever folder it was named: reports must not differ by that. */
export const fileName = (path: string): string =>
  path.slice(Math.max(path.lastIndexOf('/'), path.lastIndexOf('\\')) + 1);

export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/**
 * Lines of at most `width` characters. A word that is longer (a path) keeps its own line: broken, it could not be used.
 *
 * @param first stands before the first line.
 * @param rest stands before every further line; spaces as wide as `first` when left out.
 */
export function wrap(text: string, width: number, first = '', rest = ' '.repeat(first.length)): string[] {
  const lines: string[] = [];
  let line = first;
  let empty = true;
  for (const word of text.split(' ').filter((w) => w !== '')) {
    if (!empty && line.length + 1 + word.length > width) {
      lines.push(line);
      line = rest;
      empty = true;
    }
    line += empty ? word : ` ${word}`;
    empty = false;
  }
  return [...lines, line];
}
