/** Which tested systems would do at a penetration if the duct were protected by them: not what is there. */
import type { FactObject } from './fact-schema.js';
import { systemFacts } from './system-facts.js';
import { fitOf } from './system-fit.js';
import type { TestedSystem } from './tested-system.js';

/**
 * Of systems with several fixings one is enough. Nothing that is unknown may be left open.
 *
 * @param own the facts of the penetration
 */
export function wouldFit(own: FactObject, systems: readonly TestedSystem[]): TestedSystem[] {
  return systems.filter((system) => {
    const protectedBy = (layers: number | undefined): FactObject => ({
      ...own,
      penetration: { ...(own.penetration as FactObject), treatment: { kind: system.protection, layers } },
    });
    const { layersFor } = systemFacts(system, undefined, protectedBy(undefined));
    const facts = protectedBy(typeof layersFor === 'number' ? layersFor : undefined);
    return (system.fixings.length > 0 ? system.fixings : [undefined]).some((fixing) => {
      const { misses, unknown } = fitOf(systemFacts(system, fixing, facts), facts);
      return misses.length === 0 && unknown.length === 0;
    });
  });
}
