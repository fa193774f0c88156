/** What nothing goes by: limits that no loaded check reads, parts that can never apply, values that nobody cites. */
import { rowsFor, type Words } from '../words/names.js';
import { documentForm, type Form, formOf, propertiesOf } from './document-form.js';
import { type RuleDocumentText, sourceOf } from './load.js';
import type { Noted } from './noted.js';
import { barriersOf, holdsIn } from './notes-holes.js';
import { tellingAs } from './probes.js';
import type { PublishedValuesDocument } from './published-values.js';
import { USED_BY_SUPPORTS } from './support-limits.js';
import type { TestedDamper } from './tested-damper.js';
import type { TestedSystem } from './tested-system.js';
import type { Path } from './yaml-source.js';

/** Details and lengths of pins for what the scope does not have. */
export function unusedParts(system: TestedSystem): Noted[] {
  const barriers = barriersOf(system);
  const rated = system.scope.ratings.map(({ layers }) => layers);
  const details = system.details.flatMap((detail, i): Noted[] =>
    barriers.some((barrier) => holdsIn(detail, barrier))
      ? []
      : [
          {
            kind: 'unused',
            path: ['details', i],
            message: `the detail "${detail.id}" can never apply: the scope has no barrier of its kinds and constructions`,
            remedy: 'Add the barrier that it was tested in to the scope, or take the detail away.',
          },
        ],
  );
  const pins = system.fixings.flatMap(({ id, pattern }, f) =>
    (pattern.pins?.lengths ?? []).flatMap(({ layers }, i): Noted[] =>
      rated.includes(layers)
        ? []
        : [
            {
              kind: 'unused',
              path: ['fixings', f, 'pattern', 'pins', 'lengths', i],
              message: `the fixing "${id}" has pins for ${layers} layers, which the scope does not rate`,
              remedy: 'Add the rating that was tested with as many layers, or take the length away.',
            },
          ],
    ),
  );
  return [...details, ...pins];
}

/** Of two rows that hold for a barrier the one that reaches more counts. */
export const rowsNeverTaken = ({ scope: { barriers } }: TestedDamper): Noted[] =>
  barriers.flatMap((row, i): Noted[] => {
    const better = barriers.findIndex(
      (other, j) =>
        j !== i &&
        other.construction === row.construction &&
        row.kinds.every((kind) => other.kinds.includes(kind)) &&
        other.thicknessAtLeast <= row.thicknessAtLeast &&
        other.integrity >= row.integrity &&
        other.insulation >= row.insulation,
    );
    if (better < 0) return [];
    return [
      {
        kind: 'unused',
        path: ['scope', 'barriers', i],
        message: `row ${i + 1} never counts: row ${better + 1} reaches as much in a barrier that is no thicker`,
        remedy: 'Take it away, or correct its thickness or its minutes.',
      },
    ];
  });

/** Words behind a row that takes all names that have them. */
export const wordsNeverTaken = (rows: readonly Words[]): Noted[] =>
  rows.flatMap((row, i) =>
    (['words', 'wholeWords'] as const).flatMap((key) =>
      (row[key] ?? []).flatMap((word, j): Noted[] => {
        const first = rows.indexOf(rowsFor(word, rows)[0] ?? row);
        if (first >= i) return [];
        return [
          {
            kind: 'unused',
            path: ['rows', i, key, j],
            message: `"${word}" never counts: row ${first + 1} takes every name that has it, and stands first`,
            remedy: 'Put the row of the longer word first, or take the word away.',
          },
        ];
      }),
    ),
  );

/** Values that no document cites. @param all documents that are loaded together */
export function unusedValues(values: PublishedValuesDocument['values'], all: readonly RuleDocumentText[]): Noted[] {
  const cited = new Set([...USED_BY_SUPPORTS, ...all.flatMap((text) => citedIn(sourceOf(text).value))]);
  return values.flatMap(({ id }, i): Noted[] =>
    cited.has(id)
      ? []
      : [
          {
            kind: 'unused',
            path: ['values', i, 'id'],
            message: `nobody cites the published value "${id}"`,
            remedy: 'Cite it in a check or a service, or keep it for people to read.',
          },
        ],
  );
}

function citedIn(node: unknown): string[] {
  if (typeof node !== 'object' || node === null) return [];
  return Object.entries(node).flatMap(([key, value]) =>
    key === 'published' && typeof value === 'string' ? [value] : citedIn(value),
  );
}

/**
 * Limits that can be changed without any fact changing that a check reads. What reads what is found by trying it, so a
 * new field needs no list here.
 *
 * @param read facts that the loaded checks go by
 */
export function unusedLimits(document: TestedSystem | TestedDamper, read: ReadonlySet<string>): Noted[] {
  const tellsTheSame = tellingAs(document, read);
  const leaves = limitsIn(documentForm(document.kind), document, []);
  const unread = leaves.filter(({ path, others }) =>
    others.every((other) => tellsTheSame(changed(document, path, other))),
  );
  return gathered(leaves, unread).map(({ path, names }) => ({
    kind: 'unused',
    path,
    message: `no loaded check goes by "${wordsOf(path, document)}"${names}`,
    remedy: 'Proof-read it for those who build by it: no finding rests on it unless a check is loaded that reads it.',
  }));
}

interface Leaf {
  readonly path: Path;
  /** All other words; numbers far above and far below, since the largest or the least of several may be what counts. */
  readonly others: readonly unknown[];
}

/** What says where things come from, and what says again where a row begins. */
const NO_LIMITS = ['kind', 'status', 'evidence', 'examples', 'file', 'source', 'above'];

/** Numbers, answers and words of a list; free text is for people. */
function limitsIn(any: Form, value: unknown, path: Path): Leaf[] {
  const form = formOf(any, value);
  if (typeof value === 'number') return [{ path, others: [value * 1000 + 1, -1] }];
  if (typeof value === 'boolean') return [{ path, others: [!value] }];
  if (typeof value === 'string') return form.enum ? [{ path, others: form.enum.filter((one) => one !== value) }] : [];
  if (Array.isArray(value)) {
    if (value.length === 0) return [];
    if (value.some((one) => typeof one === 'object'))
      return value.flatMap((one, i) => limitsIn(form.items ?? {}, one, [...path, i]));
    return form.items?.enum || form.items?.type !== 'string' ? [{ path, others: [[]] }] : [];
  }
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, inner]) =>
    NO_LIMITS.includes(key) ? [] : limitsIn(propertiesOf(form)[key] ?? {}, inner, [...path, key]),
  );
}

function changed<T>(node: T, [step, ...rest]: Path, value: unknown): T {
  if (step === undefined) return value as T;
  const inner = changed(Reflect.get(Object(node), step), rest, value);
  if (Array.isArray(node)) return node.map((one, i) => (i === step ? inner : one)) as T;
  return { ...node, [step]: inner };
}

/** Where nothing below a place is read, the place is named once. */
function gathered(leaves: readonly Leaf[], unread: readonly Leaf[]): { path: Path; names: string }[] {
  const below = (all: readonly Leaf[], top: Path) => all.filter(({ path }) => top.every((step, i) => path[i] === step));
  const places = new Map<string, { path: Path; names: string }>();
  for (const { path } of unread) {
    const depth = path.findIndex((_, i) => {
      const top = path.slice(0, i + 1);
      return below(leaves, top).length === below(unread, top).length;
    });
    const top = path.slice(0, depth + 1);
    const inside = below(unread, top).map((leaf) =>
      leaf.path.slice(top.length).filter((step) => typeof step === 'string'),
    );
    const each = [...new Set(inside.map((steps) => steps.join('.')))].filter((words) => words !== '');
    const names = each.length === 0 ? '' : ` (${each.join(', ')})`;
    places.set(top.join('.'), { path: top, names });
  }
  return [...places.values()];
}

/** `details.framed-wall.parts.2`: the parts of lists by their ids, or counted from 1. */
function wordsOf(path: Path, document: object): string {
  let node: unknown = document;
  return path
    .map((step) => {
      node = Reflect.get(Object(node), step);
      const id = typeof step === 'number' ? Reflect.get(Object(node), 'id') : undefined;
      return typeof step === 'number' ? (id ?? step + 1) : String(step);
    })
    .join('.');
}
