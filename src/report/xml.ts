/**
 * XML 1.0 as text, for the formats that are XML. Its own few lines, because the builder libraries tried write texts of
 * models wrongly: "AT&T;" came out as an entity, line breaks in attributes were lost, control characters went through.
 */

export interface XmlElement {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string | undefined>>;
  readonly children: readonly (XmlElement | string)[];
}

/** An attribute that is undefined is left out. Children are elements or text; text is written as it is, escaped. */
export const element = (
  name: string,
  attributes: XmlElement['attributes'] = {},
  ...children: XmlElement['children']
): XmlElement => ({ name, attributes, children });

/** The whole document, UTF-8, two spaces for each level; an element that holds text keeps to one line. */
export const writeXml = (root: XmlElement): string =>
  `<?xml version="1.0" encoding="UTF-8"?>\n${elementLines(root, '').join('\n')}\n`;

function elementLines({ name, attributes, children }: XmlElement, indent: string): string[] {
  const written = Object.entries(attributes).flatMap(([key, value]) =>
    value === undefined ? [] : [` ${key}="${escapeAttribute(value)}"`],
  );
  const start = `${indent}<${name}${written.join('')}`;
  if (children.length === 0) return [`${start}/>`];
  if (children.some((child) => typeof child === 'string')) {
    const inner = children.map((child) =>
      typeof child === 'string' ? escapeText(child) : elementLines(child, '').join(''),
    );
    return [`${start}>${inner.join('')}</${name}>`];
  }
  const inner = (children as readonly XmlElement[]).flatMap((child) => elementLines(child, `${indent}  `));
  return [`${start}>`, ...inner, `${indent}</${name}>`];
}

/** Characters that XML 1.0 (2.2) does not allow, halves of surrogate pairs among them. */
// biome-ignore lint/suspicious/noControlCharactersInRegex: they are what this is about
const NOT_ALLOWED = /[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]|\p{Surrogate}/gu;

/** A carriage return as it stands would be read as a line feed (2.11). */
const escapeText = (text: string): string =>
  text
    .replace(NOT_ALLOWED, '\ufffd')
    .replace(/&/g, '&amp;')
    .replace(/</g, '&lt;')
    .replace(/>/g, '&gt;')
    .replace(/\r/g, '&#13;');

/** Tabs and line feeds as they stand would be read as spaces (3.3.3). */
const escapeAttribute = (text: string): string =>
  escapeText(text).replace(/"/g, '&quot;').replace(/\t/g, '&#9;').replace(/\n/g, '&#10;');
