/**
 * A document as a sheet that a specialist proof-reads line by line. What stands there comes from the schema of the
 * document, so that a field can't be forgotten: what is not given is shown as not stated.
 */
import { compareTexts } from '../collect.js';
import { capital } from '../words/text.js';
import { documentForm, type Form, formOf, isTableOf, labelOf, propertiesOf, titleOf } from './document-form.js';
import { factAt, isGroup } from './fact-schema.js';
import { type RuleDocumentText, sourceOf } from './load.js';
import type { PublishedValue } from './published-values.js';
import { factsReadBy } from './reads.js';
import type { CompiledCheck } from './rule-set.js';
import { citation, flatWords, ownSource } from './sheet-words.js';
import type { Path, YamlSource } from './yaml-source.js';

export interface SheetCell {
  readonly text: string;
  /** What the field means. */
  readonly gloss?: string | undefined;
}

export interface SheetRow {
  /** Of the document's text, from 1; null: it does not stand there. */
  readonly line: number | null;
  readonly cells: readonly SheetCell[];
  readonly isGiven: boolean;
}

export interface SheetTable {
  readonly heads: readonly SheetCell[];
  readonly rows: readonly SheetRow[];
  readonly note?: string | undefined;
}

/** `level` from 2: 1 is the document itself. */
export type SheetBlock = SheetTable | { readonly heading: string; readonly level: number };

export interface Sheet {
  readonly title: string;
  readonly file: string;
  readonly isDemonstration: boolean;
  /** What the document says of itself. */
  readonly head: readonly (readonly [label: string, text: string])[];
  readonly blocks: readonly SheetBlock[];
}

export const NOT_STATED = 'not stated';
/** Of tables with a line for each field. */
export const LINE_HEADS: readonly SheetCell[] = ['What', 'Value', 'Source'].map((text) => ({ text }));
/** Stand at the head of the sheet. */
const HEAD = ['kind', 'id', 'name', 'version', 'status', 'demonstration', 'source'];

/**
 * @param document one that loads
 * @param published what it may cite
 * @param checks those that were loaded from it
 */
export function sheetOf(
  document: RuleDocumentText,
  published: readonly PublishedValue[],
  checks: readonly CompiledCheck[],
): Sheet {
  const source = sourceOf(document);
  const value = source.value as { readonly [key: string]: unknown };
  const kind = String(value.kind);
  const form = documentForm(kind);
  const writer = new SheetWriter(source, published, 'source' in value ? DOCUMENT : '');
  const fields = Object.entries(propertiesOf(form)).filter(([key]) => !HEAD.includes(key));
  writer.object({ fields, value, path: [], label: [], source: null, unit: undefined, level: 2 });
  return {
    title: String(value.name ?? value.id),
    file: document.file,
    isDemonstration: value.status === 'demonstration' || value.demonstration === true,
    head: HEAD.filter((key) => value[key] !== undefined).map((key) => [labelOf(key), flatWords({}, value[key])]),
    blocks: [...writer.blocks, ...factBlocks(checks)],
  };
}

/** What the names in expressions mean. */
function factBlocks(checks: readonly CompiledCheck[]): SheetBlock[] {
  const paths = [...new Set(checks.flatMap(factsReadBy))].sort(compareTexts);
  const rows = paths.map((path): SheetRow => {
    const fact = factAt(path);
    const unit = fact && !isGroup(fact) && fact.unit ? ` (${fact.unit})` : '';
    return { line: null, cells: [{ text: path }, { text: `${fact?.says ?? ''}${unit}` }], isGiven: true };
  });
  if (rows.length === 0) return [];
  return [
    { heading: 'Facts that the expressions go by', level: 2 },
    { heads: [{ text: 'Fact' }, { text: 'Meaning' }], rows },
  ];
}

interface Spot {
  readonly path: Path;
  readonly label: readonly string[];
  /** The nearest that is named; null: the document's own. */
  readonly source: string | null;
  /** Of numbers that have none of their own. */
  readonly unit: string | undefined;
  readonly level: number;
}

type ObjectSpot = Spot & { readonly fields: readonly (readonly [string, Form])[]; readonly value: object };
type Line = SheetRow;

class SheetWriter {
  readonly blocks: SheetBlock[] = [];
  constructor(
    private readonly source: YamlSource,
    private readonly published: readonly PublishedValue[],
    /** Of what names no source; briefs have none. */
    private readonly root: string,
  ) {}

  /** Its lines as one table, then what needs headings or tables of its own. */
  object({ fields, value, ...spot }: ObjectSpot): void {
    const lines: Line[] = [];
    const later: (() => void)[] = [];
    this.gather({ fields, value, ...spot }, lines, later);
    if (lines.length > 0) this.blocks.push({ heads: LINE_HEADS, rows: lines.map(dittoed) });
    for (const write of later) write();
  }

  private gather({ fields, value, ...spot }: ObjectSpot, lines: Line[], later: (() => void)[]): void {
    const source = (spot.path.length > 0 && ownSource(value, this.published)) || spot.source;
    const unit = 'unit' in value && typeof value.unit === 'string' ? value.unit : spot.unit;
    const given = fields.filter(([key]) => Reflect.get(value, key) !== undefined);
    const isBare = given.some(([key]) => BARE.includes(key));
    const spotOf = (key: string): Spot => {
      const label = isBare && BARE.includes(key) ? spot.label : [...spot.label, labelOf(key, spot.label.length > 0)];
      return { ...spot, path: [...spot.path, key], label: label.length > 0 ? label : [labelOf(key)], source, unit };
    };
    const before = lines.length;
    for (const [key, form] of given)
      if (key !== 'source') this.field(key, form, Reflect.get(value, key), spotOf(key), lines, later);
    // It stands beside each line that goes by it; where all name their own, it gets a line.
    const isShown = lines.slice(before).some(({ cells }) => cells.at(-1)?.text === source);
    for (const [key, form] of isShown ? [] : given)
      if (key === 'source') lines.push(this.line(key, form, Reflect.get(value, key), spotOf(key)));
    const absent = fields.filter(([key]) => Reflect.get(value, key) === undefined && key !== 'source');
    if (absent.length > 0 && !isBare) lines.push(this.absent(absent, spot));
  }

  /** One line for all that an object leaves out: the report must not say it either. */
  private absent(fields: ObjectSpot['fields'], { path, label }: Spot): Line {
    const words = fields.map(([key, form]) => {
      const name = labelOf(key).toLowerCase();
      return form.default === undefined ? name : `${name} (so: ${flatWords(form, form.default)})`;
    });
    return {
      line: this.source.placeOf(path).line,
      cells: [
        { text: [...label, label.length > 0 ? NOT_STATED : capital(NOT_STATED)].join(', ') },
        { text: words.join('; ') },
        { text: '' },
      ],
      isGiven: false,
    };
  }

  private field(key: string, any: Form, value: unknown, spot: Spot, lines: Line[], later: (() => void)[]): void {
    const form = formOf(any, value);
    if (typeof value !== 'object' || value === null || isLine(form, value)) {
      lines.push(this.line(key, { ...form, ...(any.description && { description: any.description }) }, value, spot));
      return;
    }
    const heading = (): void => {
      this.blocks.push({ heading: spot.label.join(', '), level: Math.min(spot.level, LOWEST) });
    };
    if (Array.isArray(value)) {
      later.push(() => {
        const isTable = key === 'examples' || isTableOf(form);
        // Deeper down the items have headings enough.
        if (isTable || spot.path.length === 1) heading();
        if (isTable) this.table(key, form, value, spot);
        else this.items(key, form, value, spot);
      });
      return;
    }
    const object = { ...spot, fields: Object.entries(propertiesOf(form)), value };
    if (spot.path.length > 1) {
      this.gather(object, lines, later);
      return;
    }
    later.push(() => {
      heading();
      this.object({ ...object, label: [], level: spot.level + 1 });
    });
  }

  private line(key: string, form: Form, value: unknown, { path, label, source, unit }: Spot): Line {
    const words = value === null ? NOT_STATED : flatWords(form, value, unit);
    const cited = citation(key, value, this.published);
    return {
      line: this.source.placeOf(path).line,
      cells: [
        { text: label.join(', '), gloss: form.description },
        { text: cited === undefined ? words : `${words}: ${cited}` },
        { text: source ?? this.root },
      ],
      isGiven: value !== null,
    };
  }

  private table(key: string, form: Form, rows: readonly unknown[], { path, source, unit, label }: Spot): void {
    const item = formOf(form.items ?? {}, rows[0]);
    const all = Object.entries(propertiesOf(item));
    const columns = all.filter(([name]) => rows.some((row) => Reflect.get(Object(row), name) !== undefined));
    const absent = all.filter((column) => !columns.includes(column)).map(([name]) => labelOf(name).toLowerCase());
    if (columns.length === 0) return;
    const hasSource = columns.some(([name]) => name === 'source') || key === 'examples';
    this.blocks.push({
      note: absent.length > 0 ? `${capital(NOT_STATED)} in any row: ${absent.join(', ')}.` : undefined,
      heads: [
        ...columns.map(([name, column]) => ({
          text: name === 'value' ? (label.at(-1) ?? labelOf(name)) : labelOf(name),
          gloss: column.description,
        })),
        ...(hasSource ? [] : [{ text: 'Source' }]),
      ],
      rows: rows.map((row, i) => ({
        line: this.source.placeOf([...path, i]).line,
        cells: [
          ...columns.map(([name, column]) => ({ text: flatWords(column, Reflect.get(Object(row), name), unit) })),
          ...(hasSource ? [] : [{ text: source ?? this.root }]),
        ],
        isGiven: true,
      })),
    });
  }

  private items(key: string, form: Form, items: readonly unknown[], { path, source, unit, level }: Spot): void {
    for (const [i, item] of items.entries()) {
      if (typeof item !== 'object' || item === null) continue;
      this.blocks.push({ heading: titleOf(key, i, item), level: Math.min(level + 1, LOWEST) });
      const fields = Object.entries(propertiesOf(formOf(form.items ?? {}, item)));
      this.object({ fields, value: item, path: [...path, i], label: [], source, unit, level: level + 2 });
    }
  }
}

/** A source is written out where it begins: lines that all repeat it are read by nobody. */
function dittoed(line: Line, i: number, lines: readonly Line[]): Line {
  const [source, before] = [line, lines[i - 1]].map((one) => one?.cells.at(-1)?.text);
  if (source !== before || !source || source === DOCUMENT) return line;
  return { ...line, cells: [...line.cells.slice(0, -1), { text: DITTO }] };
}

const DITTO = 'as above';
/** Headings of more levels help nobody. */
const LOWEST = 4;
const BARE = ['value', 'bySize'];
const DOCUMENT = "the document's";

/** Lists of plain values, and objects that hold no more than one thing. */
const isLine = (form: Form, value: object): boolean =>
  Array.isArray(value)
    ? value.every((one) => typeof one !== 'object')
    : Object.keys(propertiesOf(form)).length === 1 && Object.values(value).every((one) => typeof one !== 'object');
