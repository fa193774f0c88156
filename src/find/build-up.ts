/** What one crossing passes, one after the other: leaves, linings, cavities, as elements and as layers of an element. */
import { refOf } from '../element-refs.js';
import { dot, sub } from '../geometry/vector.js';
import type { BarrierFacts, BuildUpPart } from '../model.js';
import { CONTACT } from '../tolerances.js';
import { layersOf } from './leaf.js';
import type { Leaf, LeafStack } from './leaves.js';
import type { Plate, Stretch } from './plates.js';
import { roundLength } from './rounding.js';

export interface BuildUp {
  readonly parts: readonly BuildUpPart[];
  readonly along: NonNullable<BarrierFacts['buildUpAlong']>;
  /** The layers of the element that names the barrier begin at the far face. */
  readonly isReversed: boolean;
}

/** From, to along the normal of the stack, and what lies there. */
interface Solid {
  readonly stretch: Stretch;
  readonly parts: readonly BuildUpPart[];
}

export function buildUpOf({ leaves: [main, ...others], plate }: LeafStack): BuildUp {
  const stack = layersOf(main.group.gross.barrier, main.group.plate);
  const layers = stack?.layers.map(({ material, thickness, role }) => ({
    kind: role!,
    element: role === 'cavity' ? null : refOf(main.group.gross.barrier),
    material,
    thickness: roundLength(thickness),
  }));
  const half = main.group.plate.thickness / 2;
  const own: Solid[] = layers ? [solidAt(main, plate, [-half, half], layers)] : plain(main, plate, 'leaf');
  const solids = [...own, ...others.flatMap((leaf) => plain(leaf, plate, 'lining'))].sort(
    (a, b) => a.stretch[0] - b.stretch[0],
  );
  return {
    parts: solids.flatMap(({ stretch, parts }, i) => {
      const before = i > 0 ? stretch[0] - solids[i - 1]!.stretch[1] : 0;
      const cavity: BuildUpPart = { kind: 'cavity', element: null, material: null, thickness: roundLength(before) };
      return before > CONTACT ? [cavity, ...parts] : parts;
    }),
    along: stack && !stack.isAlong ? 'file' : 'normal',
    isReversed: stack?.isReversed === true,
  };
}

/** The solid stretches of an element that is not told into layers. */
function plain(leaf: Leaf, plate: Plate, kind: 'leaf' | 'lining'): Solid[] {
  const { plate: own, gross } = leaf.group;
  const half = own.thickness / 2;
  return (own.solid ?? [[-half, half]]).map(([from, to]) =>
    solidAt(
      leaf,
      plate,
      [from, to],
      [{ kind, element: refOf(gross.barrier), material: null, thickness: roundLength(to - from) }],
    ),
  );
}

function solidAt({ group }: Leaf, { frame }: Plate, [from, to]: Stretch, parts: readonly BuildUpPart[]): Solid {
  const shift = dot(sub(group.plate.frame.origin, frame.origin), frame.z);
  return { stretch: [from + shift, to + shift], parts };
}
