/** What is at a penetration against fire: dampers that the model shows, protection that the brief declares. */
import { compareRatings, lowerRating } from '../fire-rating/index.js';
import type { AirElement, DeclaredProtection, Minutes, Penetration, ProjectFacts, Rating } from '../model.js';

type Treatment = Penetration['treatment'];

/** What is not seen is unknown; only a brief that says protection is modelled or declared makes it none. */
export function treatmentOf(elements: readonly AirElement[], facts: ProjectFacts | undefined): Treatment {
  const damper = elements.find((e) => e.damper?.purpose === 'fire' || e.damper?.purpose === 'fireSmoke');
  const protection =
    facts?.protections.find((p) => elements.some((e) => isFor(p, e))) ?? statedProtection(elements, facts);
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
    protection && ('from' in protection ? protection.evidence : `brief: ${protection.evidence}`),
  ].filter((part) => part !== undefined);
  return { kind, evidence: evidence.join('; '), layers: protection?.layers ?? null, integrity, insulation, feasible };
}

/** Ducts that state which rating they reach are declared to be protected; the least of what they state counts. */
function statedProtection(elements: readonly AirElement[], facts: ProjectFacts | undefined) {
  const kind = facts?.ductRatingProperties?.find(({ means }) => means === 'reached')?.kind ?? 'fireResistingDuct';
  const ducts = elements.filter((e) => !e.damper);
  const [first, ...rest] = ducts.map((e) => e.ratings?.reached);
  if (!first || rest.some((one) => !one)) return undefined;
  const rating = rest.reduce<Rating>((least, one) => (one ? lowerRating(least, one) : least), first);
  const minutes = (criterion: 'integrity' | 'insulation'): number | undefined =>
    // Minutes of another test, such as that of smoke ducts at 600 °C, are none of the standard fire.
    compareRatings({ ...ASKS_LITTLE, [criterion]: 1 }, rating, [criterion]) === 'unknown'
      ? undefined
      : (granted(rating[criterion]) ?? undefined);
  return {
    from: 'model',
    kind,
    layers: undefined,
    integrity: minutes('integrity'),
    insulation: minutes('insulation'),
    evidence: `"${rating.text}", which the duct states to reach`,
  } as const;
}

const ASKS_LITTLE = {
  state: 'stated',
  text: null,
  duration: null,
  loadbearing: 'none',
  integrity: 'none',
  insulation: 'none',
} as const;

const isFor = ({ system, duct }: DeclaredProtection, element: AirElement): boolean =>
  (duct !== undefined && (duct === element.globalId || duct === element.name)) ||
  (duct === undefined && system !== undefined && system === element.system);

/** A rating that asks nothing of a criterion grants nothing of it. */
const granted = (minutes: Minutes | undefined): number | null => (minutes === 'none' ? 0 : (minutes ?? null));
