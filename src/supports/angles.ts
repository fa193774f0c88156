/** Equal steel angles as bearers. Lengths in mm. */
import { STEEL_DENSITY } from './masses.js';

/** Root radius r1 of EN 10056-1 by leg and thickness; the toe radius is half of it. From memory, held to the masses of the table. */
const ROOT_RADIUS: { readonly [legByThickness: string]: number } = {
  '20x3': 3.5,
  '25x3': 3.5,
  '25x4': 3.5,
  '30x3': 5,
  '30x4': 5,
  '35x4': 5,
  '40x4': 6,
  '40x5': 6,
  '45x4.5': 7,
  '50x4': 7,
  '50x5': 7,
  '50x6': 7,
  '60x5': 8,
  '60x6': 8,
  '60x8': 8,
  '70x7': 9,
  '80x8': 10,
  '90x9': 11,
  '100x10': 12,
};

export interface Angle {
  readonly leg: number;
  readonly thickness: number;
  readonly rootRadius: number;
}

const DESIGNATION = /\bL\s*(\d{2,3})\s*[x×]\s*(\d{2,3})\s*[x×]\s*(\d{1,2}(?:\.\d)?)(?![\d.])/iu;

/** The angle that a text names, e.g. "L 40x40x4"; undefined: none, or one that EN 10056-1 is not known to list. */
export function angleIn(text: string): Angle | undefined {
  const [, leg, other, thickness] = DESIGNATION.exec(text) ?? [];
  if (leg === undefined || leg !== other) return undefined;
  const size = `${leg}x${Number(thickness)}`;
  const rootRadius = Object.hasOwn(ROOT_RADIUS, size) ? ROOT_RADIUS[size] : undefined;
  return rootRadius === undefined ? undefined : { leg: Number(leg), thickness: Number(thickness), rootRadius };
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

/** m' = A · ρ, kg/m. EN 10056-1. */
export const angleMass = (angle: Angle): number => angleArea(angle) * 1e-6 * STEEL_DENSITY;

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
