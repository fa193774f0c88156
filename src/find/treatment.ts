/** What is at a penetration against fire: dampers that the model shows, protection that the brief declares. */
import type { AirElement, DeclaredProtection, Minutes, Penetration, ProjectFacts } from '../model.js';

type Treatment = Penetration['treatment'];

/** What is not seen is unknown; only a brief that says protection is modelled or declared makes it none. */
export function treatmentOf(elements: readonly AirElement[], facts: ProjectFacts | undefined): Treatment {
  const damper = elements.find((e) => e.damper?.purpose === 'fire' || e.damper?.purpose === 'fireSmoke');
  const protection = facts?.protections.find((p) => elements.some((e) => isFor(p, e)));
  const feasible: Treatment['feasible'] = [];
  if (!damper && !protection) {
    const kind = facts?.protectionModelled ? 'none' : 'unknown';
    return { kind, evidence: null, layers: null, integrity: null, insulation: null, feasible };
  }
  const rating = damper?.damper?.rating;
  const { kind, integrity, insulation } = protection
    ? {
        kind: damper ? ('both' as const) : protection.kind,
        integrity: protection.integrity ?? null,
        insulation: protection.insulation ?? null,
      }
    : { kind: 'damper' as const, integrity: granted(rating?.integrity), insulation: granted(rating?.insulation) };
  const evidence = [
    damper &&
      `${damper.damper?.purpose === 'fire' ? 'fire damper' : 'fire and smoke damper'} "${damper.name}" in the barrier`,
    protection && `brief: ${protection.evidence}`,
  ].filter((part) => part !== undefined);
  return { kind, evidence: evidence.join('; '), layers: protection?.layers ?? null, integrity, insulation, feasible };
}

const isFor = ({ system, duct }: DeclaredProtection, element: AirElement): boolean =>
  (duct !== undefined && (duct === element.globalId || duct === element.name)) ||
  (duct === undefined && system !== undefined && system === element.system);

/** A rating that asks nothing of a criterion grants nothing of it. */
const granted = (minutes: Minutes | undefined): number | null => (minutes === 'none' ? 0 : (minutes ?? null));
