/** Penetrations, their gaps and their neighbours, as checks look at them. */
import { refOf } from '../element-refs.js';
import type { Penetration, Side, Vec3 } from '../model.js';
import type { Face } from './face-facts.js';
import { neighbourFacts } from './facts.js';
import type { GapFacts } from './gap-facts.js';
import type { OwnFacts } from './own-facts.js';
import type { Shared, Subject } from './subject.js';

export function penetrationSubject(penetration: Penetration, own: OwnFacts, shared: Shared): Subject {
  return {
    ...shared,
    facts: { ...shared.facts, ...own },
    subject: {
      type: 'penetration',
      id: penetration.id,
      elements: [...penetration.elements.map(refOf), refOf(penetration.barrier)],
    },
    key: penetration.key,
    side: null,
    at: penetration.position,
    penetrations: [penetration.id],
  };
}

export function gapSubject(penetration: Penetration, gap: GapFacts, own: Subject): Subject {
  return {
    ...own,
    facts: { ...own.facts, gap: gap.facts },
    key: `${own.key} ${gap.place}`,
    side: gap.side,
    at: gap.side === null ? own.at : middleOfGap(penetration, gap.side, gap.value),
  };
}

export function faceSubject(penetration: Penetration, { sign, facts }: Face, own: Subject): Subject {
  const { position, frame, barrier } = penetration;
  const half = (sign * (barrier.thickness ?? 0)) / 2;
  return {
    ...own,
    facts: { ...own.facts, face: facts },
    key: `${own.key} ${sign > 0 ? 'behind' : 'before'}`,
    at: along(position, (i) => frame.normal[i] * half),
  };
}

/** Half-way between the duct's edge and what the gap ends at, in the plane of the elevation drawing. */
function middleOfGap({ outlines, frame, position }: Penetration, side: Side, value: number | null): Vec3 {
  const points = outlines.duct.flat();
  if (points.length === 0 || value === null) return position;
  const xs = points.map(([x]) => x);
  const ys = points.map(([, y]) => y);
  const [left, right, bottom, top] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
  const middles: { readonly [S in Side]: readonly [number, number] } = {
    top: [(left + right) / 2, top + value / 2],
    bottom: [(left + right) / 2, bottom - value / 2],
    left: [left - value / 2, (bottom + top) / 2],
    right: [right + value / 2, (bottom + top) / 2],
  };
  const [x, y] = middles[side];
  return along(position, (i) => x * frame.right[i] + y * frame.up[i]);
}

export function neighbourSubject(first: Penetration, second: Penetration, distance: number, own: Subject): Subject {
  return {
    ...own,
    facts: { ...own.facts, neighbour: neighbourFacts(first, second, distance) },
    subject: {
      ...own.subject,
      elements: [...first.elements.map(refOf), ...second.elements.map(refOf), refOf(first.barrier)],
    },
    key: [first.key, second.key].sort().join(' '),
    at: along(first.position, (i) => (second.position[i] - first.position[i]) / 2),
    penetrations: [first.id, second.id],
  };
}

const along = (start: Vec3, step: (axis: 0 | 1 | 2) => number): Vec3 => [
  tenth(start[0] + step(0)),
  tenth(start[1] + step(1)),
  tenth(start[2] + step(2)),
];

/** Positions are reported to 0.1 mm. */
const tenth = (value: number): number => Number(value.toFixed(1));
