/** HTML as text: everything that comes from a model goes through {@link text} and can't be markup. */
import { type Attributes, escapeText } from '../draw/paper/svg.js';
import { brief } from '../words/text.js';

export function tag(name: string, attributes: Attributes, ...children: readonly string[]): string {
  const list = Object.entries(attributes)
    .filter(([, value]) => value !== undefined)
    .map(([key, value]) => ` ${key}="${escapeText(String(value))}"`)
    .join('');
  return `<${name}${list}>${children.join('')}</${name}>`;
}

/** Names longer than this are cut: report.json has them whole. */
const LONGEST = 300;

/** Text of one line. Whatever direction its script runs in, what stands after it is not turned. */
export const text = (value: string): string => tag('bdi', {}, escapeText(brief(value, LONGEST)));

/**
 * Our own sentences, which may have names of the model in them. Long words may be broken: one that may not makes its table
 * wider than the page, and browsers then print the whole document smaller, drawings to scale and all.
 */
export const sentence = (value: string): string =>
  brief(value, LONGEST_SENTENCE)
    .split(' ')
    .map((word) => (word.match(UNBROKEN) ?? []).map(escapeText).join('<wbr>'))
    .join(' ');
const LONGEST_SENTENCE = 1200;
/** Words are in pieces of so many characters: longer than any of a language on its own. */
const UNBROKEN = /.{1,24}/gsu;

/** A sentence with names in it, however long these are and whatever direction they run in. */
export const said = (value: string): string => tag('bdi', {}, sentence(value));

export const paragraph = (value: string, className?: string): string => tag('p', { class: className }, sentence(value));

export const list = (name: 'ul' | 'ol', items: readonly string[]): string =>
  items.length === 0 ? '' : tag(name, {}, ...items.map((item) => tag('li', {}, item)));

/** @param heads markup; `rows` hold markup too. */
export function table(className: string, heads: readonly string[], rows: readonly (readonly string[])[]): string {
  const head = tag('thead', {}, tag('tr', {}, ...heads.map((cell) => tag('th', { scope: 'col' }, cell))));
  const body = rows.map((row) => tag('tr', {}, ...row.map((cell) => tag('td', {}, cell))));
  return tag('table', { class: className }, head, tag('tbody', {}, body.join('\n')));
}

/** Longer tables are read in the register. */
const MOST_ROWS = 400;

/** A table that says how much of it is left out. @param rows markup */
export function shortened(className: string, heads: readonly string[], rows: readonly (readonly string[])[]): string {
  const more = rows.length - MOST_ROWS;
  return [
    table(className, heads, rows.slice(0, MOST_ROWS)),
    ...(more > 0 ? [paragraph(`and ${more} more in register.xlsx`)] : []),
  ].join('\n');
}

/** A whole file, which fetches nothing and runs no script. @param sections markup */
export const htmlFile = (title: string, style: string, sections: readonly string[]): Uint8Array =>
  new TextEncoder().encode(
    [
      '<!DOCTYPE html>',
      '<html lang="en">',
      '<head>',
      '<meta charset="utf-8">',
      '<meta name="viewport" content="width=device-width">',
      `<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'; font-src data:">`,
      tag('title', {}, escapeText(brief(title, LONGEST_SENTENCE))),
      tag('style', {}, style),
      '</head>',
      '<body>',
      ...sections,
      '</body>',
      '</html>',
      '',
    ].join('\n'),
  );

/** A CSS string: all but plain letters and figures as escapes, so that no text can end the string or the style sheet. */
export function cssString(value: string): string {
  const escaped = [...brief(value, LONGEST)].map((c) =>
    /[a-z0-9 ]/i.test(c) ? c : `\\${c.codePointAt(0)!.toString(16)} `,
  );
  return `"${escaped.join('')}"`;
}
