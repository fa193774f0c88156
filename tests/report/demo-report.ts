/** Reports as the program makes them: on the demo building under its brief, and on small buildings without one. */

import { demoBuilding } from '../../fixtures/demo-building.js';
import { once } from '../../src/collect.js';
import { findPenetrations } from '../../src/find/find-penetrations.js';
import type { Crossings, Federation, Finding, Judgement } from '../../src/model.js';
import { quantify } from '../../src/quantify/quantify.js';
import { storeysIn } from '../../src/quantify/storeys.js';
import type { Takeoff } from '../../src/quantify/takeoff.js';
import { readFederation } from '../../src/read/read-federation.js';
import { buildReport } from '../../src/report/build-report.js';
import type { Report } from '../../src/report/schema.js';
import { factsOf, type ReviewFacts } from '../../src/review/facts-file.js';
import { constructionRows, judgeWithResults, largestSeparation, type ProjectBrief } from '../../src/rules/index.js';
import type { StoreyPlan } from '../../src/scene/storey-plan.js';
import { storeyPlans } from '../../src/scene/storey-plans.js';
import { demoBrief, demoBriefText, rules, shippedTexts } from '../shipped-rules.js';

export interface Reviewed {
  readonly report: Report;
  readonly results: readonly Finding[];
}

export interface ReviewedModels extends Reviewed {
  readonly federation: Federation;
  readonly crossings: Crossings;
  readonly judgement: Judgement;
}

export async function review(
  files: readonly { readonly name: string; readonly text: string }[],
  brief?: ProjectBrief,
): Promise<ReviewedModels> {
  const inputs = files.map(({ name, text: content }) => ({ name, bytes: new TextEncoder().encode(content) }));
  const federation = await readFederation(inputs, { facts: brief?.facts, constructions: constructionRows(rules) });
  const crossings = findPenetrations(federation, { separation: largestSeparation(rules), facts: brief?.facts });
  const { models } = federation;
  const judged = judgeWithResults(crossings, rules, { brief, models });
  const report = buildReport({
    ...{ models, crossings, ...judged },
    brief: brief && { file: 'brief.yaml', sha256: 'c'.repeat(64), demonstration: brief.demonstration },
    createdAt: '2026-01-02T03:04:05Z',
    toolVersion: '0.1.0',
  });
  return { report, results: judged.all(), federation, crossings, judgement: judged.judgement };
}

const demo = once(() => review(demoBuilding().files, demoBrief));

/** Made once for all tests of a worker; each gets its own. */
export async function demoReview(): Promise<Reviewed> {
  const { report, results } = await demo();
  return structuredClone({ report, results });
}

export const demoReport = async (): Promise<Report> => (await demoReview()).report;

/** Storey plans of the demo building, and the report that they mark the penetrations of. */
export async function demoPlans(): Promise<{ readonly plans: StoreyPlan[]; readonly report: Report }> {
  const { report, federation } = await demo();
  return structuredClone({ plans: storeyPlans(federation, report), report });
}

/** What `check` counts of the demo building. */
export async function demoTakeoff(): Promise<Takeoff> {
  const { federation, crossings, judgement } = await demo();
  const storeys = storeysIn(federation);
  return quantify({ crossings, judgement, systems: rules.systems, choices: demoBrief.choices, storeys });
}

/** The demo's models and its report with the take-off, but without plans of what is cut from what; not to be changed. */
export const demoBuilt = once(async (): Promise<{ readonly federation: Federation; readonly report: Report }> => {
  const { federation, crossings, judgement, report } = await demo();
  const storeys = storeysIn(federation);
  const input = { crossings, judgement, systems: rules.systems, choices: demoBrief.choices, storeys };
  return { federation, report: { ...report, takeoff: await quantify(input, { cuts: false }) } };
});

/** What `check` writes into facts.json, and the report that it belongs to. */
export async function demoFacts(): Promise<{ readonly facts: ReviewFacts; readonly report: Report }> {
  const { federation, crossings, report } = await demo();
  const info = { file: demoBriefText.file, sha256: 'c'.repeat(64), demonstration: true };
  const facts = factsOf({
    ...{ report, crossings, storeys: storeysIn(federation), rules: undefined, shipped: shippedTexts },
    brief: { brief: demoBrief, text: demoBriefText.text, info },
  });
  return structuredClone({ facts, report });
}
