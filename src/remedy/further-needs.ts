/** What a change that was tried came too near to, as something that the next one has to keep clear of as well. */
import { nameOf } from '../element-refs.js';
import { dot } from '../geometry/vector.js';
import type { Change } from '../model.js';
import type { BareFinding } from '../rules/index.js';
import type { Solving } from './candidates.js';
import { type Need, needOf } from './faults.js';
import { singlesOf } from './singles.js';

/** Of what stands beside the ductwork that was moved: only there one move more is known to do. */
export function furtherNeeds(change: Change, broken: readonly BareFinding[], solving: Solving): Need[] {
  const { building, kindOf, tolerance } = solving;
  const moves = singlesOf(change).flatMap((one) => (one.kind === 'moveDuct' ? one : []));
  return broken.flatMap((finding): Need[] => {
    const [duct] = finding.subject.elements;
    const isMoved = moves.some(({ elements }) => elements.some((one) => duct && nameOf(one) === nameOf(duct)));
    if (kindOf(finding.check) !== 'room' || !isMoved) return [];
    const need = needOf({ kind: 'room', finding }, building, tolerance);
    const gone = (way: Need[number]['way']) => moves.reduce((sum, { by }) => sum + dot(by, way), 0);
    const whole = need.map(({ way, by }) => ({ way, by: Math.ceil(Number((by + gone(way)).toFixed(6))) }));
    return whole.length > 0 ? [whole] : [];
  });
}
