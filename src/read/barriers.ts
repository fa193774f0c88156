/** Walls, floors and roofs with their gross bodies, openings and ratings. */

import { builtOf } from '../construction/built-of.js';
import type { Barrier, Opening } from '../model.js';
import { faultOfBarrier } from './barrier-body.js';
import { type BarrierElement, barrierElements, nounOf } from './barrier-elements.js';
import { drawingRating, readRating, withDrawing } from './barrier-rating.js';
import { readCombustible } from './combustible.js';
import { readDoor } from './doors.js';
import { type ReadLayer, readLayerStart, readLayers } from './materials.js';
import { noteNoBody, noteProblem, readElement, type Source, tryBodies } from './source.js';
import { bool, ref, text } from './value.js';

export interface ReadBarriers {
  readonly barriers: readonly Barrier[];
  readonly skipped: number;
  /** Without a body of their own, made of others that are listed. */
  readonly ofBarriers: number;
  readonly taken: ReadonlySet<number>;
}

export function readBarriers(source: Source, model: string): ReadBarriers {
  const { read, skipped, ofBarriers, taken } = barrierElements(source);
  const barriers: Barrier[] = [];
  let unusable = 0;
  for (const element of read) {
    const fault = faultOfBarrier(element.bodies);
    if (fault) noteProblem(source, element.line, fault.code, fault.message, nounOf(element.kind));
    if (fault?.isUnusable) unusable++;
    else barriers.push(readBarrier(source, element, model));
  }
  return { barriers, skipped: skipped + unusable, ofBarriers, taken };
}

/** Wholes whose rating and openings hold for their parts too. */
const WHOLES = /^IFC(WALL|SLAB|ROOF|CURTAINWALL|ELEMENTASSEMBLY)/;

function readBarrier(source: Source, { id, line, kind, bodies, parts }: BarrierElement, model: string): Barrier {
  const whole = source.relations.wholeOf.get(id);
  const holders = whole !== undefined && WHOLES.test(source.file.entity(whole)) ? [id, whole] : [id];
  const compartmentation = holders
    .map((holder) => bool(source.properties.find(holder, /^Pset_\w+Common$/, 'Compartmentation')?.value))
    .find((value) => value !== undefined);
  const element = readElement(source, id, line);
  const drawing = drawingRating(source, element);
  const own = readLayers(source, id);
  const layers = own.layers.length > 0 ? own.layers : parts.flatMap((part) => layersOfPart(source, part));
  const typeName = text(source.file.line(source.relations.typeOf.get(id) ?? 0)?.Name) ?? '';
  const { construction, roles, boards } = builtOf(
    layers,
    own.isOrdered,
    [element.name, typeName],
    source.constructions,
  );
  const { globalId, name, entity, storey } = element;
  return {
    globalId,
    name,
    entity,
    storey,
    model,
    bodies,
    kind,
    openings: [...holders, ...parts].flatMap((holder) => readOpenings(source, holder, model)),
    rating: withDrawing(source, element, readRating(source, holders, compartmentation), drawing),
    compartmentation,
    extendToStructure: bool(source.properties.find(id, /^Pset_WallCommon$/, 'ExtendToStructure')?.value),
    drawing,
    layers: layers.map(({ material, thickness }, i) => ({
      material,
      thickness,
      // Parts stand where they are drawn, which says more than their order.
      ...(own.layers.length > 0 && { role: roles[i] }),
    })),
    layersFrom: parts.length > 0 ? undefined : readLayerStart(source, own.usage, ref(line.ObjectPlacement)),
    boards,
    construction,
    combustible: readCombustible(source, id),
  };
}

/** A part that may stand for a layer, a stud or a rail: its material; how thick it is there, its body alone tells. */
function layersOfPart(source: Source, part: number): ReadLayer[] {
  const line = source.file.line(part);
  if (!line) return [];
  const { layers } = readLayers(source, part);
  const material = layers.length > 0 ? layers.map((layer) => layer.material).join(', ') : (text(line.Name) ?? '');
  return [{ material, thickness: undefined }];
}

function readOpenings(source: Source, host: number, model: string): Opening[] {
  const { file, relations } = source;
  return (relations.openingsOf.get(host) ?? []).flatMap((id) => {
    const line = file.line(id);
    if (!line) return [];
    const bodies = tryBodies(source, line, 'Opening');
    if (bodies === undefined) return [];
    if (bodies.length === 0) noteNoBody(source, line, 'Opening');
    const fillings = relations.fillingsOf.get(id) ?? [];
    const filledBy = fillings.map((filling) => text(file.line(filling)?.GlobalId) ?? '');
    const doors = fillings.flatMap((filling) => readDoor(source, filling));
    const { globalId, name, entity, storey } = readElement(source, id, line);
    return [{ globalId, name, entity, storey, model, bodies, filledBy, doors }];
  });
}
