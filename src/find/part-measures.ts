/** What of a piece of ductwork has to be known to count what goes round it: the outside of its sheet. */
import { hasWord } from '../collect.js';
import type { Fit } from '../geometry/fit.js';
import { fromPlane } from '../geometry/frame.js';
import { solidsOf } from '../geometry/mesh.js';
import { type NoSurface, type OuterSurface, outerSurface } from '../geometry/outer-surface.js';
import { distance, lineAngle, Z } from '../geometry/vector.js';
import type { DuctSection, DuctWall, PartMeasures, Vec3 } from '../model.js';
import { JOINT, UPRIGHT } from '../tolerances.js';
import type { PieceJoint } from './joints.js';
import type { Piece } from './pieces.js';
import { roundArea, roundLength } from './rounding.js';
import { sectionDirections } from './straight.js';

/** What the pieces are called that close ducts. Common practice, no source. */
const CAPS = ['end cap', 'endcap', 'blank', 'enddeckel', 'bouchon'];

/** It has one end, or is called a cap. */
export const closesDuct = ({ element }: Piece): boolean =>
  element.kind === 'fitting' && (element.ports.length === 1 || hasWord(element.name, CAPS));

export const isUpright = ({ straight }: Piece): boolean => lineAngle(straight!.direction, Z) < 90 - UPRIGHT;

/** Level across the duct, and square to that; of an upright duct its two sides. Undefined: its section is not known. */
export function sheetSection({ straight, wall }: Piece): DuctSection | undefined {
  const fit = wall.sections.sheet;
  if (!straight || !fit || fit.shape === 'unknown') return undefined;
  const [long, short] = sectionDirections({
    fit,
    plane: { ...straight.plane, origin: fromPlane(straight.plane, fit.centre) },
  });
  // The side that lies flatter is the width.
  return sectionOf(fit, Math.abs(long[2]) <= Math.abs(short[2]));
}

function sectionOf({ shape, length, breadth }: Fit, isLongLevel = true): DuctSection {
  const round = shape === 'circular';
  const [width, height] = isLongLevel ? [length, breadth] : [breadth, length];
  return {
    shape: shape === 'unknown' ? 'rectangular' : shape,
    width: round ? null : roundLength(width),
    height: round ? null : roundLength(height),
    diameter: round ? roundLength(length) : null,
  };
}

/** Of a piece as a whole: what lies in one stretch of it has a share of the surface. */
export type PieceMeasures = Omit<PartMeasures, 'inBarrier'>;

/** @param joints those of the piece */
export function measuresOf(piece: Piece, joints: readonly PieceJoint[]): PieceMeasures {
  const { straight, wall } = piece;
  const { insulation } = wall;
  const nothing = { section: null, way: null, ends: [], surfaceM2: null, insulation };
  if (wall.outline === 'unknown') return { ...nothing, unknown: wall.evidence };
  if (straight) {
    const section = sheetSection(piece) ?? null;
    const unknown = section ? null : sectionUnknown(wall);
    return { ...nothing, section, way: isUpright(piece) ? 'upright' : 'level', unknown };
  }
  const surface = surfaceOf(piece, joints);
  if (typeof surface === 'string') return { ...nothing, unknown: surface };
  return {
    ...nothing,
    ends: surface.ends.filter(({ shape }) => shape !== 'unknown').map((fit) => sectionOf(fit)),
    surfaceM2: roundArea(surface.area * 1e-6),
    unknown: null,
  };
}

const sectionUnknown = ({ outline }: DuctWall): string =>
  outline === 'insulation'
    ? 'how far its sheet lies within the insulation that it is drawn with can not be told'
    : 'its section is no rectangle, circle or flat oval';

const WHY: { readonly [W in NoSurface]: string } = {
  open: 'its surface is drawn with gaps',
  end: 'no flat face is drawn at one of its ends',
  parts: 'what it is drawn as does not hang together',
};

/** Its outside, or in words why that is not known. Flanges and the like reach from none of its ends to the others. */
function surfaceOf(piece: Piece, joints: readonly PieceJoint[]): OuterSurface | string {
  const solids = piece.bodies.flatMap(solidsOf);
  const ends = endsOf(piece, joints);
  if (ends.length < (closesDuct(piece) ? 1 : 2)) return 'where its ends are is not known: too few ports and joints';
  const found = solids.map((solid) => outerSurface(solid, ends, JOINT));
  const whole = found.filter((one) => typeof one !== 'string');
  if (whole.length === 1) return whole[0]!;
  if (solids.length === 1) return WHY[found[0] as NoSurface];
  return `it is drawn as ${solids.length} bodies, and nothing says which of them is its outside`;
}

/** Where its ports are, and where it is joined beside them. */
function endsOf(piece: Piece, joints: readonly PieceJoint[]) {
  const places: Vec3[] = [];
  for (const at of [...piece.element.ports.map((port) => port.at), ...joints.map((joint) => joint.at)])
    if (places.every((known) => distance(known, at) > JOINT)) places.push(at);
  return places.map((at) => {
    const joint = joints.find((one) => distance(one.at, at) <= JOINT);
    const other = joint?.pieces.find(({ element }) => element !== piece.element);
    return { at, joined: other?.straight ? sectionArea(other.straight.fit) : undefined };
  });
}

/** mm². */
function sectionArea({ shape, length, breadth }: Fit): number {
  if (shape === 'circular' || shape === 'oval') return (Math.PI / 4) * breadth ** 2 + (length - breadth) * breadth;
  return length * breadth;
}
