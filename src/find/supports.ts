/** Supports of ductwork: which elements are one support, what it carries where, what it hangs from. */
import { compareTexts, fileUnder, hasWord } from '../collect.js';
import { refOf, refsOf } from '../element-refs.js';
import { type Box, boxDistance, boxOf, grown } from '../geometry/box.js';
import { boxIndex } from '../geometry/box-index.js';
import { add, distance, dot, scale, sub } from '../geometry/vector.js';
import type {
  CarriedDuct,
  Federation,
  HangsFrom,
  Penetration,
  ProjectFacts,
  Run,
  Support,
  SupportsFound,
  Vec3,
} from '../model.js';
import { CONTACT, HANG_REACH, SLENDER, SUPPORT_PARTS, SUPPORT_REACH } from '../tolerances.js';
import { world } from './describe.js';
import { isUpright, sheetSection } from './part-measures.js';
import type { Piece } from './pieces.js';
import { roundLength } from './rounding.js';
import { type PlacedSupport, spansOf } from './support-spans.js';

export interface RunsAround {
  readonly runs: readonly Run[];
  readonly pieces: readonly Piece[];
  readonly runOf: ReadonlyMap<Piece['element'], string>;
  readonly penetrations: readonly Penetration[];
}

export function findSupports(
  federation: Federation,
  { runs, pieces, runOf, penetrations }: RunsAround,
  facts: ProjectFacts | undefined,
): SupportsFound {
  const inRuns = pieces.filter(({ element }) => runOf.has(element) && !element.isAccessPanel);
  const carriedIn = boxIndex(inRuns);
  const byPiece = new Map<Piece, PartOfSupport[]>();
  for (const support of federation.supports ?? []) {
    const box = boxOf(support.bodies);
    const piece = carriedBy(box, carriedIn(grown(box, SUPPORT_REACH)));
    if (piece) fileUnder(byPiece, piece, { support, box, along: alongOf(piece, box) });
  }
  const hangs = hangFinder(federation);
  const placed = [...byPiece].flatMap(([piece, parts]) =>
    together(parts).map((group) => placedSupport(federation, piece, runOf.get(piece.element)!, group, hangs)),
  );
  const ordered = placed.sort((a, b) => compareTexts(a.facts.id, b.facts.id));
  const walked = spansOf(runs, ordered, penetrations);
  return {
    ducts: inRuns.flatMap((piece) => carriedDuct(piece) ?? []),
    supports: ordered.map(({ facts: one }, i) => ({ ...one, carried: walked.carried[i]! })),
    spans: walked.spans,
    modelledRuns: runs.filter((run) => isModelled(run, facts?.supports)).map(({ id }) => id),
  };
}

function isModelled({ systems }: Run, declared: ProjectFacts['supports']): boolean {
  if (!declared?.modelled) return false;
  const named = declared.systems;
  return named === undefined || (systems.length > 0 && systems.every((system) => hasWord(system, named)));
}

interface PartOfSupport {
  readonly support: Support;
  readonly box: Box;
  /** Of its middle along the axis of what it carries, from where that begins. */
  readonly along: number;
}

/** The piece that it touches or lies nearest to; of several the one whose middle is nearest to its own. */
function carriedBy(box: Box, near: readonly Piece[]): Piece | undefined {
  const middle = middleOf(box);
  return near
    .filter(({ straight, box: of }) => straight !== undefined && boxDistance(box, of) <= SUPPORT_REACH)
    .map((piece) => ({ piece, off: distance(middle, onAxis(piece, middle)), clear: boxDistance(box, piece.box) }))
    .sort(
      (a, b) => a.clear - b.clear || a.off - b.off || compareTexts(a.piece.element.globalId, b.piece.element.globalId),
    )[0]?.piece;
}

const middleOf = ({ min, max }: Box): Vec3 => scale(add(min, max), 0.5);
const alongOf = ({ straight }: Piece, box: Box): number =>
  dot(sub(middleOf(box), straight!.axis[0]), straight!.direction);

function onAxis({ straight }: Piece, p: Vec3): Vec3 {
  const [from, to] = straight!.axis;
  const along = Math.max(0, Math.min(distance(from, to), dot(sub(p, from), straight!.direction)));
  return add(from, scale(straight!.direction, along));
}

/** Parts of one assembly, and what holds the duct at one place along it. */
function together(parts: readonly PartOfSupport[]): PartOfSupport[][] {
  const groups: PartOfSupport[][] = [];
  for (const part of [...parts].sort((a, b) => a.along - b.along)) {
    const { assembly } = part.support;
    const own = groups.find((group) =>
      group.some(
        (one) =>
          (assembly !== undefined && one.support.assembly === assembly) ||
          Math.abs(one.along - part.along) <= SUPPORT_PARTS,
      ),
    );
    if (own) own.push(part);
    else groups.push([part]);
  }
  return groups;
}

function placedSupport(
  federation: Federation,
  piece: Piece,
  run: string,
  group: readonly PartOfSupport[],
  hangsFrom: HangFinder,
): PlacedSupport {
  const boxes = group.map(({ box }) => box);
  const box: Box = {
    min: [0, 1, 2].map((i) => Math.min(...boxes.map(({ min }) => min[i]!))) as unknown as Vec3,
    max: [0, 1, 2].map((i) => Math.max(...boxes.map(({ max }) => max[i]!))) as unknown as Vec3,
  };
  const at = onAxis(piece, middleOf(box));
  const elements = refsOf(group.map(({ support }) => support));
  const [first] = [...group].sort((a, b) => compareTexts(a.support.globalId, b.support.globalId));
  const { axis, direction } = piece.straight!;
  return {
    facts: {
      id: elements[0]!.globalId,
      name: first!.support.name,
      elements,
      carries: refOf(piece.element),
      run,
      position: world(federation, at),
      rod: only(group.flatMap(({ support }) => support.rod ?? [])),
      bearer: only(group.flatMap(({ support }) => support.bearer ?? [])),
      rodLength: rodLength(group),
      hangsFrom: hangsFrom(box, isUpright(piece)),
    },
    at: world(federation, at),
    along: dot(sub(at, axis[0]), direction),
  };
}

/** What all of them say; parts that say different things say nothing. */
const only = <T extends string>(said: readonly T[]): T | null => (new Set(said).size === 1 ? said[0]! : null);

function rodLength(group: readonly PartOfSupport[]): number | null {
  const heights = group
    .flatMap(({ support }) => support.bodies.map((body) => boxOf([body])))
    .map(({ min, max }) => ({ high: max[2] - min[2], wide: Math.max(max[0] - min[0], max[1] - min[1]) }))
    .filter(({ high, wide }) => high >= SLENDER * wide)
    .map(({ high }) => high);
  return heights.length > 0 ? roundLength(Math.max(...heights)) : null;
}

type HangFinder = (box: Box, isUpright: boolean) => HangsFrom | null;

/** The nearest body over the top of a support, or under its foot where the duct stands on it. */
function hangFinder({ barriers, obstacles = [] }: Federation): HangFinder {
  const carriers = obstacles.flatMap(({ carries, ...element }) => (carries ? [{ ...element, ...carries }] : []));
  const all = [...barriers, ...carriers].flatMap((element) =>
    element.bodies.map((body) => ({ element, box: boxOf([body]) })),
  );
  const near = boxIndex(all);
  return ({ min, max }, isUpright) => {
    const edge = isUpright ? min[2] : max[2];
    const reach: Box = { min: [min[0], min[1], edge - HANG_REACH], max: [max[0], max[1], edge + HANG_REACH] };
    const offOf = ({ box }: { readonly box: Box }): number => Math.abs((isUpright ? box.max[2] : box.min[2]) - edge);
    const [found] = near(reach)
      .filter(({ box }) => (isUpright ? box.min[2] < edge - CONTACT : box.max[2] > edge + CONTACT))
      .sort((a, b) => offOf(a) - offOf(b) || compareTexts(a.element.globalId, b.element.globalId));
    if (!found) return null;
    const { element } = found;
    const { name, kind, construction, rating } = element;
    return { ...refOf(element), name, kind, construction, rating };
  };
}

function carriedDuct(piece: Piece): CarriedDuct | undefined {
  const { element, wall } = piece;
  const section = sheetSection(piece);
  if (!section) return undefined;
  return {
    ...refOf(element),
    name: element.name,
    ...section,
    way: isUpright(piece) ? 'upright' : 'level',
    sheet: wall.sheet,
    insulation: wall.insulation,
    material: element.material,
  };
}
