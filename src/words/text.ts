/** Plain text for people: numbers, plurals, wrapping, and text from models made safe to print. */

/** Control characters, and those that turn the direction of the text after them, could make a terminal lie. */
// biome-ignore lint/suspicious/noControlCharactersInRegex: they are what this is about
const UNPRINTABLE = /[\u0000-\u001f\u007f-\u009f\u2028\u2029\u200e\u200f\u202a-\u202e\u2066-\u2069\ufeff]+/gu;

/** Text from a model on one line: control characters become a space, half a surrogate pair becomes U+FFFD. */
export function oneLine(text: string): string {
  return text
    .replace(/\p{Surrogate}/gu, '\ufffd')
    .replace(UNPRINTABLE, ' ')
    .replace(/ {2,}/g, ' ')
    .trim();
}

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
