import {
  Composer,
  type CST,
  type Document,
  isAlias,
  isMap,
  isPair,
  isScalar,
  isSeq,
  Lexer,
  LineCounter,
  type Node,
  Parser,
} from 'yaml';
import { RuleDocumentError } from './rule-document-error.js';
import { refuseCharacters } from './yaml-characters.js';
import { refusingDepth } from './yaml-depth.js';
import { type At, refuseUnplain, startOf } from './yaml-plain.js';

export type Path = readonly PropertyKey[];

/** A YAML text with its values and the places they stand at. */
export interface YamlSource {
  readonly file: string;
  readonly value: unknown;
  /** An error at the value `path` leads to, or as near to it as the document goes. */
  errorAt(path: Path, message: string): RuleDocumentError;
  /** An error at the key itself. */
  errorAtKey(path: Path, message: string): RuleDocumentError;
  /** An error `offset` characters into the text at `path`; at its start where the text is written with escapes. */
  errorInText(path: Path, offset: number, message: string): RuleDocumentError;
  lineOf(path: Path): number;
  placeOf(path: Path): Place;
}

export interface Place {
  /** From 1. */
  readonly line: number;
  /** From 1. */
  readonly column: number;
}

/** Far above any rule document; keeps a wrong file from being taken for one. */
const MAX_CHARACTERS = 300_000;
/**
 * @param most characters
 * @throws RuleDocumentError for what is no plain YAML document
 */
export function readYaml(file: string, text: string, most: number = MAX_CHARACTERS): YamlSource {
  if (text.length > most)
    throw new RuleDocumentError(
      file,
      1,
      1,
      `the file has ${text.length} characters, and ${most} are allowed at most; split it, or name another file`,
    );
  refuseCharacters(file, text);
  const lines = new LineCounter();
  // Yaml compares every key of a map with all others, which takes minutes where there are thousands; we look them up.
  const composer = new Composer({ lineCounter: lines, prettyErrors: false, uniqueKeys: false, version: '1.2' });
  const [document, second] = composer.compose(parsed(file, text, lines), true, text.length);
  if (!document) throw new Error('The composer was told to give a document, whatever the text.');
  const at = (offset: number, message: string): RuleDocumentError => {
    const { line, col } = lines.linePos(offset);
    return new RuleDocumentError(file, Math.max(line, 1), Math.max(col, 1), message);
  };
  const [problem] = [...document.errors, ...document.warnings];
  if (problem) throw at(problem.pos[0], `this is not valid YAML: ${lowerFirst(problem.message)}`);
  if (second) throw at(second.range[0], 'a second document begins here; a file holds one, give it a file of its own');
  refuseUnplain(document, at);
  const find = (path: Path): number => startOf(nodeAt(document, path).node);
  return {
    file,
    value: plainValue(document, at),
    errorAt: (path, message) => at(find(path), message),
    errorAtKey: (path, message) => at(keyOffset(document, path) ?? find(path), message),
    errorInText: (path, offset, message) => {
      const { node } = nodeAt(document, path);
      const shift = isScalar(node) && typeof node.value === 'string' ? textShift(text, node, node.value) : undefined;
      return at(startOf(node) + (shift === undefined ? 0 : shift + offset), message);
    },
    lineOf: (path) => lines.linePos(find(path)).line,
    placeOf: (path) => {
      const { line, col } = lines.linePos(find(path));
      return { line, column: col };
    },
  };
}

/** The text goes through the lexer once, for its depth and for its structure. */
function* parsed(file: string, text: string, lines: LineCounter): Generator<CST.Token> {
  const parser = new Parser(lines.addNewLine);
  lines.addNewLine(0);
  for (const token of refusingDepth(file, new Lexer().lex(text))) yield* parser.next(token);
  yield* parser.end();
}

/** An anchor's own aliases count as often as it is used, which nothing that was written by hand comes near. */
const MAX_REPEATED = 100;

function plainValue(document: Document, at: At): unknown {
  try {
    return document.toJS({ maxAliasCount: MAX_REPEATED });
  } catch (cause) {
    if (!(cause instanceof ReferenceError)) throw cause;
    throw at(startOf(document.contents), 'aliases repeat each other more often than is allowed; write the values out');
  }
}

/** Follows the path as far as the document goes; `rest` is what was left of it. */
function nodeAt(document: Document, path: Path): { node: unknown; rest: number } {
  let node: unknown = document.contents;
  for (const [i, step] of path.entries()) {
    const inner = resolve(document, node);
    const next = isMap(inner) || isSeq(inner) ? inner.get(step, true) : undefined;
    if (next === undefined || next === null) return { node, rest: path.length - i };
    node = next;
  }
  return { node, rest: 0 };
}

function keyOffset(document: Document, path: Path): number | undefined {
  const { node, rest } = nodeAt(document, path.slice(0, -1));
  const map = resolve(document, node);
  if (rest > 0 || !isMap(map)) return undefined;
  const pair = map.items.find((item) => isPair(item) && isScalar(item.key) && item.key.value === path.at(-1));
  return pair ? startOf(pair.key) : undefined;
}

const resolve = (document: Document, node: unknown): unknown => (isAlias(node) ? node.resolve(document) : node);

/** How far the text starts behind its node: 0 as it stands, 1 in quotes, undefined where it is folded or escaped. */
function textShift(source: string, node: Node, value: string): number | undefined {
  const start = startOf(node);
  return [0, 1].find((shift) => source.startsWith(value, start + shift));
}

const lowerFirst = (text: string): string => text.charAt(0).toLowerCase() + text.slice(1);
