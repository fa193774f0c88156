/**
 * A brief's text with what was decided since written into it: its order and its comments stay, and every entry that is new
 * says when it was tried or made. Its version stays too: whoever keeps the file decides what counts as another one.
 */
import {
  type Document,
  isAlias,
  isMap,
  isScalar,
  isSeq,
  type Node,
  type Pair,
  parseDocument,
  Scalar,
  visit,
  type YAMLMap,
  type YAMLSeq,
} from 'yaml';
import type { Limit } from '../model.js';
import {
  type Assumption,
  assumeChoices,
  type BriefComment,
  type BriefConcession,
  type ChangedChoice,
  changedChoices,
  loadBrief,
  type ProjectBrief,
  type RuleSet,
} from '../rules/index.js';
import { oneLine } from '../words/text.js';

export interface BriefEntries {
  readonly assumptions: readonly Assumption[];
  readonly concessions: readonly (Omit<BriefConcession, 'note' | 'limit'> & { readonly limit: Limit | null })[];
  readonly comments: readonly Omit<BriefComment, 'note'>[];
}

export interface BriefTextInput {
  /** Null: there is none, so one is begun. */
  readonly brief: { readonly file: string; readonly text: string } | null;
  /** Name of a brief that there is, but not here. */
  readonly missing?: string | null;
  readonly entries: BriefEntries;
  /** Of today, `2026-03-02`; the caller has the clock. */
  readonly day: string;
  /** Left out: what the brief chooses is not looked for. */
  readonly rules?: Pick<RuleSet, 'systems' | 'dampers'> | undefined;
}

const NEW = `# Project brief for Ratedrun, begun in the viewer.
kind: project-brief
id: my-project
version: "1"
`;

/** @throws RuleDocumentError, AssumptionError: also where the new text would be refused as a brief */
export function writeBriefText({ brief, missing = null, entries, day, rules }: BriefTextInput): string {
  const { file, text } = brief ?? { file: 'project-brief.yaml', text: begun(missing) };
  const before = loadBrief({ file, text }, rules);
  // What can't be assumed is refused before anything is written.
  const after = assumeChoices(before, entries.assumptions, rules);
  const document = parseDocument(text, { version: '1.2' });
  const said = JSON.stringify(document.toJS());
  const tried = `tried in the viewer, ${day}`;
  for (const change of changedChoices(before, entries.assumptions)) writeChange(document, change, tried);
  for (const concession of entries.concessions)
    putEntry(document, 'concessions', concession, `granted in the viewer, ${day}`, isOfKey(concession.key));
  for (const comment of entries.comments)
    putEntry(document, 'comments', comment, `said in the viewer, ${day}`, isComment(comment));
  if (JSON.stringify(document.toJS()) === said) return text;
  keepPadding(document, text);
  const written = document.toString({ lineWidth: LINE_WIDTH });
  requireSame(loadBrief({ file, text: written }, rules), after);
  return written;
}

/** Of flow collections; longer ones are broken. */
const LINE_WIDTH = 120;

const begun = (missing: string | null): string =>
  missing === null ? NEW : `# ${oneLine(missing)} was not at hand: take these entries over into it.\n${NEW}`;

/** yaml pads all flow collections alike; each stays as it was: `{ words: [QX] }`. */
function keepPadding(document: Document, text: string): void {
  const keep = (_: unknown, node: YAMLMap | YAMLSeq): void => {
    if (!node.flow || !node.range) return;
    const flowCollectionPadding = text[node.range[0] + 1] === ' ' ? ' ' : '';
    const print = node.toString.bind(node);
    node.toString = (context, ...rest) => print(context && { ...context, flowCollectionPadding }, ...rest);
  };
  visit(document, { Map: keep, Seq: keep });
}

/** What is written must say what was tried; all else would be a fault of this file. */
function requireSame(written: ProjectBrief, tried: ProjectBrief): void {
  const compared = ({ facts, choices: { concessions: _, comments: __, ...choices }, ...head }: ProjectBrief): string =>
    JSON.stringify({ head, facts, choices });
  if (compared(written) !== compared(tried)) throw new Error('the brief as it was written says something else');
}

// ----------------------------------------------------------------------------------------------------------- choices

function writeChange(document: Document, { name, path, value }: ChangedChoice, tried: string): void {
  const parents = ['choices', ...path.slice(0, -1)];
  const last = path.at(-1)!;
  const parent = collectionAt(document, parents, typeof last === 'number');
  if (value === null) {
    if (!parent.has(last)) return;
    parent.delete(last);
    mark(document, parents, `${oneLine(name)} left out, ${tried}`);
    return;
  }
  const old = parent.get(last, true);
  if (isNode(old) && same(old.toJS(document), value)) return;
  if (isScalar(old) && !isObject(value)) old.value = value;
  else put(document, parent, last, document.createNode(value));
  mark(document, [...parents, last], tried);
}

/** The collection that the path leads to, made where the text has none: an empty value, or an alias that others share. */
function collectionAt(document: Document, path: readonly (string | number)[], holdsList: boolean): YAMLMap | YAMLSeq {
  let parent = document.contents as YAMLMap | YAMLSeq;
  for (const [i, step] of path.entries()) {
    const next: unknown = parent.get(step, true);
    if (isMap(next) || isSeq(next)) {
      parent = next;
      continue;
    }
    const isList = i + 1 < path.length ? typeof path[i + 1] === 'number' : holdsList;
    const shared = isAlias(next) ? next.toJS(document) : isList ? [] : {};
    const made = document.createNode(shared) as YAMLMap | YAMLSeq;
    const empty = isScalar(next) ? next : undefined;
    if (empty) Object.assign(made, { comment: empty.comment, commentBefore: empty.commentBefore });
    put(document, parent, step, made);
    parent = made;
  }
  return parent;
}

/** With a key that a comment can stand at. */
function put(document: Document, parent: YAMLMap | YAMLSeq, step: string | number, node: unknown): void {
  if (isMap(parent) && !parent.has(step)) parent.add(document.createPair(step, node));
  else parent.set(step, node);
}

/** Over the entry, or over what it stands in where that is written on one line. One mark for each; a later one replaces it. */
function mark(document: Document, path: readonly (string | number)[], words: string): void {
  let parent = document.contents as YAMLMap | YAMLSeq;
  let marked: Node | undefined;
  for (const step of path) {
    if (parent.flow) break;
    const item = isMap(parent) ? pairOf(parent, step)?.key : parent.get(step, true);
    if (!isNode(item)) break;
    marked = item;
    const next: unknown = parent.get(step, true);
    if (!isMap(next) && !isSeq(next)) break;
    parent = next;
  }
  if (!marked) return;
  const kept = (marked.commentBefore ?? '').split('\n').filter((line) => line !== '' && !MARK.test(line));
  marked.commentBefore = [...kept, ` ${words}`].join('\n');
}

const MARK = /(?:tried|granted|said) in the viewer, \d{4}-\d\d-\d\d$/;

const pairOf = (map: YAMLMap, key: string | number): Pair | undefined =>
  map.items.find((pair) => isScalar(pair.key) && pair.key.value === key);

// ----------------------------------------------------------------------------------------------------------- entries

type Entry = BriefEntries['concessions'][number] | BriefEntries['comments'][number];

/** An entry takes the place of the one that it is another state of. */
function putEntry(
  document: Document,
  list: 'concessions' | 'comments',
  entry: Entry,
  words: string,
  isThis: (old: unknown) => boolean,
): void {
  const parent = collectionAt(document, ['choices', list], true) as YAMLSeq;
  const place = parent.items.findIndex((item) => isNode(item) && isThis(item.toJS(document)));
  const old: unknown = place < 0 ? undefined : parent.get(place, true);
  if (isNode(old) && same(old.toJS(document), entry)) return;
  const node = document.createNode(entry) as YAMLMap;
  const key = node.get('key', true);
  if (isScalar(key)) key.type = Scalar.QUOTE_DOUBLE;
  // In flow there is no place for a line of its own.
  parent.flow = false;
  if (place < 0) parent.items.push(node);
  else parent.set(place, node);
  mark(document, ['choices', list, place < 0 ? parent.items.length - 1 : place], words);
}

const isOfKey =
  (key: string) =>
  (old: unknown): boolean =>
    isObject(old) && old.key === key;

const isComment =
  ({ key, text, author, date }: BriefEntries['comments'][number]) =>
  (old: unknown): boolean =>
    isObject(old) && same([old.key, old.text, old.author, old.date], [key, text, author, date]);

type PlainObject = Readonly<Record<string, unknown>>;
const isObject = (value: unknown): value is PlainObject => typeof value === 'object' && value !== null;
const isNode = (value: unknown): value is Node => isObject(value) && 'toJS' in value;
const same = (a: unknown, b: unknown): boolean => JSON.stringify(a) === JSON.stringify(b);
