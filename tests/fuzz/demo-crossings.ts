/** The demo building's penetrations, no more of them than show every check about fire that passes there. */
import { demoBuilding } from '../../fixtures/demo-building.js';
import { findPenetrations } from '../../src/find/find-penetrations.js';
import type { Crossings, ModelInfo } from '../../src/model.js';
import { readFederation } from '../../src/read/read-federation.js';
import { constructionRows, judge, largestSeparation, type ProjectBrief, type RuleSet } from '../../src/rules/index.js';

export interface Demo {
  readonly crossings: Crossings;
  readonly models: readonly ModelInfo[];
}

export async function demoCrossings(rules: RuleSet, brief: ProjectBrief): Promise<Demo> {
  const encoder = new TextEncoder();
  const inputs = demoBuilding().files.map(({ name, text }) => ({ name, bytes: encoder.encode(text) }));
  const { facts } = brief;
  const federation = await readFederation(inputs, { facts, constructions: constructionRows(rules) });
  const { models } = federation;
  const whole = findPenetrations(federation, { separation: largestSeparation(rules), facts });
  const { findings } = judge(whole, rules, { brief, models, allFindings: true });
  const shown = new Map(
    findings.filter(({ outcome }) => outcome === 'passed').map((one) => [one.check, one.subject.id]),
  );
  const wanted = new Set(shown.values());
  // What a run says of itself names its penetrations, so that runs stay whole.
  const runOf = new Map(whole.penetrations.map(({ id, duct: { run } }) => [id, run]));
  const kept = new Set([...wanted].map((id) => runOf.get(id) ?? id));
  const penetrations = whole.penetrations
    .filter(({ id, duct: { run } }) => kept.has(run ?? id))
    .map((one, _, all) => {
      const isKept = (id: string): boolean => all.some((other) => other.id === id);
      return { ...one, neighbours: one.neighbours.filter(({ penetration }) => isKept(penetration)) };
    });
  const ofKept = <T>(list: readonly T[]): T[] => list.filter((_, i) => kept.has(whole.runs[i]!.id));
  const { runs, access } = whole;
  return { crossings: { ...whole, penetrations, runs: ofKept(runs), access: ofKept(access) }, models };
}
