/** Length and angle units of a file, followed through any chain of conversion-based units. */
import type { StepFile } from './step-file.js';
import { list, num, ref, refs, text } from './value.js';

export interface Units {
  /** Millimetres per file length unit. */
  readonly length: number;
  /** As the file names it, e.g. `MILLIMETRE`, `FOOT`. */
  readonly lengthName: string;
  /** Radians per file angle unit. */
  readonly angle: number;
}

const PREFIX: Readonly<Record<string, number>> = {
  EXA: 1e18,
  PETA: 1e15,
  TERA: 1e12,
  GIGA: 1e9,
  MEGA: 1e6,
  KILO: 1e3,
  HECTO: 1e2,
  DECA: 1e1,
  DECI: 1e-1,
  CENTI: 1e-2,
  MILLI: 1e-3,
  MICRO: 1e-6,
  NANO: 1e-9,
  PICO: 1e-12,
  FEMTO: 1e-15,
  ATTO: 1e-18,
};
/** Longest chain of conversion units that is followed: a longer one is a circle. */
const LONGEST_CHAIN = 8;

/** IFC says metres when a project names no length unit. */
export function readUnits(file: StepFile): Units {
  const project = file.line(file.ids('IFCPROJECT')[0] ?? file.ids('IFCCONTEXT', true)[0] ?? 0);
  const assignment = file.line(ref(project?.UnitsInContext) ?? 0);
  const unitOf = (kind: string): number | undefined =>
    list(assignment?.Units)
      .flatMap(refs)
      .find((id) => text(file.line(id)?.UnitType) === kind);
  const length = unitOf('LENGTHUNIT');
  const angle = unitOf('PLANEANGLEUNIT');
  return {
    length: 1000 * (length === undefined ? 1 : unitFactor(file, length)),
    lengthName: length === undefined ? 'METRE' : unitName(file, length),
    angle: angle === undefined ? 1 : unitFactor(file, angle),
  };
}

/** SI units (metre, radian) per unit. */
export function unitFactor(file: StepFile, id: number, depth = 0): number {
  const unit = file.line(id);
  const entity = file.entity(id);
  if (entity === 'IFCSIUNIT') {
    const prefix = text(unit?.Prefix);
    return prefix === undefined ? 1 : (PREFIX[prefix] ?? Number.NaN);
  }
  const factor = file.line(ref(unit?.ConversionFactor) ?? 0);
  const base = ref(factor?.UnitComponent);
  const value = num(factor?.ValueComponent);
  if (value === undefined || base === undefined || depth > LONGEST_CHAIN) return Number.NaN;
  return value * unitFactor(file, base, depth + 1);
}

function unitName(file: StepFile, id: number): string {
  const unit = file.line(id);
  return `${text(unit?.Prefix) ?? ''}${text(unit?.Name) ?? ''}`.toUpperCase();
}
