/**
 * What the demo building is found to have wrong must be its table (fixtures/demo/expected.ts, worked out by hand from the
 * plan): no more and no fewer, with and without the demonstration brief, and the same from IFC2X3 in feet.
 */

import { expect, it } from 'vitest';
import { type ExpectedFinding, WITH_BRIEF, WITHOUT_BRIEF } from '../../fixtures/demo/expected.js';
import { type DemoOptions, demoBuilding } from '../../fixtures/demo-building.js';
import { findPenetrations } from '../../src/find/find-penetrations.js';
import type { Crossings, Finding } from '../../src/model.js';
import { readFederation } from '../../src/read/read-federation.js';
import { constructionRows, judge, largestSeparation } from '../../src/rules/index.js';
import { demoBrief as brief, rules } from '../shipped-rules.js';

const encoder = new TextEncoder();

const SITUATIONS = [
  ['without a brief', undefined, WITHOUT_BRIEF],
  ['under the demonstration brief', brief, WITH_BRIEF],
] as const;
const FILES = [
  ['IFC4', {}],
  ['the architecture as IFC2X3 in feet', { schema: 'IFC2X3', unit: 'foot' }],
] as const;

async function review(options: DemoOptions, under: typeof brief | undefined, allFindings = false) {
  const inputs = demoBuilding(options).files.map((file) => ({ name: file.name, bytes: encoder.encode(file.text) }));
  const federation = await readFederation(inputs, { facts: under?.facts, constructions: constructionRows(rules) });
  const crossings = findPenetrations(federation, { separation: largestSeparation(rules), facts: under?.facts });
  return { crossings, ...judge(crossings, rules, { brief: under, models: federation.models, allFindings }) };
}

/** A finding in the words of the table. */
function row({ penetrations, barriers, runs }: Crossings, finding: Finding): ExpectedFinding {
  const { subject, check, outcome, side, measured, missing } = finding;
  const run = subject.type === 'run' ? runs.find(({ id }) => id === subject.id) : undefined;
  const at = penetrations.find(({ id }) => id === subject.id);
  const barrier = at?.barrier.name ?? barriers.find(({ globalId }) => globalId === subject.id)?.name ?? subject.id;
  if (outcome !== 'failed' && outcome !== 'cantTell') throw new Error(`${check} is listed although it ${outcome}`);
  return {
    ...(at && { duct: at.duct.name }),
    ...(run ? { run: run.system ?? run.id } : { barrier }),
    ...{ check, outcome },
    ...(side && { side }),
    ...(measured !== null && { measured }),
    ...(outcome === 'cantTell' && { missing }),
  };
}

const written = (rows: readonly ExpectedFinding[]): string[] =>
  rows
    .map(({ run, duct, barrier, check, outcome, side, measured, missing }) =>
      [
        run ?? '',
        duct ?? '',
        barrier ?? '',
        check,
        outcome,
        side ?? '',
        measured ?? '',
        [...(missing ?? [])].sort().join(),
      ].join(' | '),
    )
    .sort();

it.each(
  FILES.flatMap(([files, options]) => SITUATIONS.map(([name, ...rest]) => [files, name, options, ...rest] as const)),
)('%s, %s', async (_files, _situation, options, under, expected) => {
  const { crossings, findings } = await review(options, under);
  expect(written(findings.map((finding) => row(crossings, finding)))).toEqual(written(expected));
});

it('proves something under the demonstration brief, and nothing about fire without it', async () => {
  const passedAboutFire = async (under: typeof brief | undefined) => {
    const { checks } = await review({}, under);
    return checks.filter(({ about }) => about === 'fire').reduce((sum, { outcomes }) => sum + outcomes.passed, 0);
  };
  expect(await passedAboutFire(undefined)).toBe(0);
  expect(await passedAboutFire(brief)).toBeGreaterThan(100);
});
