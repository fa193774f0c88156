/** A small building as its generator's own parameters, written as IFC, and what a change does to those parameters. */
import { ModelBuilder, type Service, type StraightSpec } from '../../fixtures/model-builder.js';
import { add, type Vec3 } from '../../fixtures/vectors.js';
import type { Change, ChangeOpening, ElementRef, SingleChange } from '../../src/model.js';
import { singlesOf } from '../../src/remedy/singles.js';

type WallSpec = Parameters<ModelBuilder['wall']>[0];
type SlabSpec = Parameters<ModelBuilder['slab']>[0];
type OpeningSpec = Parameters<ModelBuilder['opening']>[1] & { readonly globalId: string };
type BendSpec = Parameters<ModelBuilder['bend']>[0];
export type PieceSpec = StraightSpec & {
  readonly as: 'duct' | 'damper' | 'flexibleDuct' | 'terminal' | 'pipe' | 'cableTray';
  readonly globalId: string;
};

export interface Scene {
  /** With the directions of its elevation. */
  readonly barriers: readonly {
    readonly spec: (WallSpec | SlabSpec) & { readonly globalId: string };
    readonly right: Vec3;
    readonly up: Vec3;
    readonly openings: readonly OpeningSpec[];
  }[];
  readonly pieces: readonly PieceSpec[];
  readonly bends: readonly (BendSpec & { readonly globalId: string })[];
  /** GlobalIds of what is joined, in order. */
  readonly chains: readonly (readonly string[])[];
}

export const together = (scenes: readonly Scene[]): Scene => ({
  barriers: scenes.flatMap((one) => one.barriers),
  pieces: scenes.flatMap((one) => one.pieces),
  bends: scenes.flatMap((one) => one.bends),
  chains: scenes.flatMap((one) => one.chains),
});

export function writeScene(scene: Scene, fileName: string) {
  const b = new ModelBuilder({ fileName });
  b.system('DX', { longName: 'Exhaust', purpose: 'EXHAUST' });
  for (const { spec, openings } of scene.barriers) {
    const barrier = 'top' in spec ? b.slab(spec) : b.wall(spec);
    for (const opening of openings) b.opening(barrier, opening);
  }
  const services = new Map<string, Service>();
  for (const { as, ...spec } of scene.pieces) services.set(spec.globalId, b[as](spec));
  for (const bend of scene.bends) services.set(bend.globalId, b.bend(bend));
  for (const chain of scene.chains) b.connect(...chain.map((id) => services.get(id)!));
  return { name: fileName, bytes: new TextEncoder().encode(b.toString()) };
}

/** What a person would do to the model who was given the change. */
export function changed(scene: Scene, change: Change): Scene {
  return singlesOf(change).reduce(once, scene);
}

function once(scene: Scene, change: SingleChange): Scene {
  const isNamed = (list: readonly ElementRef[], id: string) => list.some(({ globalId }) => globalId === id);
  switch (change.kind) {
    case 'moveDuct': {
      const { by, elements, lengths } = change;
      const ends = new Map(lengths.map((one) => [one.globalId, one.end]));
      return {
        ...scene,
        bends: scene.bends.map((one) =>
          isNamed(elements, one.globalId) ? { ...one, corner: add(one.corner, by) } : one,
        ),
        pieces: scene.pieces.map((one) => {
          if (isNamed(elements, one.globalId)) return { ...one, from: add(one.from, by), to: add(one.to, by) };
          const end = ends.get(one.globalId);
          if (!end) return one;
          const apart = (p: Vec3) => Math.hypot(p[0] - end[0], p[1] - end[1], p[2] - end[2]);
          return apart(one.from) < apart(one.to)
            ? { ...one, from: add(one.from, by) }
            : { ...one, to: add(one.to, by) };
        }),
      };
    }
    case 'changeOpening': {
      const { opening } = change;
      if (!opening) return inBarrier(scene, change.barrier, (one) => ({ spec: withHole(one, change) }));
      return inBarrier(scene, change.barrier, (one) => ({
        openings: one.openings.map((of) => (of.globalId === opening.globalId ? altered(of, change, one) : of)),
      }));
    }
    case 'newOpening': {
      const { shape, width, height, centre, instead } = change;
      const globalId = `new-${change.barrier.globalId}`.slice(0, 22).padEnd(22, '0').replaceAll('-', '_');
      const size = shape === 'circular' ? { diameter: width } : { width, height };
      return inBarrier(scene, change.barrier, ({ openings }) => ({
        openings: [
          ...openings.filter((one) => one.globalId !== instead?.globalId),
          { globalId, centre: [...centre] as unknown as Vec3, ...size },
        ],
      }));
    }
    default:
      throw new Error(`${change.kind} changes no model`);
  }
}

type Placed = Scene['barriers'][number];
type Hole = { readonly centre: Vec3 } & (
  | { readonly width: number; readonly height: number }
  | { readonly diameter: number }
);

function altered<T extends Hole>(hole: T, { sides, diameter }: ChangeOpening, { right, up }: Placed): T {
  if ('diameter' in hole) return { ...hole, diameter: hole.diameter + diameter };
  const aside = (v: Vec3, by: number): Vec3 => [v[0] * by, v[1] * by, v[2] * by];
  const middle = add(aside(right, (sides.right - sides.left) / 2), aside(up, (sides.top - sides.bottom) / 2));
  return {
    ...hole,
    centre: add(hole.centre, middle),
    width: hole.width + sides.left + sides.right,
    height: hole.height + sides.top + sides.bottom,
  };
}

const withHole = (one: Placed, change: ChangeOpening): Placed['spec'] =>
  one.spec.hole ? { ...one.spec, hole: altered(one.spec.hole, change, one) } : one.spec;

const inBarrier = (scene: Scene, { globalId }: ElementRef, by: (barrier: Placed) => Partial<Placed>): Scene => ({
  ...scene,
  barriers: scene.barriers.map((one) => (one.spec.globalId === globalId ? { ...one, ...by(one) } : one)),
});
