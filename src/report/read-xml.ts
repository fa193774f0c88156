/** XML from others as plain elements. Strict: what is not well-formed, and every document type, is refused. */
import { XmlElement as ParsedElement, parseXml, XmlDocumentType, type XmlNode, XmlText } from '@rgrove/parse-xml';
import type { XmlElement } from './xml.js';

/** Raised with words a person can read; the caller names the file. */
export class XmlError extends Error {}

/** UTF-8, or UTF-16 with its mark. Comments and processing instructions are left out. @throws XmlError */
export function readXml(bytes: Uint8Array): XmlElement {
  const root = parsed(decoded(bytes));
  return plain(root, 0);
}

function decoded(bytes: Uint8Array): string {
  const encoding =
    bytes[0] === 0xff && bytes[1] === 0xfe ? 'utf-16le' : bytes[0] === 0xfe && bytes[1] === 0xff ? 'utf-16be' : 'utf-8';
  try {
    return new TextDecoder(encoding, { fatal: true }).decode(bytes);
  } catch {
    throw new XmlError(`is not ${encoding.toUpperCase()} text`);
  }
}

function parsed(text: string): ParsedElement {
  let document: ReturnType<typeof parseXml>;
  try {
    document = parseXml(text, { preserveDocumentType: true });
  } catch (error) {
    // The parser goes down with every level: a document too deep for it ends in a RangeError.
    const why = error instanceof RangeError ? 'it is nested too deeply' : firstLine(error);
    throw new XmlError(`is not well-formed XML (${why})`);
  }
  if (document.children.some((child) => child instanceof XmlDocumentType))
    throw new XmlError('declares a document type, which could hide anything');
  if (!document.root) throw new XmlError('is not well-formed XML (it has no element)');
  return document.root;
}

const firstLine = (error: unknown): string => (error instanceof Error ? error.message : String(error)).split('\n')[0]!;

const DEEPEST = 100;

function plain({ name, attributes, children }: ParsedElement, depth: number): XmlElement {
  if (depth > DEEPEST) throw new XmlError('is not well-formed XML (it is nested too deeply)');
  return { name, attributes, children: children.flatMap((child) => plainChild(child, depth)) };
}

function plainChild(child: XmlNode, depth: number): (XmlElement | string)[] {
  if (child instanceof ParsedElement) return [plain(child, depth + 1)];
  return child instanceof XmlText ? [child.text] : [];
}

/** Name without its prefix. */
export const localName = ({ name }: XmlElement): string => name.slice(name.indexOf(':') + 1);

export const childrenOf = (parent: XmlElement | undefined, name: string): XmlElement[] =>
  (parent?.children ?? []).filter(
    (child): child is XmlElement => typeof child !== 'string' && localName(child) === name,
  );

export const childOf = (parent: XmlElement | undefined, name: string): XmlElement | undefined =>
  childrenOf(parent, name)[0];

/** The text in an element; null where there is no such element, or nothing but blanks in it. */
export function textOf(element: XmlElement | undefined): string | null {
  if (!element) return null;
  const text = element.children.map((child) => (typeof child === 'string' ? child : '')).join('');
  return text.trim() === '' ? null : text;
}
