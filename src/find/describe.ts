/** From measured geometry to the facts of the report: world coordinates, rounded, unknown as null. */
import { refOf } from '../element-refs.js';
import { lowerRating } from '../fire-rating/index.js';
import type { Fit } from '../geometry/fit.js';
import { add } from '../geometry/vector.js';
import type {
  Barrier,
  BarrierFacts,
  DuctFacts,
  DuctSize,
  DuctWall,
  Federation,
  Gaps,
  HeadFacts,
  Penetration,
  Place,
  ProjectFacts,
  Side,
  Vec3,
} from '../model.js';
import type { BuildUp } from './build-up.js';
import { sizesAcross } from './crossing-section.js';
import { ratedLeaf, totalThickness } from './leaf.js';
import { type LeafStack, piecesOf } from './leaves.js';
import type { Measured, Neighbour } from './measure.js';
import type { NearestJoint } from './nearest-joint.js';
import type { Piece } from './pieces.js';
import type { Located } from './places.js';
import type { Plate } from './plates.js';
import { roundAngle, roundDirection, roundLength, roundPoint, roundPolygon } from './rounding.js';
import { treatmentOf } from './treatment.js';

export const world = ({ origin }: Federation, p: Vec3): Vec3 => roundPoint(add(p, origin));

const rounded = (mm: number | undefined): number | null => (mm === undefined ? null : roundLength(mm));

export function barrierFacts(
  barrier: Barrier,
  thickness: number | undefined,
  more: {
    readonly leaves?: readonly Barrier[];
    readonly built?: BuildUp;
    /** Thickness of this element alone. */
    readonly drawn?: number;
    readonly head?: HeadFacts | undefined;
  } = {},
): BarrierFacts {
  const { leaves = [], built, drawn = thickness, head } = more;
  const leaf = ratedLeaf(barrier, drawn);
  const boards = barrier.boards ?? null;
  return {
    ...refOf(barrier),
    name: barrier.name,
    kind: barrier.kind,
    storey: barrier.storey ?? null,
    thickness: rounded(thickness),
    leaves: leaves.map(refOf),
    drawnThickness: rounded(drawn),
    leafThickness: rounded(leaf.thickness),
    leafFrom: leaf.from,
    leafProblem: leaf.problem,
    buildUp: built?.parts ?? [],
    buildUpAlong: built?.along ?? null,
    boards: boards && built?.isReversed ? [boards[1], boards[0]] : boards,
    construction: barrier.construction,
    layers: barrier.layers,
    layersThickness: rounded(totalThickness(barrier.layers)),
    rating: leaves.reduce((rating, other) => lowerRating(rating, other.rating), barrier.rating),
    drawing: barrier.drawing ?? null,
    head: head ?? null,
    inferredFrom: null,
  };
}

export interface PenetrationParts<Service extends Neighbour> {
  readonly federation: Federation;
  readonly run: string | null;
  readonly joint: NearestJoint | undefined;
  readonly headGap: number | undefined;
  readonly facts: ProjectFacts | undefined;
  readonly id: string;
  readonly key: string;
  readonly tag: string;
  readonly stack: LeafStack;
  readonly dampers: Penetration['dampers'];
  readonly damperOutside: Penetration['damperOutside'];
  readonly barrier: BarrierFacts;
  readonly measured: Measured<Service>;
  readonly facing: { readonly [S in Side]?: string };
  readonly others: Penetration['others'];
  readonly neighbours: Penetration['neighbours'];
  readonly around: Penetration['around'];
  readonly placeFinder: (at: Located) => Place;
  readonly facesBeside: (rooms: Place['rooms']) => Penetration['faces'];
  readonly compartments: Penetration['compartments'];
}

export function describePenetration<Service extends Neighbour>(parts: PenetrationParts<Service>): Penetration {
  const { federation, stack, barrier, measured } = parts;
  const elements = piecesOf(stack).map((piece) => piece.element);
  const { frame } = stack.plate;
  const { opening } = measured;
  const storey = barrier.storey ?? measured.primary.element.storey ?? null;
  const place = parts.placeFinder({
    position: measured.position,
    normal: frame.z,
    thickness: stack.plate.thickness,
    storey,
  });
  return {
    id: parts.id,
    key: parts.key,
    tag: parts.tag,
    inferredFrom: null,
    crossing: stack.leaves[0].group.crossing,
    duct: { ...ductFacts(federation, measured, stack.plate), run: parts.run },
    elements: elements.map(refOf),
    dampers: parts.dampers,
    damperOutside: parts.damperOutside,
    barrier,
    opening: opening ? { ...opening, width: roundLength(opening.width), height: roundLength(opening.height) } : null,
    gaps: gapFacts(measured, parts.facing),
    gapsTo: measured.gapsTo,
    neighbours: parts.neighbours,
    others: parts.others,
    around: parts.around,
    jointDistance: rounded(parts.joint?.distance),
    jointFrom: parts.joint?.from ?? null,
    faces: parts.facesBeside(place.rooms),
    headGap: rounded(parts.headGap),
    skew: roundAngle(measured.skew),
    position: world(federation, measured.position),
    frame: { normal: roundDirection(frame.z), right: roundDirection(frame.x), up: roundDirection(frame.y) },
    outlines: {
      duct: measured.outlines.duct.map(roundPolygon),
      opening: measured.outlines.opening.map(roundPolygon),
    },
    storey,
    place,
    compartments: parts.compartments,
    treatment: treatmentOf(elements, parts.facts),
  };
}

function ductFacts<Service extends Neighbour>(
  federation: Federation,
  { primary, section }: Measured<Service>,
  plate: Plate,
): DuctFacts {
  const { element, straight, wall }: Piece = primary;
  const { width, height, diameter } = element.stated;
  const size = (fit: Fit | undefined): DuctSize | null =>
    fit && straight ? roundedSize(sizesAcross(fit, straight, plate)) : null;
  return {
    ...refOf(element),
    name: element.name,
    element: element.kind,
    shape: section.shape,
    width: rounded(section.width),
    height: rounded(section.height),
    diameter: rounded(section.diameter),
    sectionFrom: section.shape === 'unknown' ? null : section.from,
    sectionResidual: rounded(section.residual),
    sectionProblem: section.problem,
    wall: pick(wall),
    sizes: {
      inside: size(wall.sections.inside),
      sheet: size(wall.sections.sheet),
      insulation: size(wall.sections.insulation),
    },
    material: element.material,
    axis: straight ? [world(federation, straight.axis[0]), world(federation, straight.axis[1])] : null,
    run: null,
    system: element.system ?? null,
    systemType: element.systemType ?? null,
    systemNames: element.systemNames ?? [],
    properties: element.properties ?? [],
    ratings: element.ratings ?? { required: null, reached: null },
    stated: roundedSize({ width, height, diameter }),
  };
}

const roundedSize = (size: { readonly [K in keyof DuctSize]: number | undefined }): DuctSize => ({
  width: rounded(size.width),
  height: rounded(size.height),
  diameter: rounded(size.diameter),
});

const pick = ({ outline, evidence, sheet, insulation, lining }: DuctWall): DuctWall => ({
  outline,
  evidence,
  sheet,
  insulation,
  lining,
});

function gapFacts<Service extends Neighbour>({ gaps }: Measured<Service>, facing: Gaps['facing']): Gaps {
  const side = (name: Side) => rounded(gaps?.sides?.[name]);
  return {
    top: side('top'),
    bottom: side('bottom'),
    left: side('left'),
    right: side('right'),
    min: rounded(gaps?.min),
    max: rounded(gaps?.max),
    facing,
  };
}
