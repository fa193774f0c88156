/**
 * For every place with faults that geometry can mend: the cheapest change within what may change that mends all of them,
 * else the cheapest for each alone, proven by making it and judging again.
 */
import { fileUnder, once } from '../collect.js';
import { type BuildingWide, type FindOptions, findBuildingWide } from '../find/find-penetrations.js';
import type { Change, Crossings, Federation, Finding, Penetration } from '../model.js';
import type { BareFinding, Judged, JudgeOptions, RuleSet } from '../rules/index.js';
import { mayChange } from './allowed.js';
import { buildingOf } from './building.js';
import { candidatesFor, type Solving } from './candidates.js';
import { choiceFor } from './choices.js';
import { type Fault, faultKinds, gapRange, type Need, type Place, placesWith } from './faults.js';
import { furtherNeeds } from './further-needs.js';
import { rangeWithOpening } from './hypothetical.js';
import { badByKey, type Judging, prove } from './prove.js';
import { remedyWords } from './words.js';

/** So many changes are tried for one place, the cheapest first; then its remedy stays words. */
export const MOST_TRIED = 6;

/** So many places are solved, the worst first: each takes 0.1 to 0.3 s, and a building may have thousands. */
export const MOST_PLACES = 500;

export interface Reviewed {
  readonly federation: Federation;
  readonly crossings: Crossings;
  readonly rules: RuleSet;
  /** As `findInBuilding` gave it; left out: it is found again, in half the time of finding. */
  readonly wide?: BuildingWide | undefined;
  /** As the penetrations were found. */
  readonly find: FindOptions;
  /** As they were judged. */
  readonly judge: JudgeOptions;
  /** So many places are solved, the worst first; left out: `MOST_PLACES`. */
  readonly mostPlaces?: number;
  /** Called with the share done, 0 to 1. */
  readonly onProgress?: (done: number) => void;
}

/** The same findings, with a change and its words where one is proven; each is proven by itself, with nothing else changed. */
export function withRemedies(judged: Judged, reviewed: Reviewed): Judged {
  const { remedies, unsolvedPlaces } = remediesFor(judged, reviewed);
  const mended = (finding: Finding): Finding => {
    const remedy = remedies.get(finding.key);
    return remedy ? { ...finding, ...remedy } : finding;
  };
  return {
    results: judged.results,
    judgement: { ...judged.judgement, findings: judged.judgement.findings.map(mended), unsolvedPlaces },
    all: once(() => judged.all().map(mended)),
  };
}

export type Remedy = Pick<Finding, 'change' | 'remedy'>;

export interface Remedies {
  /** By the keys of the findings. */
  readonly remedies: ReadonlyMap<string, Remedy>;
  /** Places with faults that a change may mend, but past those that are solved. */
  readonly unsolvedPlaces: number;
}

export function remediesFor({ judgement, results }: Omit<Judged, 'all'>, reviewed: Reviewed): Remedies {
  const { findings, tested } = judgement;
  const { federation, crossings, rules, find, judge, mostPlaces = MOST_PLACES, onProgress } = reviewed;
  if (findings.every(({ outcome }) => outcome !== 'failed')) return { remedies: new Map(), unsolvedPlaces: 0 };
  const kindOf = faultKinds(rules);
  const wide = reviewed.wide ?? findBuildingWide(federation);
  const building = buildingOf({ federation, crossings, wide, systems: rules.systems, tested, bad: badByKey(results) });
  const all = placesWith(findings, kindOf, building);
  const places = all.slice(0, mostPlaces);
  const choices = judge.brief?.choices;
  const tolerance = choices?.siteTolerance ?? 0;
  const own = new Map<string, BareFinding[]>();
  for (const finding of results)
    if (finding.subject.type === 'penetration') fileUnder(own, finding.subject.id, finding);
  const judging: Judging = { rules, find: { ...find, onProgress: () => {} }, judge };
  const solving: Solving = {
    building,
    kindOf,
    allowed: mayChange(choices),
    tolerance,
    rangeAt: (p) =>
      p.opening ? gapRange(own.get(p.id) ?? [], kindOf, tolerance) : rangeWithOpening(p, kindOf, tolerance, judging),
  };
  const remedies = new Map<string, Remedy>();
  const steps = places.length + tested.length;
  for (const [i, one] of tested.entries()) {
    onProgress?.(i / steps);
    const choice = choiceFor(one, own.get(one.penetration) ?? [], { building, judging, kindOf });
    for (const { key } of choice?.mended ?? [])
      remedies.set(key, { change: choice!.change, remedy: remedyWords(choice!.change, null, building) });
  }
  for (const [i, place] of places.entries()) {
    onProgress?.((tested.length + i) / steps);
    for (const { change, faults } of provenFor(place, solving, judging)) {
      const remedy = remedyWords(change, place.penetration, building);
      for (const { finding } of faults) remedies.set(finding.key, { change, remedy });
    }
  }
  return { remedies, unsolvedPlaces: all.length - places.length };
}

interface Proven {
  readonly change: Change;
  readonly faults: readonly Fault[];
}

function provenFor({ penetration, faults }: Place, solving: Solving, judging: Judging): Proven[] {
  const together = cheapestProven(penetration, faults, solving, judging);
  if (together) return [{ change: together, faults }];
  if (faults.length === 1) return [];
  return faults.flatMap((fault) => {
    const change = cheapestProven(penetration, [fault], solving, judging);
    return change ? [{ change, faults: [fault] }] : [];
  });
}

/** What a change would break in turn is asked of the next one too. */
function cheapestProven(
  penetration: Penetration | null,
  faults: readonly Fault[],
  solving: Solving,
  judging: Judging,
): Change | undefined {
  const mended = new Set(faults.map(({ finding }) => finding.key));
  const tried = new Set<string>();
  const further: Need[] = [];
  const next = (): Change[] =>
    candidatesFor(penetration, faults, solving, further)
      .map(({ change }) => change)
      .filter((change) => !tried.has(JSON.stringify(change)))
      .slice(0, MOST_TRIED - tried.size);
  let changes = next();
  for (let change = changes.shift(); change; change = changes.shift()) {
    tried.add(JSON.stringify(change));
    const { holds, broken } = prove(change, mended, solving.building, judging);
    if (holds) return change;
    const needs = furtherNeeds(change, broken, solving);
    if (needs.length === 0) continue;
    further.push(...needs);
    changes = next();
  }
  return undefined;
}
