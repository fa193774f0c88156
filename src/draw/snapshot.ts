/**
 * A picture of one place, drawn on the processor alone: the barrier as a light plane with its openings cut out, ductwork
 * neutral, the rim of the penetration in the colour of its outcome with the mark, the tag and the outcome's word beside.
 */
import { encode } from 'fast-png';
import { bounds } from '../geometry/polygon.js';
import type { Outcome, Vec2 } from '../model.js';
import type { Scene } from '../scene/scene.js';
import { OUTCOME_WORDS } from '../words/values.js';
import { holeIn } from './holes.js';
import { drawLabel } from './label.js';
import { OUTCOME_COLOURS, PAGE } from './palette.js';
import { asBody, type Place, seenAt } from './place.js';
import { blankCanvas, type Canvas, halved } from './raster.js';
import { drawCutEnds, drawElement, drawReveal, drawRim, rimPoints } from './shapes.js';
import type { Standpoint } from './standpoint.js';
import { onPicture, type View, viewFrom } from './view.js';

export const PICTURE = { width: 800, height: 600 } as const;

export interface Label {
  readonly tag: string;
  readonly outcome: Outcome;
  /** Drawn across the foot of the picture. */
  readonly stamp: string | null;
}

/** PNG, 800 × 600; the same picture gives the same bytes. */
export function drawSnapshot(place: Place, standpoint: Standpoint, scene: Scene, label: Label): Uint8Array {
  const canvas = drawPlace(place, standpoint, scene, label);
  return encode({ ...PICTURE, data: halved(canvas), channels: 3, depth: 8 }, { zlib: { level: 4 } });
}

export function drawPlace(place: Place, standpoint: Standpoint, scene: Scene, label: Label): Canvas {
  const canvas = blankCanvas(PICTURE.width, PICTURE.height, PAGE);
  const view = viewFrom(standpoint, place.frame, canvas);
  const elements = seenAt(place, scene);
  const holes = elements
    .filter((element) => element.kind === 'opening')
    .flatMap((opening) => holeIn([asBody(opening)], 'outers', place, [0, 0]) ?? []);
  for (const element of elements) drawElement(view, place, holes, element);
  drawCutEnds(view, place, standpoint, elements);
  for (const hole of holes) drawReveal(view, hole, place.thickness);
  drawRim(view, place, standpoint.facing, OUTCOME_COLOURS[label.outcome]);
  drawLabel(canvas, rimOnPicture(view, place, standpoint.facing), { ...label, word: OUTCOME_WORDS[label.outcome] });
  return canvas;
}

/** The box of the rim in pixels of the picture; the place itself where it has no rim. */
function rimOnPicture(view: View, place: Place, facing: 1 | -1): { readonly min: Vec2; readonly max: Vec2 } {
  const points = place.rim.length > 0 ? rimPoints(view, place, facing).flat() : [view.frame.origin];
  const k = PICTURE.width / view.canvas.width;
  return bounds([points.map((p) => onPicture(view, p)).map(({ x, y }) => [x * k, y * k] as const)]);
}
