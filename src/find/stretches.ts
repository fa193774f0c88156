/** The stretches of duct runs: what is joined between one barrier that may be rated and the next. */

import { compareTexts, fileUnder } from '../collect.js';
import { refOf, refsOf } from '../element-refs.js';
import { distance, lerp } from '../geometry/vector.js';
import { groupsJoined } from '../joined.js';
import type { Clearance, DuctProtection, Federation, PartMeasures, Stretch, StretchPart, Vec3 } from '../model.js';
import { JOINT } from '../tolerances.js';
import type { CutPieces, Section } from './cut-pieces.js';
import { world } from './describe.js';
import type { PieceJoint } from './joints.js';
import { closesDuct, measuresOf } from './part-measures.js';
import type { Piece } from './pieces.js';
import { roundArea, roundLength } from './rounding.js';

export interface StretchSurroundings {
  readonly federation: Federation;
  readonly cut: CutPieces;
  readonly placeAt: (p: Vec3) => { readonly id: string | null; readonly outside: boolean | null };
  readonly protectionOf: (piece: Piece) => DuctProtection;
  readonly clearancesOf: (sections: readonly Section[]) => Clearance[];
}

/** Before the run has its id; in the order of their first elements. */
export type UnnamedStretch = Omit<Stretch, 'id'>;

/** Air goes in or out here, or is treated: what comes behind is another run. */
export const endsRun = ({ element: { kind } }: Piece): boolean => kind === 'terminal' || kind === 'equipment';

/** @param joints those of the run, also with what it serves */
export function stretchesOf(
  run: readonly Piece[],
  joints: readonly PieceJoint[],
  around: StretchSurroundings,
): UnnamedStretch[] {
  const { cut } = around;
  const pairs = joints
    .filter(({ pieces }) => !pieces.some(endsRun))
    .map(({ pieces: [a, b], at }) => [cut.at(a, at), cut.at(b, at)] as const);
  const joinedTo = new Map<Section, Section[]>();
  for (const [a, b] of pairs) {
    fileUnder(joinedTo, a, b);
    fileUnder(joinedTo, b, a);
  }
  const sections = run.flatMap((piece) => cut.of(piece));
  return groupsJoined(sections, pairs)
    .map((members) => describe([...members].sort(inOrder), joinedTo, around))
    .sort((a, b) => compareTexts(placeInOrder(a), placeInOrder(b)));
}

function describe(
  sections: readonly Section[],
  joinedTo: ReadonlyMap<Section, readonly Section[]>,
  { federation, cut, placeAt, protectionOf, clearancesOf }: StretchSurroundings,
): UnnamedStretch {
  const indexOf = new Map(sections.map((section, i) => [section, i]));
  const places = sections.map(({ ends }) => placeAt(lerp(...ends, 0.5)));
  const parts = sections.map((section, i): StretchPart => {
    const { piece, ends } = section;
    const protection = protectionOf(piece);
    return {
      ...refOf(piece.element),
      name: piece.element.name,
      storey: piece.element.storey?.globalId ?? null,
      element: piece.element.kind,
      from: world(federation, ends[0]),
      to: world(federation, ends[1]),
      length: roundLength(distance(...ends)),
      outside: places[i]!.outside,
      joins: [...new Set((joinedTo.get(section) ?? []).map((other) => indexOf.get(other)!))].sort((a, b) => a - b),
      protection,
      // Of what is bare nothing has to be counted.
      measures: isProtected(protection) ? measuresIn(section, cut) : null,
    };
  });
  const joints = sections.map((section) => cut.joints(section));
  return {
    compartment: compartmentOf(parts, places),
    outside: allSay(parts.map((part) => part.outside)),
    parts,
    ends: sections.flatMap(({ penetrations }, part) => penetrations.map((penetration) => ({ penetration, part }))),
    serves: refsOf(joints.flat().flatMap(({ pieces }) => pieces.filter(endsRun).map(({ element }) => element))),
    looseEnds: sections
      .flatMap((section, i) => openPlaces(section.piece, joints[i]!).filter((at) => cut.isOn(section, at)))
      .map((at) => world(federation, at)),
    length: roundLength(parts.reduce((sum, { length }) => sum + length, 0)),
    // In the open nothing has to be protected.
    clearances: clearancesOf(sections.filter((_, i) => places[i]!.outside !== true)),
  };
}

const isProtected = ({ kind }: DuctProtection): boolean => kind !== 'none' && kind !== 'unknown';

/** Of what is cut by barriers each part has its share of the surface by its length. */
function measuresIn(section: Section, cut: CutPieces): PartMeasures {
  const { piece, ends } = section;
  const measures = measuresOf(piece, cut.allJoints(piece));
  const all = cut.of(piece);
  const whole = all.reduce((sum, one) => sum + distance(...one.ends), 0);
  const share = whole > 0 ? distance(...ends) / whole : 1 / all.length;
  const { surfaceM2 } = measures;
  return {
    ...measures,
    surfaceM2: surfaceM2 === null ? null : roundArea(surfaceM2 * share),
    inBarrier: roundLength(cut.inBarriers(section)),
  };
}

/** That of its longest part that lies in one: what is short may stand in a barrier. */
function compartmentOf(
  parts: readonly StretchPart[],
  places: readonly { readonly id: string | null }[],
): string | null {
  const longest = parts
    .map(({ length }, i) => ({ length, id: places[i]!.id }))
    .filter(({ id }) => id !== null)
    .sort((a, b) => b.length - a.length)[0];
  return longest?.id ?? null;
}

const allSay = (answers: readonly (boolean | null)[]): boolean | null =>
  answers.includes(false) ? false : answers.includes(null) ? null : true;

/** Ends of a straight piece and ports of any other where nothing joins. A piece with one port, or a cap, closes the end. */
export function openPlaces(piece: Piece, joints: readonly PieceJoint[]): Vec3[] {
  if (closesDuct(piece)) return [];
  const { straight, element } = piece;
  const ends = straight ? straight.axis : element.ports.map(({ at }) => at);
  return ends.filter((end) => joints.every(({ at }) => distance(at, end) > JOINT));
}

const inOrder = (a: Section, b: Section): number =>
  compareTexts(a.piece.element.globalId, b.piece.element.globalId) ||
  compareTexts(a.piece.element.model, b.piece.element.model) ||
  compareTexts(a.key, b.key);

/** Two stretches may begin with the same element, on either side of a barrier; then the place decides. */
const placeInOrder = ({ parts: [first] }: UnnamedStretch): string =>
  JSON.stringify([first!.globalId, first!.model, first!.from, first!.to]);
