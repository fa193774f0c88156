/** What stands between the brackets of an instance in a STEP file (ISO 10303-21, clear text encoding), as plain values. */

/** Reference to another instance, `#12`. */
export class Reference {
  constructor(readonly id: number) {}
}

/** A value that is written with its type, e.g. `IFCLABEL('x')`. */
export class Typed {
  constructor(
    readonly name: string,
    readonly value: Value,
  ) {}
}

/**
 * Enumerations are their names; of logicals `.U.` is undefined, the others are booleans. Null is what is omitted (`$`) or
 * derived (`*`).
 */
export type Value = string | number | boolean | null | undefined | Reference | Typed | readonly Value[];

/** What stands where a value should and is none: nothing, two in a row, a character without a meaning. */
const DAMAGED = new Typed('', null);

export interface TextReading {
  /** Text with `\` directives and doubled quotes as people read it. */
  readonly decoded: (written: string) => string;
  /** Keywords are few, and each is made to text once. */
  readonly keyword: (from: number, to: number) => string;
}

/** Lists within lists deeper than this are none of a building's. */
const DEEPEST = 32;
/** Whole numbers up to 10^15 and powers of ten up to 10^22 are exact in a double, and so is rounding after one operation. */
const EXACT_DIGITS = 15;
const POWERS = Array.from({ length: 23 }, (_, i) => Number(`1e${i}`));

export class ValueReader {
  private at = 0;
  private readonly utf8 = new TextDecoder();

  constructor(
    private readonly bytes: Uint8Array,
    private readonly text: TextReading,
  ) {}

  /** @param offset of the first byte after the opening bracket; a list without its end stops with its statement */
  read(offset: number): Value[] {
    this.at = offset;
    return this.list(0);
  }

  private list(depth: number): Value[] {
    const { bytes } = this;
    const values: Value[] = [];
    let isExpected = true;
    for (;;) {
      const byte = bytes[this.at];
      switch (byte) {
        case undefined:
        case 0x3b: // ;
          return values;
        case 0x29: // )
          this.at++;
          return values;
        case 0x2c: // ,
          this.at++;
          if (isExpected) values.push(DAMAGED);
          isExpected = true;
          break;
        case 0x2f: // /
          this.at = afterComment(bytes, this.at);
          break;
        default: {
          if (isBlank(byte)) {
            this.at++;
            break;
          }
          const value = this.value(byte, depth);
          if (isExpected) values.push(value);
          else values[values.length - 1] = DAMAGED;
          isExpected = false;
        }
      }
    }
  }

  private value(byte: number, depth: number): Value {
    switch (byte) {
      case 0x28: // (
        this.at++;
        return depth < DEEPEST ? this.list(depth + 1) : DAMAGED;
      case 0x27: // '
        return this.string();
      case 0x23: // #
        this.at++;
        return new Reference(this.digits());
      case 0x24: // $
      case 0x2a: // *
        this.at++;
        return null;
      case 0x2e: // .
        return this.enumeration();
      case 0x22: // "
        return this.binary();
    }
    if (isDigit(byte) || byte === 0x2d || byte === 0x2b) return this.number();
    if (isLetter(byte)) return this.typed(depth);
    this.at++;
    return DAMAGED;
  }

  private typed(depth: number): Typed {
    const from = this.at;
    this.at = afterKeyword(this.bytes, from);
    const name = this.text.keyword(from, this.at);
    this.at = afterBlank(this.bytes, this.at);
    if (this.bytes[this.at] !== 0x28 || depth >= DEEPEST) return new Typed(name, null);
    this.at++;
    const [value = null] = this.list(depth + 1);
    return new Typed(name, value);
  }

  private string(): string {
    const { bytes } = this;
    const from = this.at + 1;
    let at = from;
    let [isPlain, isCoded] = [true, false];
    for (; at < bytes.length; at++) {
      const byte = bytes[at]!;
      if (byte === 0x27) {
        if (bytes[at + 1] !== 0x27) break;
        isCoded = true;
        at++;
      } else if (byte === 0x5c) isCoded = true;
      else if (byte > 0x7e) isPlain = false;
    }
    this.at = at + 1;
    const written = isPlain ? ascii(bytes, from, at) : this.utf8.decode(bytes.subarray(from, at));
    return isCoded ? this.text.decoded(written) : written;
  }

  private enumeration(): Value {
    const from = ++this.at;
    while (this.at < this.bytes.length && this.bytes[this.at] !== 0x2e && this.bytes[this.at] !== 0x3b) this.at++;
    const name = this.text.keyword(from, this.at);
    if (this.bytes[this.at] === 0x2e) this.at++;
    return name === 'T' ? true : name === 'F' ? false : name === 'U' ? undefined : name;
  }

  /** The digits as they are written. */
  private binary(): string {
    const from = ++this.at;
    while (this.at < this.bytes.length && this.bytes[this.at] !== 0x22) this.at++;
    return ascii(this.bytes, from, this.at++);
  }

  private digits(): number {
    const { bytes } = this;
    let value = 0;
    for (; isDigit(bytes[this.at]); this.at++) value = 10 * value + bytes[this.at]! - 0x30;
    return value;
  }

  private number(): number {
    const { bytes } = this;
    const from = this.at;
    const isNegative = bytes[from] === 0x2d;
    if (isNegative || bytes[from] === 0x2b) this.at++;
    const first = this.at;
    let value = this.digits();
    let digits = this.at - first;
    let power = 0;
    if (bytes[this.at] === 0x2e) {
      const point = ++this.at;
      for (; isDigit(bytes[this.at]); this.at++) value = 10 * value + bytes[this.at]! - 0x30;
      power = point - this.at;
      digits -= power;
    }
    if (bytes[this.at] === 0x45 || bytes[this.at] === 0x65) {
      const sign = bytes[++this.at];
      if (sign === 0x2d || sign === 0x2b) this.at++;
      const exponent = this.digits();
      power += sign === 0x2d ? -exponent : exponent;
    }
    if (digits > EXACT_DIGITS || power > 22 || power < -22) return Number(ascii(bytes, from, this.at));
    const exact = power < 0 ? value / POWERS[-power]! : value * POWERS[power]!;
    return isNegative ? -exact : exact;
  }
}

const isDigit = (byte: number | undefined): boolean => byte !== undefined && byte >= 0x30 && byte <= 0x39;
const isLetter = (byte: number): boolean => (byte >= 0x41 && byte <= 0x5a) || (byte >= 0x61 && byte <= 0x7a);
const isBlank = (byte: number | undefined): boolean => byte !== undefined && byte <= 0x20;

export function afterKeyword(bytes: Uint8Array, from: number): number {
  let at = from;
  while (at < bytes.length && (isLetter(bytes[at]!) || isDigit(bytes[at]) || bytes[at] === 0x5f)) at++;
  return at;
}

/** Blanks and comments may stand between any two tokens. */
export function afterBlank(bytes: Uint8Array, from: number): number {
  let at = from;
  for (;;) {
    while (isBlank(bytes[at])) at++;
    if (bytes[at] !== 0x2f || bytes[at + 1] !== 0x2a) return at;
    at = afterComment(bytes, at);
  }
}

/** Where there is none, the next byte. @throws Error when it has no end */
export function afterComment(bytes: Uint8Array, from: number): number {
  if (bytes[from + 1] !== 0x2a) return from + 1;
  for (let at = from + 2; at < bytes.length; at++) if (bytes[at] === 0x2a && bytes[at + 1] === 0x2f) return at + 2;
  throw new Error('a comment in its data has no end');
}

/** More bytes than this at a time are more arguments than a call may have. */
const MOST_AT_ONCE = 4096;

export function ascii(bytes: Uint8Array, from: number, to: number): string {
  if (to - from > MOST_AT_ONCE) return new TextDecoder().decode(bytes.subarray(from, to));
  return String.fromCharCode.apply(null, bytes.subarray(from, to) as unknown as number[]);
}
