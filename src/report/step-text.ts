/** STEP physical files (ISO 10303-21) as text: the same bytes for the same input. Knows the syntax, nothing of buildings. */

/** A line of the file, by its number. */
export class Ref {
  constructor(readonly id: number) {}
}
/** Text that goes into the file as it stands. */
export class Raw {
  constructor(readonly text: string) {}
}
/** `null` is `$`; a number is a real. */
export type Argument = Ref | Raw | string | number | null | readonly Argument[];

export const DERIVED = new Raw('*');
export const enumeration = (name: string): Raw => new Raw(`.${name}.`);
/** @throws RangeError when it is no integer */
export const integer = (value: number): Raw => {
  if (!Number.isInteger(value)) throw new RangeError(`${value} is no integer`);
  return new Raw(String(value));
};
/** A value of a select type, e.g. `IFCLABEL('x')`. */
export const typed = (type: string, value: Argument): Raw => new Raw(`${type.toUpperCase()}(${argumentText(value)})`);

/**
 * Part 21 wants a decimal point in every real, before the exponent too.
 *
 * @throws RangeError when it is no finite number
 */
export function realText(value: number): string {
  if (!Number.isFinite(value)) throw new RangeError(`${value} can not be written to a STEP file`);
  const [mantissa = '0', exponent] = String(value + 0).split('e');
  const pointed = mantissa.includes('.') ? mantissa : `${mantissa}.`;
  return exponent === undefined ? pointed : `${pointed}E${exponent.replace('+', '')}`;
}

/** Printable ASCII stays; all else becomes UTF-16 code units in `\X2\…\X0\`. */
export function stringText(value: string): string {
  const escaped = value
    .replace(/\\/g, '\\\\')
    .replace(/'/g, "''")
    .replace(/[^ -~]+/g, (run) => {
      const units = Array.from({ length: run.length }, (_, i) => run.charCodeAt(i));
      return `\\X2\\${units.map((u) => u.toString(16).toUpperCase().padStart(4, '0')).join('')}\\X0\\`;
    });
  return `'${escaped}'`;
}

function argumentText(argument: Argument): string {
  if (argument === null) return '$';
  if (argument instanceof Ref) return `#${argument.id}`;
  if (argument instanceof Raw) return argument.text;
  if (typeof argument === 'number') return realText(argument);
  if (typeof argument === 'string') return stringText(argument);
  return `(${argument.map(argumentText).join(',')})`;
}

export interface StepHeader {
  /** As FILE_SCHEMA names it, e.g. `IFC4`. */
  readonly schema: string;
  readonly descriptions: readonly string[];
  readonly fileName: string;
  /** ISO 8601 without zone. */
  readonly time: string;
  readonly system: string;
}

export class StepText {
  private readonly lines: string[] = [];
  /** Equal points and directions are written once. */
  private readonly shared = new Map<string, Ref>();

  add(entity: string, ...given: readonly Argument[]): Ref {
    this.lines.push(`#${this.lines.length + 1}=${entity.toUpperCase()}(${given.map(argumentText).join(',')});`);
    return new Ref(this.lines.length);
  }

  addShared(entity: string, ...given: readonly Argument[]): Ref {
    const key = `${entity}(${given.map(argumentText).join(',')})`;
    const known = this.shared.get(key);
    if (known) return known;
    const made = this.add(entity, ...given);
    this.shared.set(key, made);
    return made;
  }

  finish({ schema, descriptions, fileName, time, system }: StepHeader): string {
    const written = stringText(system);
    return [
      'ISO-10303-21;',
      'HEADER;',
      `FILE_DESCRIPTION((${descriptions.map(stringText).join(',')}),'2;1');`,
      `FILE_NAME(${stringText(fileName)},${stringText(time)},(''),(''),${written},${written},'');`,
      `FILE_SCHEMA((${stringText(schema)}));`,
      'ENDSEC;',
      'DATA;',
      ...this.lines,
      'ENDSEC;',
      'END-ISO-10303-21;',
      '',
    ].join('\n');
  }
}
