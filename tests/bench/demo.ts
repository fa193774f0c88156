/** The demo building from bytes to findings, stage by stage, and what other findings another choice would bring. */
import { demoBuilding } from '../../fixtures/demo-building.js';
import { findPenetrations } from '../../src/find/find-penetrations.js';
import { readFederation } from '../../src/read/read-federation.js';
import { tryChoices } from '../../src/report/try-choices.js';
import {
  constructionRows,
  judgeWithResults,
  largestSeparation,
  type ProjectBrief,
  parseAssumption,
  type RuleSet,
} from '../../src/rules/index.js';

export interface Stage {
  readonly name: string;
  readonly milliseconds: number;
  /** MB of the whole process, at most so far. */
  readonly peak: number;
}

/** Milliseconds that the process has used: what else runs on the machine is not in them. */
export function processorTime(): number {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
}

export async function demoStages(rules: RuleSet, brief: ProjectBrief): Promise<Stage[]> {
  const stages: Stage[] = [];
  const timed = async <T>(name: string, work: () => T | Promise<T>): Promise<T> => {
    const start = processorTime();
    const result = await work();
    const milliseconds = processorTime() - start;
    stages.push({ name, milliseconds, peak: process.resourceUsage().maxRSS / 1024 });
    return result;
  };
  const { facts } = brief;
  const encoder = new TextEncoder();
  const inputs = demoBuilding().files.map(({ name, text }) => ({ name, bytes: encoder.encode(text) }));
  const options = { facts, constructions: constructionRows(rules) };
  const federation = await timed('read the demo building', () => readFederation(inputs, options));
  const separation = largestSeparation(rules);
  const crossings = await timed('find its penetrations', () => findPenetrations(federation, { separation, facts }));
  const { models } = federation;
  const judged = await timed('judge them', () => judgeWithResults(crossings, rules, { brief, models }));
  const trial = { crossings, rules, brief, models, judged };
  const other = [parseAssumption('siteTolerance=15')];
  await timed(`judge all ${judged.results.length} results again under another choice`, () => tryChoices(trial, other));
  return stages;
}
