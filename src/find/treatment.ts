/** What is there against fire: dampers that the model shows, protection that the model or the brief declares. */
import { hasWord } from '../collect.js';
import { compareRatings } from '../fire-rating/index.js';
import type { AirElement, DeclaredProtection, DuctProtection, Minutes, Penetration, ProjectFacts } from '../model.js';

type Treatment = Penetration['treatment'];

const NOTHING = { evidence: null, layers: null, integrity: null, insulation: null } as const;

/** What is not seen is unknown; only a brief that says protection is modelled or declared makes it none. */
export function protectionOf(element: AirElement, facts: ProjectFacts | undefined): DuctProtection {
  const declared = facts?.protections.filter((one) => isFor(one, element)).sort(byHowClose)[0];
  if (declared) {
    const { kind, evidence, layers = null, integrity = null, insulation = null } = declared;
    return { kind, evidence: `brief: ${evidence}`, layers, integrity, insulation };
  }
  return statedProtection(element, facts) ?? { kind: facts?.protectionModelled ? 'none' : 'unknown', ...NOTHING };
}

/** What names a duct, or a covering on it, goes by that; a system is protected over its whole run. */
function isFor({ system, duct, covering }: DeclaredProtection, element: AirElement): boolean {
  if (duct !== undefined) return duct === element.globalId || duct === element.name;
  if (covering) return (element.coverings ?? []).some((name) => hasWord(name, covering));
  return system !== undefined && system === element.system;
}

/** What is said of the duct itself goes before what is modelled on it, and that before what its system has. */
const byHowClose = (a: DeclaredProtection, b: DeclaredProtection): number => rankOf(a) - rankOf(b);
const rankOf = ({ duct, covering }: DeclaredProtection): number => (duct !== undefined ? 0 : covering ? 1 : 2);

/** Ducts that state which rating they reach are declared to be protected. What a damper states is its own. */
function statedProtection(
  { damper, ratings }: AirElement,
  facts: ProjectFacts | undefined,
): DuctProtection | undefined {
  const rating = damper ? undefined : ratings?.reached;
  if (!rating) return undefined;
  const kind = facts?.ductRatingProperties?.find(({ means }) => means === 'reached')?.kind ?? 'fireResistingDuct';
  const minutes = (criterion: 'integrity' | 'insulation'): number | null =>
    // Minutes of another test, such as that of smoke ducts at 600 °C, are none of the standard fire.
    compareRatings({ ...ASKS_NOTHING, [criterion]: 1 }, rating, [criterion]) === 'unknown'
      ? null
      : granted(rating[criterion]);
  return {
    kind,
    evidence: `"${rating.text}", which the duct states to reach`,
    layers: null,
    integrity: minutes('integrity'),
    insulation: minutes('insulation'),
  };
}

const ASKS_NOTHING = {
  state: 'stated',
  text: null,
  duration: null,
  loadbearing: 'none',
  integrity: 'none',
  insulation: 'none',
} as const;

export function treatmentOf(elements: readonly AirElement[], facts: ProjectFacts | undefined): Treatment {
  const damper = elements.find((e) => e.damper?.purpose === 'fire' || e.damper?.purpose === 'fireSmoke');
  const protection = together(elements, facts);
  const isProtected = protection.kind !== 'none' && protection.kind !== 'unknown';
  if (!damper) return protection;
  const rating = damper.damper?.rating;
  const seen = `${damper.damper?.purpose === 'fire' ? 'fire damper' : 'fire and smoke damper'} "${damper.name}" in the barrier`;
  if (isProtected) return { ...protection, kind: 'both', evidence: `${seen}; ${protection.evidence}` };
  const minutes = { integrity: granted(rating?.integrity), insulation: granted(rating?.insulation) };
  return { kind: 'damper', evidence: seen, layers: null, ...minutes };
}

/** Of the ducts that meet in a barrier each must be protected, and the least of what they reach counts. */
function together(elements: readonly AirElement[], facts: ProjectFacts | undefined): DuctProtection {
  const ducts = elements.filter(({ damper }) => !damper);
  const all = (ducts.length > 0 ? ducts : elements).map((element) => protectionOf(element, facts));
  const lacking = all.find(({ kind }) => kind === 'none') ?? all.find(({ kind }) => kind === 'unknown');
  if (lacking || all.length === 0) return lacking ?? { kind: 'unknown', ...NOTHING };
  return {
    ...all[0]!,
    layers: least(all.map((one) => one.layers)),
    integrity: least(all.map((one) => one.integrity)),
    insulation: least(all.map((one) => one.insulation)),
  };
}

/** Not known where one of them is not. */
const least = (values: readonly (number | null)[]): number | null =>
  values.includes(null) ? null : Math.min(...values.map((value) => value ?? 0));

/** A rating that asks nothing of a criterion grants nothing of it. */
const granted = (minutes: Minutes | undefined): number | null => (minutes === 'none' ? 0 : (minutes ?? null));
