/** Angles and strips round a duct at the face of a barrier. Lengths in mm, masses in kg/m. */
import { angleIn, angleName } from '../../supports/angles.js';
import { type Across, perimeter, STEEL_DENSITY } from '../../supports/masses.js';

export type Corners = 'mitred' | 'butted';
export type FrameSides = 'all' | 'top and bottom' | 'left and right';

/** Equal pieces of a frame, and how much of one lies along the duct. */
export interface FramePieces {
  readonly sides: Exclude<FrameSides, 'all'>;
  readonly pieces: number;
  readonly length: number;
  readonly alongDuct: number;
}

/**
 * Of a frame of bars of width b round a duct w × h. Mitred: w + 2b and h + 2b, measured at the outer edge; butted: w + 2b
 * over and under, h between them. Sides that have no neighbours end with the duct: w, or h. Arithmetic.
 */
export function framePieces(
  { width: w, height: h }: { readonly width: number; readonly height: number },
  b: number,
  sides: FrameSides,
  corners: Corners,
): FramePieces[] {
  const beyond = sides === 'all' ? 2 * b : 0;
  const level: FramePieces = { sides: 'top and bottom', pieces: 2, length: w + beyond, alongDuct: w };
  const between = corners === 'mitred' ? beyond : 0;
  const upright: FramePieces = { sides: 'left and right', pieces: 2, length: h + between, alongDuct: h };
  if (sides === 'all') return [level, upright];
  return [sides === 'top and bottom' ? level : upright];
}

/**
 * e = (a² + a·t − t²) / (2(2a − t)): from the back of a leg to the centroid of an equal angle without its radii. Closed form:
 * two rectangles a·t and (a − t)·t with their centroids a/2 and t/2 over the back.
 */
export const angleCentroid = (a: number, t: number): number => (a * a + a * t - t * t) / (2 * (2 * a - t));

/**
 * L = U + 2π·e: a bar bent round a duct keeps its length along its centroid, e outside the duct; U is the duct's perimeter.
 * Offset of a convex outline (Steiner's formula).
 */
export const bentLength = (across: Across, e: number): number => perimeter(across) + 2 * Math.PI * e;

/** The name of an equal angle, and what a metre of it weighs: as EN 10056-1 lists it, else m' = t(2a − t)·ρ without radii. */
export function angleOf(leg: number, thickness: number): { readonly name: string; readonly perMetre: number } {
  const name = angleName({ leg, thickness });
  const perMetre = angleIn(name)?.mass ?? thickness * (2 * leg - thickness) * 1e-6 * STEEL_DENSITY;
  return { name, perMetre: Number(perMetre.toFixed(3)) };
}
