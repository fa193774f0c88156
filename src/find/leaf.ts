/**
 * The rated leaf of one element by its layers: tests are made in a bare leaf, so linings and cavities must not count for
 * its thickness. Layers are believed only where they add up to what is drawn.
 */
import { dot, lineAngle, sub } from '../geometry/vector.js';
import type { Barrier, BarrierFacts, MaterialLayer } from '../model.js';
import { LAYERS_FIT, PARALLEL } from '../tolerances.js';
import type { Plate } from './plates.js';

export interface RatedLeaf {
  /** Undefined where it is not known. */
  readonly thickness: number | undefined;
  readonly from: BarrierFacts['leafFrom'];
  readonly problem: BarrierFacts['leafProblem'];
}

/** @param drawn thickness of the whole element where it is looked at */
export function ratedLeaf({ layers, construction }: Barrier, drawn: number | undefined): RatedLeaf {
  const unknown = (problem: RatedLeaf['problem']): RatedLeaf => ({ thickness: undefined, from: null, problem });
  if (drawn === undefined) return unknown(null);
  const isPart = layers.some(({ role }) => role === 'lining' || role === 'cavity');
  // Of what nothing tells from the rest, and of a construction that no test could be looked up for, the whole is judged.
  if (!isPart || construction === 'unknown') return { thickness: drawn, from: 'geometry', problem: null };
  if (layers.some(({ role }) => role === undefined)) return unknown('notTold');
  const total = totalThickness(layers);
  if (total === undefined) return unknown('thicknessUnstated');
  if (Math.abs(total - drawn) > LAYERS_FIT) return unknown('thicknessDiffers');
  return { thickness: thinnestLeaf(layers), from: 'layers', problem: null };
}

/** Undefined where a layer does not say how thick it is. */
export function totalThickness(layers: readonly MaterialLayer[]): number | undefined {
  const sizes = layers.map(({ thickness }) => thickness);
  return sizes.length > 0 && sizes.every((size) => size !== undefined)
    ? sizes.reduce((sum, size) => sum + size, 0)
    : undefined;
}

/**
 * Nothing says which of two leaves with a cavity between holds the rating, and each is sealed by itself: whichever it is,
 * it is as thick as the thinner one.
 */
function thinnestLeaf(layers: readonly MaterialLayer[]): number {
  const leaves: number[] = [];
  for (const [i, { role, thickness }] of layers.entries()) {
    if (role !== 'leaf') continue;
    if (layers[i - 1]?.role === 'leaf') leaves[leaves.length - 1]! += thickness!;
    else leaves.push(thickness!);
  }
  return Math.min(...leaves);
}

export interface LayerStack {
  readonly layers: readonly (MaterialLayer & { readonly thickness: number })[];
  /** The layers follow the plate's normal; false: nothing tells on which face they begin. */
  readonly isAlong: boolean;
  /** They do, once turned round: the file lists them against it. */
  readonly isReversed: boolean;
}

/** The layers that a plate passes; undefined where they don't add up to it, or one of them is not told. */
export function layersOf({ layers, layersFrom }: Barrier, plate: Plate): LayerStack | undefined {
  const told = layers.flatMap((layer) =>
    layer.role && layer.thickness !== undefined ? [{ ...layer, thickness: layer.thickness }] : [],
  );
  const total = told.reduce((sum, { thickness }) => sum + thickness, 0);
  if (told.length < 2 || told.length < layers.length || Math.abs(total - plate.thickness) > LAYERS_FIT)
    return undefined;
  const { z, origin } = plate.frame;
  if (!layersFrom || plate.curve || lineAngle(layersFrom.direction, z) > PARALLEL)
    return { layers: told, isAlong: false, isReversed: false };
  const sense = dot(layersFrom.direction, z) > 0 ? 1 : -1;
  const isAtFace = Math.abs(dot(sub(layersFrom.at, origin), z) + (sense * plate.thickness) / 2) <= LAYERS_FIT;
  const isReversed = isAtFace && sense < 0;
  return { layers: isReversed ? [...told].reverse() : told, isAlong: isAtFace, isReversed };
}
