/** report.html as parse5 reads it: an HTML parser after the WHATWG standard, by others. */
import { parse, type DefaultTreeAdapterTypes as Tree } from 'parse5';
import { expect } from 'vitest';

type Element = Tree.Element;
const isElement = (node: Tree.Node): node is Element => 'tagName' in node;
const childrenOf = (node: Tree.Node): readonly Tree.Node[] => ('childNodes' in node ? node.childNodes : []);
export const all = (node: Tree.Node): Element[] =>
  childrenOf(node).flatMap((child) => [...(isElement(child) ? [child] : []), ...all(child)]);
export const textOf = (node: Tree.Node): string =>
  'value' in node ? node.value : childrenOf(node).map(textOf).join('');
export const attribute = (element: Element, name: string) => element.attrs.find((a) => a.name === name)?.value;
export const named = (node: Tree.Node, name: string): Element[] => all(node).filter((e) => e.tagName === name);
export const sections = (node: Tree.Node, className: string): Element[] =>
  named(node, 'section').filter((s) => attribute(s, 'class')?.split(' ').includes(className));

/** Parses, and fails where the parser had to mend anything. */
export function read(text: string): Tree.Document {
  const errors: string[] = [];
  const document = parse(text, { onParseError: ({ code, startLine }) => errors.push(`${code} in line ${startLine}`) });
  expect(errors).toEqual([]);
  return document;
}
