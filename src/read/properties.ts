/** Property sets of occurrences and of their types. Occurrence values come first: they override the type's. */
import type { Relations } from './relations.js';
import type { StepFile } from './step-file.js';
import { list, num, refs, text } from './value.js';

export interface Property {
  readonly set: string;
  readonly name: string;
  /** Raw value: read it with `text`, `num`, `bool`; undefined where the property has none. */
  readonly value: unknown;
  readonly from: 'occurrence' | 'type';
}

export class Properties {
  /** By property set. */
  private readonly ofOccurrences = new Map<number, readonly Property[]>();
  private readonly ofTypes = new Map<number, readonly Property[]>();
  /** Of the element that was asked for last: many things are asked of one element. */
  private last: { readonly id: number; readonly all: readonly Property[] } | undefined;

  constructor(
    private readonly file: StepFile,
    private readonly relations: Relations,
    /** Millimetres per file unit. */
    private readonly mm: number,
  ) {}

  /** Every property of an element: its own, then its type's. */
  all(id: number): readonly Property[] {
    if (this.last?.id !== id) this.last = { id, all: this.collect(id) };
    return this.last.all;
  }

  /** The first property with that name in a set whose name matches, that has a value. */
  find(id: number, set: RegExp, name: string): Property | undefined {
    return this.all(id).find((p) => p.name === name && set.test(p.set) && p.value !== undefined);
  }

  /** A length in mm. IFC2X3 states some sizes as lists: the first value counts. */
  length(id: number, set: RegExp, name: string): number | undefined {
    const value = this.find(id, set, name)?.value;
    const n = num(Array.isArray(value) ? value[0] : value);
    return n === undefined ? undefined : n * this.mm;
  }

  private collect(id: number): readonly Property[] {
    const own = this.relations.propertySetsOf.get(id) ?? [];
    const type = this.file.line(this.relations.typeOf.get(id) ?? 0);
    const sets = own.map((set) => this.set(set, 'occurrence', this.ofOccurrences));
    for (const set of refs(type?.HasPropertySets)) sets.push(this.set(set, 'type', this.ofTypes));
    return sets.length === 1 ? sets[0]! : sets.flat();
  }

  private set(id: number, from: Property['from'], known: Map<number, readonly Property[]>): readonly Property[] {
    const properties = known.get(id) ?? this.read(id, from);
    known.set(id, properties);
    return properties;
  }

  private read(id: number, from: Property['from']): readonly Property[] {
    const line = this.file.line(id);
    const set = text(line?.Name) ?? '';
    return refs(line?.HasProperties).flatMap((p) => {
      const property = this.file.line(p);
      const name = text(property?.Name);
      return name === undefined ? [] : [{ set, name, value: propertyValue(property!), from }];
    });
  }
}

function propertyValue(property: { readonly [attribute: string]: unknown }): unknown {
  const single = property.NominalValue;
  if (single !== undefined && single !== null) return single;
  const enumeration = list(property.EnumerationValues);
  if (enumeration.length > 0) return enumeration[0];
  const values = list(property.ListValues);
  return values.length > 0 ? values : undefined;
}
