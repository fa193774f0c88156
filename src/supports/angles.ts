/** Equal steel angles as bearers. Lengths in mm. */
import { STEEL_DENSITY } from './masses.js';

/**
 * EN 10056-1 by leg and thickness: root radius r1 (the toe radius is half of it), and kg/m as it tabulates them, to three
 * digits. Radii from memory, held to the masses.
 */
const TABLE: { readonly [legByThickness: string]: readonly [rootRadius: number, mass: number] } = {
  '20x3': [3.5, 0.88],
  '25x3': [3.5, 1.12],
  '25x4': [3.5, 1.45],
  '30x3': [5, 1.36],
  '30x4': [5, 1.78],
  '35x4': [5, 2.09],
  '40x4': [6, 2.42],
  '40x5': [6, 2.97],
  '45x4.5': [7, 3.06],
  '50x4': [7, 3.06],
  '50x5': [7, 3.77],
  '50x6': [7, 4.47],
  '60x5': [8, 4.57],
  '60x6': [8, 5.42],
  '60x8': [8, 7.09],
  '70x7': [9, 7.38],
  '80x8': [10, 9.63],
  '90x9': [11, 12.2],
  '100x10': [12, 15],
};

export interface Angle {
  readonly leg: number;
  readonly thickness: number;
  readonly rootRadius: number;
  /** kg/m. */
  readonly mass: number;
}

const DESIGNATION = /\bL\s*(\d{2,3})\s*[x×]\s*(\d{2,3})\s*[x×]\s*(\d{1,2}(?:\.\d)?)(?![\d.])/iu;

/** The angle that a text names, e.g. "L 40x40x4"; undefined: none, or one that EN 10056-1 is not known to list. */
export function angleIn(text: string): Angle | undefined {
  const [, leg, other, thickness] = DESIGNATION.exec(text) ?? [];
  if (leg === undefined || leg !== other) return undefined;
  const size = `${leg}x${Number(thickness)}`;
  const row = Object.hasOwn(TABLE, size) ? TABLE[size] : undefined;
  return row && { leg: Number(leg), thickness: Number(thickness), rootRadius: row[0], mass: row[1] };
}

export const angleName = ({ leg, thickness }: Pick<Angle, 'leg' | 'thickness'>): string =>
  `L ${leg}x${leg}x${thickness}`;

/** What lies between two straight sides and a quarter circle of radius 1 that touches both: area, centroid, own inertia. */
const SPANDREL = {
  area: 1 - Math.PI / 4,
  centroid: (10 - 3 * Math.PI) / (3 * (4 - Math.PI)),
  inertia: 0.00755,
} as const;

/** A = t(2a − t) + (1 − π/4)(r1² − 2·r2²), mm². EN 10056-1. */
export const angleArea = ({ leg: a, thickness: t, rootRadius: r1 }: Angle): number =>
  t * (2 * a - t) + SPANDREL.area * (r1 ** 2 - 2 * (r1 / 2) ** 2);

/** m' = A · ρ, kg/m, which the table rounds. EN 10056-1. */
export const angleMassByFormula = (angle: Angle): number => angleArea(angle) * 1e-6 * STEEL_DENSITY;

/** W = I / (a − e) about an axis along a leg, mm³, for the toe, where the stress is greatest. Closed form, radii included. */
export function angleModulus(angle: Angle): number {
  const { leg: a, thickness: t, rootRadius: r1 } = angle;
  const r2 = r1 / 2;
  const { area, centroid, inertia } = SPANDREL;
  // Each part: its area, the height of its centroid over the back of the flat leg, its inertia about its own centroid.
  const parts: readonly (readonly [number, number, number])[] = [
    [t * a, a / 2, (t * a ** 3) / 12],
    [(a - t) * t, t / 2, ((a - t) * t ** 3) / 12],
    [area * r1 ** 2, t + centroid * r1, inertia * r1 ** 4],
    [-area * r2 ** 2, a - centroid * r2, -inertia * r2 ** 4],
    [-area * r2 ** 2, t - centroid * r2, -inertia * r2 ** 4],
  ];
  const sum = (of: (part: readonly [number, number, number]) => number): number =>
    parts.reduce((total, part) => total + of(part), 0);
  const e = sum(([A, y]) => A * y) / angleArea(angle);
  return sum(([A, y, own]) => own + A * (y - e) ** 2) / (a - e);
}
