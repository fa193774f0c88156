/** In which order crossings stand in the register, and by which keys they are known again. */
import { compareTexts, fileUnder } from '../collect.js';
import { distance, dot, sub } from '../geometry/vector.js';
import type { Federation, Vec3 } from '../model.js';
import type { Crossed } from './crossed.js';
import { penetrationKey } from './keys.js';

/** Contract: by file, storey elevation, barrier GlobalId, then position. */
export function inRegisterOrder(a: Crossed, b: Crossed, federation: Federation): number {
  const file = (c: Crossed) => federation.models.findIndex((m) => m.id === c.barrier.model);
  const level = (c: Crossed) => c.barrier.storey?.elevation ?? c.measured.primary.element.storey?.elevation ?? 0;
  const [p, q] = [a.measured.position, b.measured.position];
  return (
    file(a) - file(b) ||
    level(a) - level(b) ||
    compareTexts(a.barrier.globalId, b.barrier.globalId) ||
    p[0] - q[0] ||
    p[1] - q[1] ||
    p[2] - q[2] ||
    compareTexts(a.measured.primary.element.globalId, b.measured.primary.element.globalId)
  );
}

/** The ordinal counts along one duct; where GlobalIds repeat it goes on by position, so that no two keys are the same. */
export function keysOf(crossed: readonly Crossed[]): Map<Crossed, string> {
  const same = new Map<string, Crossed[]>();
  for (const c of crossed) {
    const pair = `${c.measured.primary.element.globalId}\n${c.barrier.globalId}`;
    fileUnder(same, pair, c);
  }
  const keys = new Map<Crossed, string>();
  for (const list of same.values()) {
    const oneDuct = list.every((c) => c.measured.primary === list[0]!.measured.primary);
    if (oneDuct) list.sort((a, b) => alongDuct(a) - alongDuct(b)); // else they stand by position already
    list.forEach((c, i) => {
      keys.set(c, penetrationKey(c.measured.primary.element.globalId, c.barrier.globalId, i + 1));
    });
  }
  return keys;
}

/**
 * How far along its duct a crossing is. Which end is the first shows a sweep; of a mesh it is the one that is drawn
 * first, so that a building keeps its keys when it is turned.
 */
function alongDuct({ measured: { primary, position } }: Crossed): number {
  const { straight, element } = primary;
  if (!straight) return 0;
  const [start, end] = straight.axis;
  const along = dot(sub(position, start), straight.direction);
  const [body] = element.bodies;
  if (body?.kind !== 'mesh') return along;
  const [x, y, z] = body.positions;
  const first: Vec3 = [x!, y!, z!];
  return distance(first, end) < distance(first, start) ? -along : along;
}
