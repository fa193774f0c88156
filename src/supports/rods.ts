/** Threaded rods: stress area, stress, elongation. Lengths in mm, forces in N, stresses in N/mm². */

/** Coarse pitch P of ISO 261 by diameter d. */
const PITCH = { M6: 1, M8: 1.25, M10: 1.5, M12: 1.75, M14: 2, M16: 2, M18: 2.5, M20: 2.5, M24: 3 } as const;
/** A_s as ISO 898-1 tabulates it: rounded to three digits. */
const STRESS_AREA = {
  M6: 20.1,
  M8: 36.6,
  M10: 58,
  M12: 84.3,
  M14: 115,
  M16: 157,
  M18: 192,
  M20: 245,
  M24: 353,
} as const;

export type Rod = keyof typeof PITCH;
export const RODS = Object.keys(PITCH) as unknown as readonly [Rod, ...Rod[]];

const NAMED = /(?<![\p{L}\d])M\s?(\d{1,2})(?![\d])/iu;

/** The rod that a text names, e.g. "threaded rod M10"; undefined: none, or none of these. */
export function rodIn(text: string): Rod | undefined {
  const size = NAMED.exec(text)?.[1];
  return RODS.find((rod) => rod === `M${size}`);
}

/** A_s = π/4 · (d − 0.9382·P)², mm². ISO 898-1. */
export const stressAreaByFormula = (rod: Rod): number =>
  (Math.PI / 4) * (Number(rod.slice(1)) - 0.9382 * PITCH[rod]) ** 2;

/** A_s, mm², as ISO 898-1 tabulates it. */
export const stressArea = (rod: Rod): number => STRESS_AREA[rod];

/** σ = F / A_s, N/mm²; F for one rod. */
export const rodStress = (load: number, rod: Rod): number => load / stressArea(rod);

/** T = 345·log10(8t + 1) + 20, °C, after t minutes. EN 1363-1, standard heating curve. */
export const fireTemperature = (minutes: number): number => 345 * Math.log10(8 * minutes + 1) + 20;

/**
 * Δl, mm, of steel as hot as the fire after so many minutes: Δl/l = 2·10⁻⁵·θ − 6.2·10⁻³. EN 1993-1-2, 3.4.1.1.
 * Undefined where θ does not lie within 860 to 1200 °C, for which alone that line holds.
 */
export function elongation(length: number, minutes: number): number | undefined {
  const theta = fireTemperature(minutes);
  return theta > 860 && theta <= 1200 ? length * (2e-5 * theta - 6.2e-3) : undefined;
}
