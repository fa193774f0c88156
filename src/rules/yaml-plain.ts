/** Plain YAML 1.2 alone: what reads the same to everybody, and means no more than it says. */
import {
  type Alias,
  type Document,
  isAlias,
  isCollection,
  isMap,
  isNode,
  isScalar,
  type Node,
  type Pair,
  type Scalar,
  visit,
  type YAMLMap,
} from 'yaml';
import type { RuleDocumentError } from './rule-document-error.js';
import { strangeCharacter } from './yaml-characters.js';

export type At = (offset: number, message: string) => RuleDocumentError;

/** Where a node begins, in characters from the start of the text. */
export const startOf = (node: unknown): number =>
  typeof node === 'object' && node !== null && 'range' in node && Array.isArray(node.range) ? Number(node.range[0]) : 0;

const MAX_ALIASES = 20;
const FORBIDDEN_KEYS = ['__proto__', 'prototype', 'constructor'];

/** @throws RuleDocumentError for the first thing that is not plain */
export function refuseUnplain(document: Document, at: At): void {
  const { explicit, version } = document.directives?.yaml ?? {};
  if (explicit && version !== '1.2')
    throw at(0, `documents are YAML 1.2, and this one says ${version}; take the line %YAML out`);
  const anchors = new Set<string>();
  let aliases = 0;
  visit(document, (_, node, path) => {
    if (!isNode(node)) return;
    if (node.tag !== undefined) throw at(startOf(node), `tags (${node.tag}) are not read; write the plain value alone`);
    if (isAlias(node)) refuseAlias(node, path, { anchors, aliases: ++aliases }, at);
    else if (node.anchor !== undefined) anchors.add(node.anchor);
    if (isMap(node)) refuseKeys(node, at);
    if (isScalar(node)) refuseScalar(node, at);
  });
}

function refuseKeys(map: YAMLMap, at: At): void {
  const seen = new Set<string>();
  for (const { key } of map.items) {
    if (!isScalar(key) || typeof key.value !== 'string') throw at(startOf(key), 'every key must be a plain text');
    const name = key.value;
    if (FORBIDDEN_KEYS.includes(name)) throw at(startOf(key), `"${name}" may not be a key`);
    if (name === '<<') throw at(startOf(key), 'keys are not merged (<<); write them out');
    if (seen.has(name)) throw at(startOf(key), `the key "${name}" stands twice here; keep one`);
    seen.add(name);
  }
}

const DECIMAL = /^[-+]?(?:(?:0|[1-9]\d*)(?:\.\d*)?|\.\d+)(?:[eE][-+]?\d+)?$/;

function refuseScalar(scalar: Scalar, at: At): void {
  const { value, source = '' } = scalar;
  const strange = typeof value === 'string' ? strangeCharacter(value) : undefined;
  if (strange) throw at(startOf(scalar), strange.message);
  // Not finite is no number to any form, which says so.
  if (typeof value !== 'number' || !Number.isFinite(value) || DECIMAL.test(source)) return;
  throw at(startOf(scalar), `"${source}" is one number to some readers and another to others; write ${value}`);
}

interface Seen {
  readonly anchors: ReadonlySet<string>;
  readonly aliases: number;
}

function refuseAlias(
  alias: Alias,
  within: readonly (Document | Node | Pair)[],
  { anchors, aliases }: Seen,
  at: At,
): void {
  const { source } = alias;
  if (!anchors.has(source))
    throw at(startOf(alias), `there is no anchor &${source} before the alias *${source}; write the value out`);
  if (within.some((node) => isCollection(node) && node.anchor === source))
    throw at(startOf(alias), `the alias *${source} stands inside what it repeats; write the value out`);
  if (aliases > MAX_ALIASES)
    throw at(startOf(alias), `more than ${MAX_ALIASES} aliases are too many; write the values out`);
}
