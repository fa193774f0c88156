/** Random situations: one duct or run that passes barriers, with a fault or several that geometry can mend. */
import { bendLeg } from '../../fixtures/builder/fittings.js';
import type { Vec3 } from '../../fixtures/vectors.js';
import type { PieceSpec, Scene } from './scene.js';

/** Mulberry32: small, seeded, the same on every machine. */
export function randomFrom(seed: number) {
  let state = seed >>> 0;
  const next = (): number => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
  return {
    whole: (from: number, to: number): number => from + Math.floor(next() * (to - from + 1)),
    /** In tenths, so that whole millimetres are seldom enough by themselves. */
    tenths: (from: number, to: number): number => Math.round((from + next() * (to - from)) * 10) / 10,
    pick: <T>(list: readonly T[]): T => list[Math.floor(next() * list.length)]!,
    chance: (share: number): boolean => next() < share,
  };
}
export type Random = ReturnType<typeof randomFrom>;

export interface Situation {
  readonly kind: (typeof KINDS)[number];
  readonly scene: Scene;
}

export const KINDS = [
  'gaps',
  'roundInRound',
  'roundInSquare',
  'separation',
  'room',
  'face',
  'missing',
  'bends',
  'riser',
  'damper',
  'hole',
] as const;

const STUDS = { thickness: 128, layers: studs(32) };
const WALLS = [
  STUDS,
  { thickness: 92, layers: studs(14) },
  { thickness: 190, layers: [{ material: 'Concrete blocks', thickness: 190 }] },
  { thickness: 200, layers: [{ material: 'Reinforced concrete', thickness: 200 }] },
] as const;

function studs(lining: number) {
  return [
    { material: 'Plasterboard lining', thickness: lining },
    { material: 'Steel studs', thickness: 64 },
    { material: 'Plasterboard lining', thickness: lining },
  ];
}

const SPACING = 20_000;
const id = (i: number, what: string): string => `S${i}_${what}`.padEnd(22, '0');
const placed = (i: number): Vec3 => [i * SPACING, 0, 0];
const at = ([x, y, z]: Vec3, dx: number, dy: number, dz: number): Vec3 => [x + dx, y + dy, z + dz];

export function situation(kind: Situation['kind'], i: number, random: Random): Situation {
  const draw = {
    gaps: withGaps,
    roundInRound,
    roundInSquare,
    separation,
    room,
    face,
    missing,
    bends,
    riser,
    damper,
    hole,
  }[kind];
  return { kind, scene: draw(i, placed(i), random) };
}

interface Gaps {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

const good = (random: Random): number => random.tenths(11, 49);
const tight = (random: Random): number => random.tenths(-5, 9);
const wide = (random: Random): number => random.tenths(52, 140);

/** One to four of them are out of range. */
function faulty(random: Random): Gaps {
  const gap = (isBad: boolean) => (isBad ? (random.chance(0.5) ? tight(random) : wide(random)) : good(random));
  const first = random.whole(0, 3);
  const bad = [0, 1, 2, 3].map((k) => k === first || random.chance(0.3));
  return { left: gap(bad[0]!), right: gap(bad[1]!), top: gap(bad[2]!), bottom: gap(bad[3]!) };
}
const inRange = (random: Random): Gaps => ({
  ...{ left: good(random), right: good(random), top: good(random), bottom: good(random) },
});

interface Rect {
  readonly width: number;
  readonly height: number;
}
const rect = (random: Random): Rect => ({ width: 50 * random.whole(4, 16), height: 50 * random.whole(4, 10) });

const openingIn = (globalId: string, duct: Vec3, { width, height }: Rect, gaps: Gaps) => ({
  globalId,
  centre: at(duct, (gaps.right - gaps.left) / 2, 0, (gaps.top - gaps.bottom) / 2),
  width: width + gaps.left + gaps.right,
  height: height + gaps.top + gaps.bottom,
});

const DX = { system: 'DX', material: 'Galvanised steel', ports: true } as const;

const piece = (i: number, what: string, from: Vec3, to: Vec3, size: Rect | { diameter: number }): PieceSpec => ({
  ...{ as: 'duct', globalId: id(i, what), name: `${what} ${i}`, from, to, ...size, ...DX },
});

/** Along x, its middle at the place of the situation; seen along +y, so that right is +x. */
function wallAt(
  i: number,
  middle: Vec3,
  random: Random,
  openings: Scene['barriers'][number]['openings'],
  what = 'wall',
) {
  const [x, y] = middle;
  const spec = {
    ...random.pick(WALLS),
    ...{ globalId: id(i, what), name: `${what} ${i}`, rating: random.pick(['-/60/60', '-/120/120']), height: 4500 },
    ...{ from: [x - 4000, y] as const, to: [x + 4000, y] as const },
  };
  return { spec, openings, right: [1, 0, 0] as Vec3, up: [0, 0, 1] as Vec3 };
}

const HEIGHT = 2500;
const through = (middle: Vec3): [Vec3, Vec3] => [at(middle, 0, -2000, HEIGHT), at(middle, 0, 2000, HEIGHT)];

function straight(i: number, o: Vec3, random: Random, gaps: Gaps, size: Rect): Scene {
  const opening = openingIn(id(i, 'opening'), at(o, 0, 0, HEIGHT), size, gaps);
  return {
    barriers: [wallAt(i, o, random, [opening])],
    pieces: [piece(i, 'duct', ...through(o), size)],
    bends: [],
    chains: [],
  };
}

const withGaps = (i: number, o: Vec3, random: Random): Scene => straight(i, o, random, faulty(random), rect(random));

function roundInRound(i: number, o: Vec3, random: Random): Scene {
  const diameter = 25 * random.whole(6, 24);
  const clear = random.chance(0.5) ? random.tenths(15, 45) : random.tenths(4, 90);
  const off = [random.tenths(-30, 30), random.tenths(-30, 30)] as const;
  const opening = {
    globalId: id(i, 'opening'),
    centre: at(o, off[0], 0, HEIGHT + off[1]),
    diameter: diameter + 2 * clear,
  };
  return {
    barriers: [wallAt(i, o, random, [opening])],
    pieces: [piece(i, 'duct', ...through(o), { diameter })],
    bends: [],
    chains: [],
  };
}

function roundInSquare(i: number, o: Vec3, random: Random): Scene {
  const diameter = 10 * random.whole(10, 30);
  const gaps = random.chance(0.5) ? faulty(random) : { ...inRange(random), top: random.tenths(40, 60) };
  const opening = openingIn(id(i, 'opening'), at(o, 0, 0, HEIGHT), { width: diameter, height: diameter }, gaps);
  return {
    barriers: [wallAt(i, o, random, [opening])],
    pieces: [piece(i, 'duct', ...through(o), { diameter })],
    bends: [],
    chains: [],
  };
}

/** Two ducts with an opening each, too near to each other. */
function separation(i: number, o: Vec3, random: Random): Scene {
  const [one, two] = [rect(random), rect(random)];
  const apart = random.tenths(110, 195);
  const aside = one.width / 2 + two.width / 2 + apart;
  const beside = at(o, aside, 0, random.tenths(-40, 40));
  return {
    barriers: [
      wallAt(i, o, random, [
        openingIn(id(i, 'opening'), at(o, 0, 0, HEIGHT), one, inRange(random)),
        openingIn(id(i, 'beside'), at(beside, 0, 0, HEIGHT), two, inRange(random)),
      ]),
    ],
    pieces: [piece(i, 'duct', ...through(o), one), piece(i, 'second', ...through(beside), two)],
    bends: [],
    chains: [],
  };
}

/** A pipe or a tray along the duct, over it, under it or beside it. */
function room(i: number, o: Vec3, random: Random): Scene {
  const size = rect(random);
  const scene = straight(i, o, random, inRange(random), size);
  const apart = random.tenths(70, 140);
  const [side, way] = [random.pick([0, 1]), random.pick([1, -1])];
  const half = 50;
  const dx = side === 0 ? way * (size.width / 2 + apart + half) : 0;
  const dz = side === 1 ? way * (size.height / 2 + apart + half) : 0;
  const pipe: PieceSpec = {
    ...{ as: 'pipe', globalId: id(i, 'pipe'), name: `pipe ${i}`, diameter: 2 * half },
    ...{ from: at(o, dx, 700, HEIGHT + dz), to: at(o, dx, 1700, HEIGHT + dz) },
  };
  return { ...scene, pieces: [...scene.pieces, pipe] };
}

/** A pipe across the duct close before the wall, where the collar is built. */
function face(i: number, o: Vec3, random: Random): Scene {
  const size = rect(random);
  const scene = straight(i, o, random, inRange(random), size);
  const half = 15;
  const dx = random.pick([1, -1]) * (size.width / 2 + random.tenths(55, 95) + half);
  const dy = -(scene.barriers[0]!.spec.thickness / 2 + half + 6);
  const pipe: PieceSpec = {
    ...{ as: 'pipe', globalId: id(i, 'pipe'), name: `pipe ${i}`, diameter: 2 * half },
    ...{ from: at(o, dx, dy, 200), to: at(o, dx, dy, 4300) },
  };
  return { ...scene, pieces: [...scene.pieces, pipe] };
}

function missing(i: number, o: Vec3, random: Random): Scene {
  const size = random.chance(0.7) ? rect(random) : { diameter: 25 * random.whole(6, 20) };
  return {
    barriers: [wallAt(i, o, random, [])],
    pieces: [piece(i, 'duct', ...through(o), size)],
    bends: [],
    chains: [],
  };
}

/** Through one wall, round a bend and on through a second one that stands square to the first. */
function bends(i: number, o: Vec3, random: Random): Scene {
  const size = { width: 300, height: 250 };
  const radius = 350;
  const corner = at(o, 0, 2200, HEIGHT);
  const leg = bendLeg([0, 1, 0], [1, 0, 0], radius);
  const far = at(o, 5000, 2200, HEIGHT);
  const second = at(o, 2600, 2200, 0);
  const gaps = faulty(random);
  const after = inRange(random);
  const wall = wallAt(i, o, random, [openingIn(id(i, 'opening'), at(o, 0, 0, HEIGHT), size, gaps)]);
  const [x, y] = second;
  const square = {
    ...random.pick(WALLS),
    ...{ globalId: id(i, 'second'), name: `second wall ${i}`, rating: '-/60/60', height: 4500 },
    ...{ from: [x, y - 1200] as const, to: [x, y + 4000] as const },
  };
  const opening = {
    globalId: id(i, 'opening2'),
    // Seen along +x, right is -y.
    centre: at(second, 0, -(after.right - after.left) / 2, HEIGHT + (after.top - after.bottom) / 2),
    width: size.width + after.left + after.right,
    height: size.height + after.top + after.bottom,
  };
  const end: PieceSpec = {
    ...piece(i, 'end', far, at(far, 900, 0, 0), size),
    as: random.pick(['duct', 'terminal', 'flexibleDuct']),
  };
  return {
    barriers: [wall, { spec: square, openings: [opening], right: [0, -1, 0], up: [0, 0, 1] }],
    pieces: [
      piece(i, 'duct', at(o, 0, -2000, HEIGHT), at(corner, 0, -leg, 0), size),
      piece(i, 'crossing', at(corner, leg, 0, 0), far, size),
      end,
    ],
    bends: [
      {
        ...{ globalId: id(i, 'bend'), name: `bend ${i}`, system: 'DX', material: 'Galvanised steel', ...size },
        ...{ corner, incoming: [0, 1, 0], outgoing: [1, 0, 0], radius },
      },
    ],
    chains: [[id(i, 'duct'), id(i, 'bend'), id(i, 'crossing'), end.globalId]],
  };
}

/** An upright duct through a concrete floor; on plan right is +x and up is +y. */
function riser(i: number, o: Vec3, random: Random): Scene {
  const size = rect(random);
  const gaps = faulty(random);
  const top = 3000;
  const spec = {
    ...{ globalId: id(i, 'floor'), name: `floor ${i}`, rating: '120/120/120', thickness: 200, top },
    outline: [
      [o[0] - 4000, o[1] - 4000],
      [o[0] + 4000, o[1] - 4000],
      [o[0] + 4000, o[1] + 4000],
      [o[0] - 4000, o[1] + 4000],
    ] as const,
    layers: [{ material: 'Reinforced concrete', thickness: 200 }],
  };
  const opening = {
    globalId: id(i, 'opening'),
    centre: at(o, (gaps.right - gaps.left) / 2, (gaps.top - gaps.bottom) / 2, top - 100),
    width: size.width + gaps.left + gaps.right,
    height: size.height + gaps.top + gaps.bottom,
  };
  return {
    barriers: [{ spec, openings: [opening], right: [1, 0, 0], up: [0, 1, 0] }],
    pieces: [piece(i, 'duct', at(o, 0, 0, 700), at(o, 0, 0, 5000), size)],
    bends: [],
    chains: [],
  };
}

/** A duct, a damper in the wall and a duct; all of them go along. */
function damper(i: number, o: Vec3, random: Random): Scene {
  const size = rect(random);
  const scene = straight(i, o, random, faulty(random), size);
  const [a, b] = [at(o, 0, -150, HEIGHT), at(o, 0, 150, HEIGHT)];
  return {
    ...scene,
    pieces: [
      piece(i, 'before', at(o, 0, -2000, HEIGHT), a, size),
      { ...piece(i, 'damper', a, b, size), as: 'damper', rating: 'EI 120 (ve ho i↔o) S', actuation: 'SPRING' },
      piece(i, 'after', b, at(o, 0, 2000, HEIGHT), size),
    ],
    chains: [[id(i, 'before'), id(i, 'damper'), id(i, 'after')]],
  };
}

/** No opening element: the hole is drawn into the wall. */
function hole(i: number, o: Vec3, random: Random): Scene {
  const scene = straight(i, o, random, faulty(random), rect(random));
  const [wall] = scene.barriers;
  const { centre, width, height } = wall!.openings[0] as Rect & { readonly centre: Vec3 };
  return {
    ...scene,
    barriers: [
      { ...wall!, openings: [], spec: { ...wall!.spec, body: 'holeInProfile', hole: { centre, width, height } } },
    ],
  };
}
