/**
 * Evidence taken away or garbled never makes anything better. Of seeded mutants of the demo building, judged by all
 * shipped rules under the demonstration brief (so that passes exist to be wrong) and without a brief, none turns a result
 * that failed, or could not be told (also for want of proof alone), into one that passed; none turns failed into would
 * be passed; and no penetration passes that did not.
 */

import { isDeepStrictEqual } from 'node:util';
import { expect } from 'vitest';
import { demoBuilding } from '../../fixtures/demo-building.js';
import { once } from '../../src/collect.js';
import { findPenetrations } from '../../src/find/find-penetrations.js';
import type { Federation, Finding } from '../../src/model.js';
import type { FileReader } from '../../src/read/file-reader.js';
import { readFederation } from '../../src/read/read-federation.js';
import { readHere } from '../../src/read/read-here.js';
import { buildReport } from '../../src/report/build-report.js';
import { constructionRows, judgeWithResults, largestSeparation } from '../../src/rules/index.js';
import { type demoBrief as brief, rules } from '../shipped-rules.js';

const SEED = 20261125;
const { files } = demoBuilding();
const encoder = new TextEncoder();

/** mulberry32: the same numbers in every run. */
function randomNumbers(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32;
  };
}

type Pick = <T>(list: readonly T[]) => T;
type Mutation = readonly [what: string, line: RegExp, change: (line: string, pick: Pick) => string];

const gone = () => '';
const MUTATIONS: readonly Mutation[] = [
  ['a property set is no longer assigned', /=IFCRELDEFINESBYPROPERTIES\(/, gone],
  ['an opening voids nothing', /=IFCRELVOIDSELEMENT\(/, gone],
  ['ports belong to nothing', /=IFCRELNESTS\(/, gone],
  ['ports are no longer connected', /=IFCRELCONNECTSPORTS\(/, gone],
  ['a system is no longer assigned', /=IFCRELASSIGNSTOGROUP\(/, gone],
  ['a material is no longer assigned', /=IFCRELASSOCIATESMATERIAL\(/, gone],
  [
    'a property is empty',
    /=IFCPROPERTYSINGLEVALUE\(/,
    (line) => line.replace(/IFC(LABEL|BOOLEAN|TEXT)\([^)]*\)*(?=,)/, '$'),
  ],
  [
    'a label is garbled',
    /=IFCPROPERTYSINGLEVALUE\(.*IFCLABEL\(/,
    (line, pick) =>
      line.replace(/(IFCLABEL\(')([^']*)(')/, (_, before, label: string, after) => {
        const at = Math.floor(pick([...label].map((_c, i) => i)) ?? 0);
        return `${before}${label.slice(0, at)}${pick(['?', 'x', '', 'TBC', ' or ', '#'])}${label.slice(at + 1)}${after}`;
      }),
  ],
  [
    'a predefined type says nothing',
    /\.(FIREDAMPER|CONTROLDAMPER|RIGIDSEGMENT|FLOOR)\./,
    (line) => line.replace(/\.(FIREDAMPER|CONTROLDAMPER|RIGIDSEGMENT|FLOOR)\./, '.NOTDEFINED.'),
  ],
];

interface Results {
  readonly findings: ReadonlyMap<string, Finding>;
  /** By key: what all findings on a penetration come to. */
  readonly penetrations: ReadonlyMap<string, string>;
}

/**
 * What is found under a brief or without one. A file that is as it was built is read once; a mutant that reads as the
 * whole building does, and one that was made before, comes to the same and is not judged again.
 */
function reviewer(under: typeof brief | undefined): (texts: readonly string[]) => Promise<Results> {
  const asBuilt = new Map<string, ReturnType<FileReader>>();
  const guidance = { facts: under?.facts, constructions: constructionRows(rules) };
  const read = (texts: readonly string[]): Promise<Federation> => {
    const reader: FileReader = (input, model) => {
      const isWhole = files.some(({ name, text }, i) => name === input.name && texts[i] === text);
      const reading = (isWhole ? asBuilt.get(input.name) : undefined) ?? readHere(input, model, guidance);
      if (isWhole) asBuilt.set(input.name, reading);
      return reading;
    };
    const inputs = files.map(({ name }, i) => ({ name, bytes: encoder.encode(texts[i]) }));
    return readFederation(inputs, { reader });
  };
  const whole = once(async () => {
    const federation = await read(files.map(({ text }) => text));
    return { content: contentOf(federation), results: judged(federation, under) };
  });
  const review = async (texts: readonly string[]): Promise<Results> => {
    const [federation, { content, results }] = [await read(texts), await whole()];
    return isDeepStrictEqual(contentOf(federation), content) ? results : judged(federation, under);
  };
  const reviews = new Map<string, Promise<Results>>();
  return (texts) => {
    const key = texts.join('\n');
    const found = reviews.get(key) ?? review(texts);
    reviews.set(key, found);
    return found;
  };
}

/** All but the hashes of the files, which nothing is judged by. */
const contentOf = ({ models, ...rest }: Federation) => ({ ...rest, models: models.map((m) => ({ ...m, sha256: '' })) });

function judged(federation: Federation, under: typeof brief | undefined): Results {
  const { models } = federation;
  const crossings = findPenetrations(federation, { separation: largestSeparation(rules), facts: under?.facts });
  const judgement = judgeWithResults(crossings, rules, { brief: under, models, allFindings: true });
  const report = buildReport({ models, crossings, ...judgement, createdAt: '2026-01-01T00:00:00Z', toolVersion: '0' });
  const keys = new Map(crossings.penetrations.map((p) => [p.id, p.key]));
  // Numbers of runs change with their systems; one of its penetrations, or else an element, tells which run it is.
  for (const { id, stretches, elements } of crossings.runs) {
    const own = stretches.flatMap(({ ends }) => ends.flatMap(({ penetration }) => keys.get(penetration) ?? []));
    keys.set(id, `run ${own.sort()[0] ?? elements[0]!.globalId}`);
  }
  const place = ({ check, subject, side }: Finding) => [check, keys.get(subject.id) ?? subject.id, side].join(' ');
  // Of several of one check in one place the worst speaks.
  const bestFirst = [...judgement.all()].sort((a, b) => badness(a) - badness(b));
  return {
    findings: new Map(bestFirst.map((finding) => [place(finding), finding])),
    penetrations: new Map(report.penetrations.map((p) => [p.key, p.outcome])),
  };
}

const badness = ({ outcome, wouldBe }: Finding): number =>
  outcome === 'failed' ? 3 : outcome !== 'cantTell' ? 0 : wouldBe === null ? 2 : 1;

const isBetter = (before: Finding, after: Finding | undefined): boolean =>
  (after?.outcome === 'passed' && (before.outcome === 'failed' || before.outcome === 'cantTell')) ||
  (after?.wouldBe === 'passed' && before.outcome === 'failed');

/** That two statements contradict can't be seen any more when one of them is gone. */
const CONTRADICTION = 'property-agrees';
const failsByContradictionAlone = ({ findings }: Results, key: string): boolean =>
  [...findings].every(
    ([place, { outcome, check }]) => !place.includes(key) || outcome !== 'failed' || check === CONTRADICTION,
  );

/** The i-th mutant: one line of one file taken away or garbled. */
function mutant(i: number, pick: Pick): { what: string; texts: string[]; where: string } {
  const [what, pattern, change] = MUTATIONS[i % MUTATIONS.length]!;
  const lines = files.map(({ text }) => text.split('\n'));
  const at = lines.flatMap((own, file) => own.flatMap((line, n) => (pattern.test(line) ? [{ file, n }] : [])));
  expect(at.length, what).toBeGreaterThan(0);
  const { file, n } = pick(at);
  lines[file]![n] = change(lines[file]![n]!, pick);
  return { what, texts: lines.map((own) => own.join('\n')), where: `line ${n + 1} of ${files[file]!.name}` };
}

/** Holds mutants `from` to `to` to what is said above; files of their own share them between workers. */
export async function holdMutants(under: typeof brief | undefined, from: number, to: number): Promise<void> {
  const review = reviewer(under);
  const whole = await review(files.map((f) => f.text));
  const outcomes = [...whole.penetrations.values()];
  if (under) expect(outcomes.filter((outcome) => outcome === 'passed').length).toBeGreaterThan(5);
  const random = randomNumbers(SEED + from);
  const pick: Pick = (list) => list[Math.floor(random() * list.length)]!;
  const changed: Record<string, number> = {};
  for (let i = from; i < to; i++) {
    const { what, texts, where } = mutant(i, pick);
    const after = await review(texts);
    const said = (key: string, from: string, to: string | undefined) =>
      `mutant ${i}, ${what}, ${where}: ${key} ${from} -> ${to}`;
    for (const [key, before] of whole.findings) {
      const now = after.findings.get(key);
      if (now && now.outcome !== before.outcome) changed[what] = (changed[what] ?? 0) + 1;
      expect(isBetter(before, now), said(key, before.outcome, now?.outcome)).toBe(false);
    }
    for (const [key, before] of whole.penetrations) {
      const now = after.penetrations.get(key);
      const isNew = now === 'passed' && before !== 'passed';
      expect(isNew && !failsByContradictionAlone(whole, key), said(key, before, now)).toBe(false);
    }
  }
  // The mutants bite: otherwise nothing was tried.
  expect(Object.keys(changed).length).toBeGreaterThanOrEqual(4);
}
