/** What a support carries and what its parts bear of it. Lengths in mm, masses in kg, forces in N, stresses in N/mm². */
import { GRAVITY } from './masses.js';
import { type Rod, stressArea } from './rods.js';

/** F = (m'·s + m_b)·g, N: m' kg/m of what is carried, s mm of it, m_b kg of the bearer. */
export const supportLoad = (massPerMetre: number, carried: number, bearer: number): number =>
  ((massPerMetre * carried) / 1000 + bearer) * GRAVITY;

/** What is allowed up to some minutes of fire. */
export interface StressStep {
  readonly upTo: number;
  readonly stress: number;
}

/** Of ascending steps the first that lasts so long; undefined: nothing is said of so long a fire. */
export const allowedStress = (steps: readonly StressStep[], minutes: number): number | undefined =>
  steps.find(({ upTo }) => minutes <= upTo)?.stress;

/**
 * s = (n·A_s·σ / g − m_b) / m', mm: the spacing at which n rods reach the allowed stress, the bearer's own mass taken off.
 * 0 where the bearer alone is too much for them. Arithmetic.
 */
export function largestSpacing(rod: Rod, rods: number, allowed: number, massPerMetre: number, bearer: number): number {
  return Math.max(0, ((rods * stressArea(rod) * allowed) / GRAVITY - bearer) / massPerMetre) * 1000;
}

/** σ = F·L / (8·W), N/mm²: simply supported between rods L apart, F spread evenly over L, which two half loads never exceed. */
export const bearerStress = (load: number, span: number, modulus: number): number => (load * span) / (8 * modulus);

/** n = ⌈L / s⌉ + 1 supports on a length L with one at each end, at most s apart. */
export const supportsNeeded = (length: number, spacing: number): number => Math.ceil(length / spacing - 1e-9) + 1;
