/**
 * A STEP file as text, read by nothing of the program: instances and their attributes, for making mutants and for reading
 * again what a mutant says.
 */

import { fileUnder } from '../../src/collect.js';

export interface Instance {
  readonly id: number;
  readonly entity: string;
  readonly attributes: readonly Attribute[];
  /** Number of its line. */
  readonly line: number;
}

export type Attribute = string | number | null | Ref | Enumeration | readonly Attribute[] | Typed;
export interface Ref {
  readonly ref: number;
}
export interface Enumeration {
  readonly name: string;
}
export interface Typed {
  readonly type: string;
  readonly value: Attribute;
}

const LINE = /^#(\d+)=\s*([A-Z0-9]+)\((.*)\);\s*$/;
const TOKEN = /'(?:[^']|'')*'|#\d+|[-+]?\d+\.?\d*(?:E[-+]?\d+)?|\.[A-Z_0-9]+\.|[A-Z][A-Z0-9]*|[$*(),]/gy;

/** Undefined where the line is no instance, or not one that is written as ours are. */
export function instanceIn(text: string, line: number): Instance | undefined {
  const found = LINE.exec(text);
  const tokens = found && tokensOf(`(${found[3]})`);
  if (!tokens) return undefined;
  const rest = tokens[Symbol.iterator]();
  if (rest.next().value !== '(') return undefined;
  const attributes = listFrom(rest);
  return attributes && { id: Number(found[1]), entity: found[2]!, attributes, line };
}

function tokensOf(text: string): string[] | undefined {
  const tokens: string[] = [];
  TOKEN.lastIndex = 0;
  for (let at = 0; at < text.length; at = TOKEN.lastIndex) {
    const token = TOKEN.exec(text);
    if (!token) return undefined;
    tokens.push(token[0]);
  }
  return tokens;
}

/** The line of an instance with one attribute changed, as text; the same line where it is none, or has none there. */
export function withAttribute(line: string, attribute: number, change: (before: string) => string): string {
  const found = LINE.exec(line);
  const tokens = found && tokensOf(found[3]!);
  if (!tokens) return line;
  const attributes = [''];
  let depth = 0;
  for (const token of tokens) {
    depth += token === '(' ? 1 : token === ')' ? -1 : 0;
    if (token === ',' && depth === 0) attributes.push('');
    else attributes[attributes.length - 1] += token;
  }
  const before = attributes[attribute];
  if (before === undefined) return line;
  attributes[attribute] = change(before);
  return `#${found[1]}=${found[2]}(${attributes.join(',')});`;
}

/** A real number as STEP files write it. */
export function written(value: number): string {
  const text = String(Math.round(value * 1e6) / 1e6);
  return text.includes('e') ? text.toUpperCase() : text.includes('.') ? text : `${text}.`;
}

function listFrom(tokens: Iterator<string>): Attribute[] | undefined {
  const list: Attribute[] = [];
  for (;;) {
    const { value: token, done } = tokens.next();
    if (done) return undefined;
    if (token === ')') return list;
    if (token === ',') continue;
    if (/^[A-Z]/.test(token)) {
      if (tokens.next().value !== '(') return undefined;
      const inner = listFrom(tokens);
      if (inner?.length !== 1) return undefined;
      list.push({ type: token, value: inner[0]! });
    } else if (token === '(') {
      const inner = listFrom(tokens);
      if (!inner) return undefined;
      list.push(inner);
    } else list.push(single(token));
  }
}

function single(token: string): Attribute {
  if (token === '$' || token === '*') return null;
  if (token.startsWith("'")) return token.slice(1, -1).replaceAll("''", "'");
  if (token.startsWith('#')) return { ref: Number(token.slice(1)) };
  if (token.startsWith('.')) return { name: token.slice(1, -1) };
  return Number(token);
}

const isSame = (a: Instance, b: Instance): boolean =>
  a.entity === b.entity && JSON.stringify(a.attributes) === JSON.stringify(b.attributes);

export class StepText {
  readonly instances: readonly Instance[];
  private readonly byId = new Map<number, Instance>();
  private readonly byEntity = new Map<string, Instance[]>();
  private readonly byGlobalId = new Map<Attribute | undefined, Instance[]>();
  /** Lines that are no instance as ours are written; a reader that is milder may make one of them. */
  private readonly unread: readonly string[];
  /** Ids of which can't be told what they are: of lines that are not read, and of two instances that differ. */
  private readonly untold = new Set<number>();

  constructor(text: string) {
    const lines = text.split('\n');
    const read = lines.map(instanceIn);
    this.instances = read.filter((one) => one !== undefined);
    this.unread = lines.filter((_, i) => !read[i]);
    for (const line of this.unread) for (const [, id] of line.matchAll(/#(\d+)\s*=/g)) this.untold.add(Number(id));
    for (const instance of this.instances) {
      const { id, entity, attributes } = instance;
      const before = this.byId.get(id);
      // Which of both counts, the standard does not say.
      if (before && !isSame(before, instance)) this.untold.add(id);
      this.byId.set(id, instance);
      fileUnder(this.byEntity, entity, instance);
      if (!entity.startsWith('IFCREL')) fileUnder(this.byGlobalId, attributes[0], instance);
    }
  }

  at(x: Attribute | undefined): Instance | undefined {
    return isRef(x) && !this.untold.has(x.ref) ? this.byId.get(x.ref) : undefined;
  }

  all(entity: string): readonly Instance[] {
    return this.byEntity.get(entity) ?? [];
  }

  /** The only product with a GlobalId. */
  product(globalId: string): Instance | undefined {
    const found = this.byGlobalId.get(globalId) ?? [];
    return found.length === 1 && !this.untold.has(found[0]!.id) ? found[0] : undefined;
  }

  /** Whether some relation of a product can't be read here to its end, so that who reads more mildly may know more. */
  mayRelate(relation: string, { id }: Instance): boolean {
    const names = new RegExp(`#${id}(?!\\d)`);
    const isUntold = (to: number) => this.untold.has(to);
    return (
      this.unread.some((line) => line.includes(`${relation}(`) && names.test(line)) ||
      this.all(relation).some((one) => {
        const refs = refsIn(one.attributes);
        return refs.includes(id) && refs.some((ref) => ref !== id && [...this.reach(ref)].some(isUntold));
      })
    );
  }

  /** An id and those of all that its instance refers to, directly or through others. */
  reach(id: number, reached = new Set<number>()): ReadonlySet<number> {
    if (reached.has(id)) return reached;
    reached.add(id);
    for (const ref of refsIn(this.byId.get(id)?.attributes ?? [])) this.reach(ref, reached);
    return reached;
  }
}

export const isRef = (x: Attribute | undefined): x is Ref => typeof x === 'object' && x !== null && 'ref' in x;

export const refsIn = (list: readonly Attribute[]): number[] =>
  list.flatMap((x): number[] => (isRef(x) ? [x.ref] : Array.isArray(x) ? refsIn(x as readonly Attribute[]) : []));
