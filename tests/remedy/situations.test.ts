/**
 * Random situations, each written as IFC, read, found, judged; its remedy made to the generator's own parameters, written
 * as IFC, read, found and judged again: the finding has gone, and no new one has come.
 */
import { afterAll, describe, expect, it } from 'vitest';
import { findInBuilding } from '../../src/find/find-penetrations.js';
import type { Change, Finding } from '../../src/model.js';
import { readFederation } from '../../src/read/read-federation.js';
import { MOST_TRIED, type Remedies, remediesFor } from '../../src/remedy/remedies.js';
import { constructionRows, judgeWithResults, largestSeparation, loadBrief } from '../../src/rules/index.js';
import { neededMargin } from '../../src/rules/limit.js';
import { rules } from '../shipped-rules.js';
import { changed, type Scene, together, writeScene } from './scene.js';
import { KINDS, randomFrom, type Situation, situation } from './situations.js';

const brief = (changes: string) =>
  loadBrief(
    {
      file: 'brief.yaml',
      text: `
kind: project-brief
id: situations
version: "1"
demonstration: true
facts:
  protectionModelled: true
  protections:
    - { system: DX, kind: blanket, layers: 2, integrity: 120, insulation: 120, evidence: invented }
choices:
  ${changes}
  systems:
    - { system: DX, testedSystem: demonstration-blanket, fixing: pins, integrity: 60, insulation: 60 }
  testedSystems: [demonstration-blanket]
`,
    },
    rules,
  );

/** What may be changed, and what a margin has to hold beside what is measured. */
const ALLOWED = [
  'changes: {}',
  'changes: { ductBy: 400, widenBy: 400, rebuildBy: 400 }',
  'changes: { ductBy: 0 }',
  'changes: { widenBy: 0, rebuildBy: 0 }',
  'changes: { ductWays: [up, down], widenBy: 80, rebuildBy: 40 }',
  'changes: { sides: [left, right], costs: { move: 100, movePerMm: 2 } }',
  'changes: { rebuildBy: 0, fixed: [terminal, damper] }',
  'changes: { costs: { widen: 0, widenPerMm: 0, move: 500 } }',
  'siteTolerance: 5',
  'siteTolerance: 12.5\n  changes: { ductBy: 400, widenBy: 400, rebuildBy: 400 }',
] as const;

const constructions = constructionRows(rules);
const PER_FILE = KINDS.length;
const FILES = 30;

async function review(scene: Scene, name: string, { facts, choices, demonstration }: ReturnType<typeof brief>) {
  const federation = await readFederation([writeScene(scene, name)], { facts, constructions });
  const find = { separation: largestSeparation(rules), facts };
  const judge = { brief: { demonstration, choices } };
  const { crossings, buildingWide: wide } = findInBuilding(federation, find);
  const judged = judgeWithResults(crossings, rules, { ...judge, models: federation.models });
  return { federation, crossings, wide, judged, results: judged.all(), find, judge };
}

/** Of a sum of tenths of a millimetre. */
const NOISE = 1e-6;

const isBad = ({ outcome, wouldBe }: Finding): boolean => outcome === 'failed' || (outcome === 'cantTell' && !wouldBe);

/** What a margin lacks of what it has to hold, mm; 0 where nothing is asked of it. */
const lacking = ({ margin, tolerance }: Finding): number =>
  tolerance ? Math.max(0, neededMargin(tolerance) - (margin ?? 0)) : 0;

const count = { situations: 0, mended: 0, holdingTolerance: 0, none: new Map<string, number>() };

describe('remedies in random situations', () => {
  it.each(Array.from({ length: FILES }, (_, n) => n))('hold when they are made, file %i', async (n) => {
    const random = randomFrom(1000 + n);
    const given = brief(ALLOWED[n % ALLOWED.length]!);
    const all = Array.from({ length: PER_FILE }, (_, i) => situation(KINDS[i]!, i, random));
    const name = `situations-${n}.ifc`;
    const before = await review(together(all.map(({ scene }) => scene)), name, given);
    const { remedies } = remediesFor(before.judged, { ...before, rules });

    const failed = new Map(before.results.filter(({ outcome }) => outcome === 'failed').map((f) => [f.key, f]));
    const made = all.map((one) => ({ ...one, ...firstRemedy(one, failed, remedies) }));
    const scenes = made.map(({ scene, change }) => (change ? changed(scene, change) : scene));
    const after = await review(together(scenes), name, given);
    const outcomes = new Map(after.results.map((finding) => [finding.key, finding]));

    for (const { kind, mended, change, own } of made) {
      count.situations += 1;
      const why = own.length === 0 ? 'nothing failed' : `${kind} under "${ALLOWED[n % ALLOWED.length]}"`;
      if (!change) count.none.set(why, (count.none.get(why) ?? 0) + 1);
      else count.mended += 1;
      for (const finding of mended) {
        const is = outcomes.get(finding.key);
        expect(
          is && isBad(is),
          `${kind}: ${finding.message} ${remedies.get(finding.key)?.remedy} ${is?.message}`,
        ).not.toBe(true);
        expect(is ? lacking(is) : 0, `${kind}: ${is?.message}`).toBeLessThan(NOISE);
        if (is?.tolerance?.site) count.holdingTolerance += 1;
      }
    }
    const known = new Map(before.results.map((finding) => [finding.key, finding]));
    const fresh = after.results.filter((is) => isBad(is) && !isBad(known.get(is.key) ?? { ...is, outcome: 'passed' }));
    expect(fresh.map(({ message }) => message)).toEqual([]);
    expect(after.crossings.penetrations.map(({ key }) => key).sort()).toEqual(
      before.crossings.penetrations.map(({ key }) => key).sort(),
    );
  });

  afterAll(() => {
    const none = [...count.none].map(([why, n]) => `${why} ${n}`).join(', ');
    process.stdout.write(`${count.situations} situations, ${count.mended} with a remedy; without: ${none}\n`);
  });

  it('are at least 200', () => {
    expect(count.mended).toBeGreaterThanOrEqual(200);
    expect(count.holdingTolerance).toBeGreaterThanOrEqual(40);
  });
});

/** Changes of one situation are alternatives, or each mends a finding alone: the first is made. */
function firstRemedy(
  { scene }: Situation,
  failed: ReadonlyMap<string, Finding>,
  remedies: Remedies['remedies'],
): { change: Change | null; mended: Finding[]; own: Finding[] } {
  const ids = new Set([...scene.pieces, ...scene.bends].map(({ globalId }) => globalId));
  const own = [...failed.values()].filter(({ subject }) => subject.elements.some((one) => ids.has(one.globalId)));
  // A choice changes no model.
  const [first] = own
    .flatMap(({ key }) => remedies.get(key)?.change ?? [])
    .filter(({ kind }) => !kind.startsWith('choose'));
  if (!first) return { change: null, mended: [], own };
  const isSame = ({ key }: Finding) => JSON.stringify(remedies.get(key)?.change) === JSON.stringify(first);
  return { change: first, mended: own.filter(isSame), own };
}

it('tries a stated number of changes for each place', () => {
  expect(MOST_TRIED).toBe(6);
});
