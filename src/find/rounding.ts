/** What is reported is what is judged: lengths to 0.1 mm, angles to 0.01 degrees, never a negative zero. */
import type { Polygon, Vec3 } from '../model.js';

const round = (value: number, steps: number): number => Math.round(value * steps) / steps + 0;

export const roundLength = (mm: number): number => round(mm, 10);
export const roundAngle = (degrees: number): number => round(degrees, 100);
export const roundPoint = (p: Vec3): Vec3 => [roundLength(p[0]), roundLength(p[1]), roundLength(p[2])];
/** To the square centimetre. */
export const roundArea = (m2: number): number => round(m2, 1e4);
/** Directions keep six digits: enough to be square to within 0.0001 degrees. */
export const roundDirection = (d: Vec3): Vec3 => [round(d[0], 1e6), round(d[1], 1e6), round(d[2], 1e6)];
export const roundPolygon = (p: Polygon): Polygon => p.map(([x, y]) => [roundLength(x), roundLength(y)] as const);
