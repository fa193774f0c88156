/** Masses of what a support carries. Lengths in mm, densities in kg/m³, masses in kg, per metre of duct where so named. */

/** Steel: EN 1993-1-1, 3.2.6. */
export const STEEL_DENSITY = 7850;
/** Standard gravity as the worked examples of the trade have it, m/s². */
export const GRAVITY = 9.81;

/** Outside of the sheet across the duct. */
export type Across =
  | { readonly shape: 'rectangular' | 'oval'; readonly width: number; readonly height: number }
  | { readonly shape: 'circular'; readonly diameter: number };

/** Undefined where the shape or a size that it goes by is not known. */
export function acrossOf({
  shape,
  width,
  height,
  diameter,
}: {
  readonly shape?: string | undefined;
  readonly width?: number | null | undefined;
  readonly height?: number | null | undefined;
  readonly diameter?: number | null | undefined;
}): Across | undefined {
  if (shape === 'circular') return typeof diameter === 'number' ? { shape, diameter } : undefined;
  if (shape !== 'rectangular' && shape !== 'oval') return undefined;
  return typeof width === 'number' && typeof height === 'number' ? { shape, width, height } : undefined;
}

/** On how many sides the protection lies; `three`: the top is against a slab. */
export type Sides = 'four' | 'three';

const MM2_TO_M2 = 1e-6;

/** U, mm. Flat oval: π·h + 2·(w − h), h the smaller side. */
export function perimeter(across: Across): number {
  if (across.shape === 'circular') return Math.PI * across.diameter;
  const { width, height } = across;
  if (across.shape === 'rectangular') return 2 * (width + height);
  const [long, short] = [Math.max(width, height), Math.min(width, height)];
  return Math.PI * short + 2 * (long - short);
}

/** m' = U · t · ρ, kg/m: the sheet laid flat, without seams and flanges. Arithmetic. */
export const sheetMass = (across: Across, thickness: number, density = STEEL_DENSITY): number =>
  perimeter(across) * thickness * MM2_TO_M2 * density;

/**
 * Section of layers of thickness t in all round the outline, mm²: (a + 2t)(b + 2t) − a·b on four sides with square
 * corners, (a + 2t)(b + t) − a·b on three; π·t·(d + t) round a circle; U·t + π·t² round a flat oval. Arithmetic.
 */
export function coverSection(across: Across, thickness: number, sides: Sides = 'four'): number {
  const t = thickness;
  if (across.shape === 'circular') return Math.PI * t * (across.diameter + t);
  if (across.shape === 'oval') return perimeter(across) * t + Math.PI * t * t;
  const { width: a, height: b } = across;
  return (a + 2 * t) * (b + (sides === 'four' ? 2 : 1) * t) - a * b;
}

/** m' = A · ρ, kg/m, of what covers the duct: insulation or protection. */
export const coverMass = (across: Across, thickness: number, density: number, sides: Sides = 'four'): number =>
  coverSection(across, thickness, sides) * MM2_TO_M2 * density;

/** The outside of a cover on four sides: what the next one goes round. */
export const grownAcross = (across: Across, by: number): Across =>
  across.shape === 'circular'
    ? { shape: 'circular', diameter: across.diameter + 2 * by }
    : { shape: across.shape, width: across.width + 2 * by, height: across.height + 2 * by };

/** How wide the bearer must be between its rods to take it, mm. */
export const widthOf = (across: Across): number => (across.shape === 'circular' ? across.diameter : across.width);
