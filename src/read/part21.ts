/** Where each instance of a STEP file stands (ISO 10303-21, clear text encoding): found once, read when asked for. */
import { afterBlank, afterComment, afterKeyword, ascii, type Value, ValueReader } from './part21-values.js';

/** An instance takes at least so many bytes; files that count higher than they can hold are kept in a map. */
const LEAST_BYTES = 8;
const NONE: readonly number[] = [];

export class Part21 {
  /** By id: the byte after the opening bracket, 0 where there is none, and the number of the keyword. */
  private readonly offsets: Uint32Array;
  private readonly kinds: Uint32Array;
  private readonly beyond = new Map<number, { readonly offset: number; readonly kind: number }>();
  private readonly keywords: Keywords;
  /** By keyword, in the order of the file. */
  private readonly ids: number[][] = [];
  private readonly values: ValueReader;

  /**
   * @param decoded of text with `\` directives and doubled quotes
   * @throws Error when a string or a comment has no end, or an id is there twice: what refers to it would mean either
   */
  constructor(
    private readonly bytes: Uint8Array,
    decoded: (written: string) => string,
  ) {
    const most = Math.ceil(bytes.length / LEAST_BYTES) + 1;
    this.offsets = new Uint32Array(most);
    this.kinds = new Uint32Array(most);
    this.keywords = new Keywords(bytes);
    this.values = new ValueReader(bytes, { decoded, keyword: (from, to) => this.keywords.text(from, to) });
    for (let at = afterBlank(bytes, 0); at < bytes.length; at = afterBlank(bytes, at)) {
      if (bytes[at] === 0x23) this.note(at + 1);
      at = afterStatement(bytes, at);
    }
  }

  /** Of an instance; `''` where there is none. */
  keyword(id: number): string {
    if (id < this.offsets.length) return this.offsets[id]! > 0 ? this.keywords.names[this.kinds[id]!]! : '';
    const found = this.beyond.get(id);
    return found ? this.keywords.names[found.kind]! : '';
  }

  instances(keyword: string): readonly number[] {
    const kind = this.keywords.numbers.get(keyword);
    return (kind === undefined ? undefined : this.ids[kind]) ?? NONE;
  }

  /** Undefined where there is no such instance. */
  arguments(id: number): Value[] | undefined {
    const offset = id < this.offsets.length ? this.offsets[id]! : (this.beyond.get(id)?.offset ?? 0);
    return offset > 0 ? this.values.read(offset) : undefined;
  }

  /** What does not read as an instance of one keyword is none. @param from the byte after `#` */
  private note(from: number): void {
    const { bytes } = this;
    let [at, id] = [afterBlank(bytes, from), 0];
    for (; bytes[at]! >= 0x30 && bytes[at]! <= 0x39; at++) id = 10 * id + bytes[at]! - 0x30;
    at = afterBlank(bytes, at);
    if (bytes[at] !== 0x3d || id === 0) return;
    const start = afterBlank(bytes, at + 1);
    const end = afterKeyword(bytes, start);
    at = afterBlank(bytes, end);
    if (bytes[at] !== 0x28 || end === start) return;
    if (this.keyword(id) !== '') throw new Error(`its data has two instances #${id}`);
    const kind = this.keywords.number(start, end);
    if (id < this.offsets.length) {
      this.offsets[id] = at + 1;
      this.kinds[id] = kind;
    } else this.beyond.set(id, { offset: at + 1, kind });
    const same = this.ids[kind];
    if (same) same.push(id);
    else this.ids[kind] = [id];
  }
}

/** The byte after the next `;` that stands in no string and no comment. */
function afterStatement(bytes: Uint8Array, from: number): number {
  for (let at = from; at < bytes.length; at++) {
    const byte = bytes[at];
    if (byte === 0x3b) return at + 1;
    if (byte === 0x27) {
      // A doubled quote ends one string and begins another, which comes to the same here.
      do at++;
      while (at < bytes.length && bytes[at] !== 0x27);
      if (at === bytes.length) throw new Error('a text in its data has no end');
    } else if (byte === 0x2f) at = afterComment(bytes, at) - 1;
  }
  return bytes.length;
}

/** Slots for the keywords that were met last; a power of two. */
const SLOTS = 1024;

/** Keywords of a file, numbered in the order they are met. */
class Keywords {
  readonly names: string[] = [];
  readonly numbers = new Map<string, number>();
  private readonly slots = new Array<number | undefined>(SLOTS);

  constructor(private readonly bytes: Uint8Array) {}

  text(from: number, to: number): string {
    return this.names[this.number(from, to)]!;
  }

  number(from: number, to: number): number {
    let hash = 0;
    for (let i = from; i < to; i++) hash = (31 * hash + this.bytes[i]!) | 0;
    const slot = hash & (SLOTS - 1);
    const last = this.slots[slot];
    if (last !== undefined && this.isHere(this.names[last]!, from, to)) return last;
    const name = ascii(this.bytes, from, to);
    let number = this.numbers.get(name);
    if (number === undefined) {
      number = this.names.push(name) - 1;
      this.numbers.set(name, number);
    }
    this.slots[slot] = number;
    return number;
  }

  private isHere(name: string, from: number, to: number): boolean {
    if (name.length !== to - from) return false;
    for (let i = 0; i < name.length; i++) if (name.charCodeAt(i) !== this.bytes[from + i]) return false;
    return true;
  }
}
