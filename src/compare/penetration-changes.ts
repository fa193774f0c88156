/** What is another in the same penetration, field by field. */
import type { ReportPenetration } from '../report/schema.js';
import { SAME_SIZE } from '../tolerances.js';
import type { Change } from './schema.js';

type Value = Change['before'];
type Field = readonly [what: Change['what'], field: string, of: (p: ReportPenetration) => Value];

const FIELDS: readonly Field[] = [
  ['crossing', 'crossing', (p) => p.crossing],
  ['size', 'duct.shape', (p) => p.duct.shape],
  ['size', 'duct.width', (p) => p.duct.width],
  ['size', 'duct.height', (p) => p.duct.height],
  ['size', 'duct.diameter', (p) => p.duct.diameter],
  ['barrier', 'barrier.thickness', (p) => p.barrier.thickness],
  ['barrier', 'barrier.leafThickness', (p) => p.barrier.leafThickness],
  ['barrier', 'barrier.construction', (p) => p.barrier.construction],
  ['rating', 'barrier.rating.state', (p) => p.barrier.rating.state],
  ['rating', 'barrier.rating.text', (p) => p.barrier.rating.text],
  ['rating', 'barrier.rating.integrity', (p) => p.barrier.rating.integrity],
  ['rating', 'barrier.rating.insulation', (p) => p.barrier.rating.insulation],
  ['opening', 'opening', (p) => p.opening?.shape ?? 'none'],
  ['opening', 'opening.width', (p) => p.opening?.width ?? null],
  ['opening', 'opening.height', (p) => p.opening?.height ?? null],
  ['gaps', 'gaps.top', (p) => p.gaps.top],
  ['gaps', 'gaps.bottom', (p) => p.gaps.bottom],
  ['gaps', 'gaps.left', (p) => p.gaps.left],
  ['gaps', 'gaps.right', (p) => p.gaps.right],
  ['gaps', 'gaps.min', (p) => p.gaps.min],
  ['gaps', 'gaps.max', (p) => p.gaps.max],
  ['treatment', 'treatment.kind', (p) => p.treatment.kind],
  ['treatment', 'treatment.layers', (p) => p.treatment.layers],
  ['treatment', 'treatment.integrity', (p) => p.treatment.integrity],
  ['treatment', 'treatment.insulation', (p) => p.treatment.insulation],
];

export function changesBetween(before: ReportPenetration, after: ReportPenetration): Change[] {
  return FIELDS.map(([what, field, of]) => ({ what, field, before: of(before), after: of(after) })).filter(
    (change) => !isSame(change.before, change.after),
  );
}

const isSame = (a: Value, b: Value): boolean =>
  typeof a === 'number' && typeof b === 'number' ? Math.abs(a - b) <= SAME_SIZE : a === b;
