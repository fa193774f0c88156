/**
 * What the chosen detail builds at one penetration, in the sizes and places of its section drawing: each outline of the
 * drawing is carried round the duct. Angles that do not go round have mitred ends. Round a duct that is askew all of it leans
 * with the duct.
 */
import { type Built, builtIn } from '../../draw/paper/section/built.js';
import { type Cut, through } from '../../draw/paper/section/cut.js';
import { depthBefore } from '../../draw/paper/section/sizes.js';
import { shared, without } from '../../geometry/areas.js';
import { type Fit, fitShape } from '../../geometry/fit.js';
import { add, dot, scale, sub } from '../../geometry/vector.js';
import type { BuiltPart, Polygon, Vec2, Vec3 } from '../../model.js';
import type { ReportPenetration } from '../../report/schema.js';
import type { ProtectionExtras } from '../geometry-extras.js';
import type { GeometryNode } from '../geometry-nodes.js';
import type { Triangles } from '../triangulate.js';
import { edgeWay, ringOf } from './rings.js';
import { plate, swept } from './solids.js';

const PAIRS = ['top and bottom', 'left and right'] as const;
type Pair = (typeof PAIRS)[number];
/** -1: the one that the normal comes from. */
export type FaceOf = -1 | 1;

/** How thick what lies on a face of the barrier is: there the protection along the duct begins. */
export function stackOn(p: ReportPenetration, face: FaceOf): number {
  const { chosen } = p.treatment;
  if (!chosen || !builtFaces(p).includes(face)) return 0;
  return Math.max(...PAIRS.map((pair) => depthBefore(chosen.parts, chosen.parts.length, pair)));
}

/** Of the barrier, whichever way the drawing looks. */
function builtFaces(p: ReportPenetration): FaceOf[] {
  const cut = through(p, 'top and bottom');
  return builtIn(p, cut).faces.map((face) => (face * cut.sense) as FaceOf);
}

/** The drawing cut through both pairs of sides, of the duct as if it were square. */
type Sections = { readonly [P in Pair]: { readonly cut: Cut; readonly built: Built } };

const sectionsOf = (p: ReportPenetration): Sections => {
  const [first, second] = PAIRS.map((pair) => {
    const cut: Cut = { ...through(p, pair), slope: 0 };
    return { cut, built: builtIn(p, cut) };
  });
  return { 'top and bottom': first!, 'left and right': second! };
};

export interface Opened {
  /** Of others that pass the same opening, in the frame of this penetration. */
  readonly beside: readonly Polygon[];
  /** Whether what fills the opening belongs to another of them. */
  readonly isFilled: boolean;
}

export function builtAtPenetration(
  p: ReportPenetration,
  origin: Vec3,
  opened: Opened,
): GeometryNode<ProtectionExtras>[] {
  const { chosen } = p.treatment;
  const [outline] = p.outlines.duct;
  const fit = outline && fitShape(outline);
  if (!chosen || !fit || fit.shape === 'unknown') return [];
  const place = placeOf(p, origin);
  const [frames, fills] = [withSeams(p, (seam) => seam !== 'gap'), withSeams(p, (seam) => seam === 'gap')].map(
    sectionsOf,
  );
  const shapesOf = (part: BuiltPart, i: number): Triangles[] => {
    if (part.part === 'packing') return opened.isFilled ? [] : filled(p, fit, fills!, i, place, opened);
    const round = framed(fit, frames!, part, i, place);
    const seal = part.part === 'sealant' && !opened.isFilled ? filled(p, fit, fills!, i, place, opened) : [];
    return [...round, ...seal];
  };
  return chosen.parts.flatMap((part, i) =>
    shapesOf(part, i).map((shape): GeometryNode<ProtectionExtras> => {
      const about = { run: p.duct.run, penetration: p.id, element: null, storey: p.storey?.globalId ?? null };
      const tested = { testedSystem: chosen.system, status: chosen.status };
      const layer = part.part === 'localBuildUp' ? (chosen.layers ?? 0) + 1 : 1;
      const extras = { kind: 'protection', part: part.part, ...about, ...tested, layer } as const;
      return { name: `${part.part} at ${p.tag}`, extras, shape, surface: part.part };
    }),
  );
}

/** Beads whose size nobody knows are left out. */
function withSeams(p: ReportPenetration, keeps: (seam: string) => boolean): ReportPenetration {
  const chosen = p.treatment.chosen!;
  const parts = chosen.parts.map((part): BuiltPart => {
    if (part.part !== 'sealant') return part;
    const isKnown = part.depth !== null || part.width !== null;
    return { ...part, at: isKnown ? part.at.filter(keeps) : [] };
  });
  return { ...p, treatment: { ...p.treatment, chosen: { ...chosen, parts } } };
}

/** From millimetres right and up of the duct's middle and along the normal to inner coordinates. */
type Place = (at: Vec2, along: number, leans?: boolean) => Vec3;

function placeOf({ position, frame, duct, skew }: ReportPenetration, origin: Vec3): Place {
  const { right, up, normal } = frame;
  const way = skew !== 0 && duct.axis ? sub(duct.axis[1], duct.axis[0]) : normal;
  const advance = dot(way, normal);
  const lean: Vec2 = Math.abs(advance) < LEAST_ADVANCE ? [0, 0] : [dot(way, right) / advance, dot(way, up) / advance];
  const middle = sub(position, origin);
  return ([x, y], along, leans = true) => {
    const [dx, dy] = leans ? [lean[0] * along, lean[1] * along] : [0, 0];
    return add(add(middle, scale(normal, along)), add(scale(right, x + dx), scale(up, y + dy)));
  };
}

/** Of an axis in millimetres: one that lies in the barrier leans nowhere. */
const LEAST_ADVANCE = 1e-6;

/** Outlines of one part in the cut, along the normal and outwards from the duct, on the higher side of it. */
function profilesOf({ cut, built }: Sections[Pair], part: number): Polygon[] {
  const { duct, sense } = cut;
  if (!duct) return [];
  const middle = (duct[0] + duct[1]) / 2;
  return built.drawn
    .filter((drawn) => drawn.part === part)
    .flatMap(({ shapes }) => shapes)
    .filter(({ outline }) => outline.reduce((sum, [, across]) => sum + across, 0) / outline.length > middle)
    .map(({ outline }) => outline.map(([along, across]): Vec2 => [along * sense, across - duct[1]]));
}

/** What goes round the duct: angles, collars, build-ups, beads. */
function framed(fit: Fit, sections: Sections, part: BuiltPart, i: number, place: Place): Triangles[] {
  const profiles = PAIRS.map((pair) => profilesOf(sections[pair], i));
  if (fit.shape !== 'rectangular') {
    const own = profiles.find((one) => one.length > 0) ?? [];
    return own.flatMap(
      (profile) =>
        (part.part === 'boardCollar' ? squareOutside(fit, profile, place) : round(fit, profile, place)) ?? [],
    );
  }
  const ring = ringOf(fit, { by: 0 });
  const goesOn = (edge: number): Pair => {
    const [x, y] = edgeWay(ring, edge);
    return Math.abs(y) >= Math.abs(x) ? 'top and bottom' : 'left and right';
  };
  const [upright, level] = profiles as [Polygon[], Polygon[]];
  // Where both cuts show the same it goes round without a joint.
  if (JSON.stringify(upright) === JSON.stringify(level)) return upright.flatMap((one) => round(fit, one, place) ?? []);
  return PAIRS.flatMap((pair, n) =>
    profiles[n]!.flatMap((profile) => round(fit, profile, place, (edge) => goesOn(edge) === pair) ?? []),
  );
}

function round(fit: Fit, profile: Polygon, place: Place, goesAlong: (edge: number) => boolean = () => true) {
  const rings = new Map(profile.map(([, u]) => [u, ringOf(fit, { by: u })]));
  const [first] = rings.values();
  return swept({
    ...{ profile, goesAlong, corners: first!.length },
    place: ([along, u], corner) => place(rings.get(u)![corner]!, along),
  });
}

/** Of boards round a duct that is not rectangular, cut out round it. */
function squareOutside(fit: Fit, profile: Polygon, place: Place): Triangles | null {
  const [along, off] = [profile.map(([w]) => w), profile.map(([, u]) => u)];
  const ends = [Math.min(...along), Math.max(...along)] as const;
  const outside = ringOf({ ...fit, shape: 'rectangular' }, { by: Math.max(...off) });
  const area = without([outside], [ringOf(fit, { by: Math.min(...off) })]);
  return plate(area, (p, end) => place(p, ends[end]));
}

/** What fills the gap between the duct and the opening, as deep as the cut shows it. */
function filled(
  p: ReportPenetration,
  fit: Fit,
  sections: Sections,
  i: number,
  place: Place,
  { beside }: Opened,
): Triangles[] {
  const depths = new Map<string, readonly [number, number]>();
  for (const pair of PAIRS)
    for (const profile of profilesOf(sections[pair], i)) {
      const along = profile.map(([w]) => w);
      const ends = [Math.min(...along), Math.max(...along)] as const;
      depths.set(ends.join(), ends);
    }
  const { base } = sections['top and bottom'].built;
  const openings = shared(p.outlines.opening, p.outlines.opening);
  const area = without(openings, [ringOf(fit, { by: base }), ...beside]);
  return [...depths.values()].flatMap((ends) => plate(area, (at, end) => place(at, ends[end], false)) ?? []);
}
