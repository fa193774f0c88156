/**
 * A STEP file as text, read by nothing of the program: instances and their attributes, for making mutants and for reading
 * again what a mutant says.
 */

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
  if (!found) return undefined;
  const tokens: string[] = [];
  TOKEN.lastIndex = 0;
  const inside = `(${found[3]})`;
  for (let at = 0; at < inside.length; at = TOKEN.lastIndex) {
    const token = TOKEN.exec(inside);
    if (!token) return undefined;
    tokens.push(token[0]);
  }
  const rest = tokens[Symbol.iterator]();
  if (rest.next().value !== '(') return undefined;
  const attributes = listFrom(rest);
  return attributes && { id: Number(found[1]), entity: found[2]!, attributes, line };
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
  /** Ids of two instances that differ: which of both counts, the standard does not say. */
  readonly twice = new Set<number>();

  constructor(text: string) {
    this.instances = text.split('\n').flatMap((line, i) => instanceIn(line, i) ?? []);
    for (const instance of this.instances) {
      const before = this.byId.get(instance.id);
      if (before && !isSame(before, instance)) this.twice.add(instance.id);
      this.byId.set(instance.id, instance);
    }
  }

  at(x: Attribute | undefined): Instance | undefined {
    return isRef(x) && !this.twice.has(x.ref) ? this.byId.get(x.ref) : undefined;
  }

  all(entity: string): Instance[] {
    return this.instances.filter((one) => one.entity === entity);
  }

  /** The only product with a GlobalId. */
  product(globalId: string): Instance | undefined {
    const found = this.instances.filter(
      ({ attributes, entity }) => attributes[0] === globalId && !/^IFCREL/.test(entity),
    );
    return found.length === 1 && !this.twice.has(found[0]!.id) ? found[0] : undefined;
  }

  /** Whether an instance is one that another refers to, directly or through others. */
  leadsTo(from: Instance, id: number, seen = new Set<number>()): boolean {
    if (from.id === id) return true;
    if (seen.has(from.id)) return false;
    seen.add(from.id);
    return refsIn(from.attributes).some((ref) => {
      const next = this.byId.get(ref);
      return next !== undefined && this.leadsTo(next, id, seen);
    });
  }
}

export const isRef = (x: Attribute | undefined): x is Ref => typeof x === 'object' && x !== null && 'ref' in x;

export const refsIn = (list: readonly Attribute[]): number[] =>
  list.flatMap((x): number[] => (isRef(x) ? [x.ref] : Array.isArray(x) ? refsIn(x as readonly Attribute[]) : []));
