/** The outlines of each part of a detail, and of the protection along the duct, in the cut. */
import type { BuiltPart, Seam } from '../../../model.js';
import type { Drawn, Hatch, Seen, Shape } from './built.js';
import { type Corner, type Places, rectangleOf, SIDES } from './places.js';
import { beadSize, type Chosen, depthBefore, isInCut, type PartOf, type Sizes } from './sizes.js';

/** Along the duct, mm: further than any sheet shows, where what is drawn ends. */
const ON_AND_ON = 1e6;
/** Beyond what is built at a face, mm: where the number of the protection points. */
const BEYOND = 45;

const NOTHING: Seen = { shapes: [], targets: [] };

/** From the outermost part on a face outwards; through the barrier where it goes through. */
export function drawnProtection(chosen: Chosen, sizes: Sizes, places: Places): Drawn {
  const { layer, layers, inset, stack, reach } = sizes;
  const part = 'protection';
  if (layer === 0 || layers === 0) return { part, ...NOTHING };
  const shapes = Array.from({ length: layers }, (_, i) => i).flatMap((i) => {
    const [inner, outer] = [i * layer - inset, (i + 1) * layer - inset];
    const hatch = hatchOf(chosen, i);
    const strip = (side: 0 | 1, ends: readonly [number, number]): Shape => ({
      hatch,
      outline: places.strip(side, Math.min(...ends), Math.max(...ends), inner, outer),
    });
    return SIDES.flatMap((side) =>
      chosen.gapDatum === 'passesThrough'
        ? [strip(side, [-ON_AND_ON, ON_AND_ON])]
        : places.faces.map((face) => strip(side, [places.off(face, stack), places.off(face, ON_AND_ON)])),
    );
  });
  const corner: Corner = { face: places.faces[0] ?? 1, side: 1 };
  return { part, shapes, targets: [places.point(corner, reach.along + BEYOND, (layers * layer) / 2 - inset)] };
}

export const drawnParts = (chosen: Chosen, sizes: Sizes, places: Places): Drawn[] =>
  chosen.parts.map((part, i): Drawn => ({ part: i, ...seenOf(part, i, { chosen, sizes, places }) }));

interface Building {
  readonly chosen: Chosen;
  readonly sizes: Sizes;
  readonly places: Places;
}

function seenOf(part: BuiltPart, i: number, building: Building): Seen {
  switch (part.part) {
    case 'packing':
      return packing(building);
    case 'angle':
      return angle(part, i, building);
    case 'boardCollar':
      return boardCollar(part, i, building);
    case 'localBuildUp':
      return localBuildUp(part, i, building);
    case 'sealant':
      return sealant(part, i, building);
  }
}

const hatchOf = ({ protection }: Chosen, layer: number): Hatch => {
  if (protection === 'board') return 'diagonal';
  return layer % 2 === 0 ? 'wavy' : 'crossed';
};

/** Between the duct, or what goes through with it, and the opening; as deep as seals at the faces leave it. */
function packing({ chosen, places }: Building): Seen {
  const seals = chosen.parts.filter(
    (one): one is PartOf<'sealant'> => one.part === 'sealant' && one.at.includes('gap'),
  );
  const seal = Math.min(places.half, Math.max(0, ...seals.map(beadSize)));
  const end = (face: -1 | 1): number => face * (places.half - (places.faces.includes(face) ? seal : 0));
  const shapes = SIDES.flatMap((side): Shape[] => {
    const outline = places.gap(side, end(-1), end(1));
    return outline ? [{ hatch: 'packing', outline }] : [];
  });
  const at = end(1) / 2;
  return { shapes, targets: shapes.length > 0 ? [[at, places.across(1, at, places.gapMiddle)]] : [] };
}

function angle(part: PartOf<'angle'>, i: number, { chosen, sizes, places }: Building): Seen {
  const { leg, thickness: t } = part;
  if (leg === null || t === null || !isInCut(part, sizes.pair)) return NOTHING;
  const [b, from] = [sizes.base, depthBefore(chosen.parts, i, sizes.pair)];
  const corners = places.corners(part.faces);
  const shapes = corners.map((corner): Shape => {
    const outline = places.onFace(corner, [
      [from, b],
      [from + leg, b],
      [from + leg, b + t],
      [from + t, b + t],
      [from + t, b + leg],
      [from, b + leg],
    ]);
    return { hatch: 'steel', outline };
  });
  return { shapes, targets: places.pointed(corners, 0, from + t / 2, b + leg * 0.8) };
}

function boardCollar(part: PartOf<'boardCollar'>, i: number, { chosen, sizes, places }: Building): Seen {
  const { width, thickness } = part;
  if (width === null || thickness === null) return NOTHING;
  const [b, from] = [sizes.base, depthBefore(chosen.parts, i, sizes.pair)];
  const corners = places.corners(part.faces);
  const shapes = corners.map((corner): Shape => {
    return { hatch: 'board', outline: places.onFace(corner, rectangleOf(from, from + thickness, b, b + width)) };
  });
  return { shapes, targets: places.pointed(corners, 1, from + thickness / 2, b + width * 0.85) };
}

function localBuildUp(part: PartOf<'localBuildUp'>, i: number, { chosen, sizes, places }: Building): Seen {
  const { length, layers } = part;
  const { layer, inset, stack, stretch } = sizes;
  if (length === null || layer === 0) return NOTHING;
  const earlier = chosen.parts
    .slice(0, i)
    .reduce((sum, one) => sum + (one.part === 'localBuildUp' ? one.layers : 0), 0);
  const under = sizes.layers + earlier;
  const corners = places.corners(part.faces);
  // Measured along the duct, drawn from the face.
  const end = length / stretch;
  const shapes = corners.flatMap((corner) =>
    Array.from({ length: layers }, (_, n): Shape => {
      const [inner, outer] = [(under + n) * layer - inset, (under + n + 1) * layer - inset];
      return { hatch: hatchOf(chosen, under + n), outline: places.onDuct(corner, stack, end, inner, outer) };
    }),
  );
  return { shapes, targets: places.pointed(corners, 1, end * 0.7, (under + layers - 0.5) * layer - inset) };
}

function sealant(part: PartOf<'sealant'>, i: number, building: Building): Seen {
  const { places } = building;
  const corners = places.corners(part.faces);
  const size = beadSize(part);
  const seams = part.at.map((seam, turn): Seen => {
    if (seam === 'gap') return gapSeal(corners, size, turn, building);
    const place = seamAt(seam, i, building);
    if (!place) return NOTHING;
    const { w, u, way } = place;
    const shapes = corners.map((corner): Shape => {
      const outline = places.onFace(corner, [
        [w, u],
        [w + size * way, u],
        [w, u + size],
      ]);
      return { hatch: 'sealant', outline };
    });
    return { shapes, targets: places.pointed(corners, turn, w + (size * way) / 3, u + size / 3) };
  });
  return { shapes: seams.flatMap((one) => one.shapes), targets: seams.flatMap((one) => one.targets) };
}

function gapSeal(corners: readonly Corner[], size: number, turn: number, { places }: Building): Seen {
  const depth = Math.min(size, places.half);
  const shapes = corners.flatMap(({ face, side }): Shape[] => {
    const ends = [places.off(face, -depth), places.off(face, 0)] as const;
    const outline = places.gap(side, Math.min(...ends), Math.max(...ends));
    return outline ? [{ hatch: 'sealant', outline }] : [];
  });
  return { shapes, targets: shapes.length > 0 ? places.pointed(corners, turn, -depth / 2, places.gapMiddle) : [] };
}

/** The inner corner of a bead, and which way it goes on along the duct from there: 1 away from the face. */
interface SeamPlace {
  readonly w: number;
  readonly u: number;
  readonly way: 1 | -1;
}

function seamAt(seam: Exclude<Seam, 'gap'>, i: number, { chosen, sizes }: Building): SeamPlace | undefined {
  const { base, collarWidth, outside, inset, stack, angle: frame } = sizes;
  const isProtected = outside > -inset;
  switch (seam) {
    case 'blanketToBoard':
      if (collarWidth === undefined || !isProtected) return undefined;
      // Where the blanket stands out beyond the board the seam is at the board's edge.
      return outside > base + collarWidth
        ? { w: stack, u: base + collarWidth, way: -1 }
        : { w: stack, u: outside, way: 1 };
    case 'boardToBarrier':
      return collarWidth === undefined ? undefined : { w: 0, u: base + collarWidth, way: 1 };
    case 'blanketToBarrier':
      if (!isProtected) return undefined;
      return { w: frame && outside < base + frame.leg ? frame.thickness : 0, u: outside, way: 1 };
    case 'ductToBarrier': {
      // Over an angle that stands already, at its end on the duct.
      const isOver = chosen.parts.slice(0, i).some((one) => one.part === 'angle' && isInCut(one, sizes.pair));
      return { w: isOver && frame ? frame.leg : 0, u: base, way: 1 };
    }
  }
}
