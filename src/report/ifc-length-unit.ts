/** The length units that a file of ours can be written in, by the names that the report has for them. */
import { DERIVED, enumeration, integer, type Ref, type StepText, typed } from './step-text.js';

export interface LengthUnit {
  readonly name: string;
  readonly millimetres: number;
  readonly write: (step: StepText) => Ref;
}

const si = (name: string, prefix: string | null, millimetres: number): LengthUnit => ({
  name,
  millimetres,
  write: (step) => siUnit(step, 'LENGTHUNIT', 'METRE', prefix),
});

export const siUnit = (step: StepText, type: string, name: string, prefix: string | null = null): Ref =>
  step.add('IfcSIUnit', DERIVED, enumeration(type), prefix === null ? null : enumeration(prefix), enumeration(name));

/** International foot and inch (exact since 1959). */
const converted = (name: string, metres: number): LengthUnit => ({
  name,
  millimetres: metres * 1000,
  write: (step) => {
    const exponents = step.add('IfcDimensionalExponents', ...[1, 0, 0, 0, 0, 0, 0].map(integer));
    const measure = step.add(
      'IfcMeasureWithUnit',
      typed('IfcLengthMeasure', metres),
      siUnit(step, 'LENGTHUNIT', 'METRE'),
    );
    return step.add('IfcConversionBasedUnit', exponents, enumeration('LENGTHUNIT'), name, measure);
  },
});

const MILLIMETRE = si('MILLIMETRE', 'MILLI', 1);
const UNITS: Readonly<Record<string, LengthUnit>> = {
  METRE: si('METRE', null, 1000),
  DECIMETRE: si('DECIMETRE', 'DECI', 100),
  CENTIMETRE: si('CENTIMETRE', 'CENTI', 10),
  FOOT: converted('FOOT', 0.3048),
  INCH: converted('INCH', 0.0254),
};

/** Millimetres where it is none of these. */
export const lengthUnitOf = (name: string): LengthUnit => (Object.hasOwn(UNITS, name) ? UNITS[name]! : MILLIMETRE);
