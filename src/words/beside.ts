/** Where something stands beside a duct, and which way the duct would have to give room. */
import type { Side, Vec3 } from '../model.js';

export interface BesideWords {
  /** Goes before the name of the duct, e.g. `left of`. */
  readonly where: string;
  readonly move: string;
  /** Goes after the name of the duct; empty where `move` says it. */
  readonly whither: string;
}

type BySide = { readonly [S in Side]: readonly [where: string, move: string, whither: string] };

const LEVEL: BySide = {
  top: ['over', 'Lower', ''],
  bottom: ['under', 'Raise', ''],
  left: ['left of', 'Move', ' to the right'],
  right: ['right of', 'Move', ' to the left'],
};
/** The sides of an upright duct are those on plan, with +y to the north. */
const UPRIGHT: BySide = {
  top: ['north of', 'Move', ' to the south'],
  bottom: ['south of', 'Move', ' to the north'],
  left: ['west of', 'Move', ' to the east'],
  right: ['east of', 'Move', ' to the west'],
};

/** @param axis of the piece of ductwork; undefined: not known, so that it is told as if level */
export function besideWords(
  side: Side | null,
  axis: { readonly from: Vec3; readonly to: Vec3 } | undefined,
): BesideWords {
  const [where, move, whither] = side ? (axis && isUpright(axis) ? UPRIGHT : LEVEL)[side] : ['beside', 'Move', ''];
  return { where, move, whither };
}

/** Nearer to upright than to level. */
function isUpright({ from, to }: { readonly from: Vec3; readonly to: Vec3 }): boolean {
  const [x, y, z] = [0, 1, 2].map((i) => to[i]! - from[i]!) as [number, number, number];
  return Math.abs(z) > Math.hypot(x, y);
}
