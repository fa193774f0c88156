/** What is there against fire: dampers that the model shows, protection that the model or the brief declares. */
import { hasWord } from '../collect.js';
import type { AirElement, DeclaredProtection, DuctProtection, Minutes, Penetration, ProjectFacts } from '../model.js';

type Treatment = Penetration['treatment'];

/** What is not seen is unknown; only a brief that says protection is modelled or declared makes it none. */
export function protectionOf(element: AirElement, facts: ProjectFacts | undefined): DuctProtection {
  const declared = facts?.protections.filter((one) => isFor(one, element)).sort(byHowClose)[0];
  if (!declared) {
    const kind = facts?.protectionModelled ? 'none' : 'unknown';
    return { kind, evidence: null, layers: null, integrity: null, insulation: null };
  }
  const { kind, evidence, layers = null, integrity = null, insulation = null } = declared;
  return { kind, evidence: `brief: ${evidence}`, layers, integrity, insulation };
}

/** A damper holds back fire by itself; of the pieces that meet in the barrier the protected one speaks. */
export function treatmentOf(elements: readonly AirElement[], facts: ProjectFacts | undefined): Treatment {
  const damper = elements.find((e) => e.damper?.purpose === 'fire' || e.damper?.purpose === 'fireSmoke');
  const all = elements.map((element) => protectionOf(element, facts));
  const protection = all.find(({ kind }) => kind !== 'none' && kind !== 'unknown');
  const feasible: Treatment['feasible'] = [];
  if (!damper) return { ...(protection ?? all[0] ?? NOTHING_SEEN), feasible };
  const rating = damper.damper?.rating;
  const seen = `${damper.damper?.purpose === 'fire' ? 'fire damper' : 'fire and smoke damper'} "${damper.name}" in the barrier`;
  if (protection) return { ...protection, kind: 'both', evidence: `${seen}; ${protection.evidence}`, feasible };
  const minutes = { integrity: granted(rating?.integrity), insulation: granted(rating?.insulation) };
  return { kind: 'damper', evidence: seen, layers: null, ...minutes, feasible };
}

const NOTHING_SEEN: DuctProtection = {
  kind: 'unknown',
  evidence: null,
  layers: null,
  integrity: null,
  insulation: null,
};

/** What names a duct, or a covering on it, goes by that; a system is protected over its whole run. */
function isFor({ system, duct, covering }: DeclaredProtection, element: AirElement): boolean {
  if (duct !== undefined) return duct === element.globalId || duct === element.name;
  if (covering) return (element.coverings ?? []).some((name) => hasWord(name, covering));
  return system !== undefined && system === element.system;
}

/** What is said of the duct itself goes before what is modelled on it, and that before what its system has. */
const byHowClose = (a: DeclaredProtection, b: DeclaredProtection): number => rankOf(a) - rankOf(b);
const rankOf = ({ duct, covering }: DeclaredProtection): number => (duct !== undefined ? 0 : covering ? 1 : 2);

/** A rating that asks nothing of a criterion grants nothing of it. */
const granted = (minutes: Minutes | undefined): number | null => (minutes === 'none' ? 0 : (minutes ?? null));
