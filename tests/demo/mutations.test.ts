/**
 * Evidence taken away or garbled never makes anything better: of seeded mutants of the demo building none turns a
 * finding that failed, or could not be told, into one that passed; and none turns failed into would-be passed.
 */
import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { demoBuilding } from '../../fixtures/demo-building.js';
import { findPenetrations } from '../../src/find/find-penetrations.js';
import { readFederation } from '../../src/read/read-federation.js';
import { judge, loadRules } from '../../src/rules/index.js';

const MUTANTS = 300;
const SEED = 20261125;
const FILE = 'rules/common-practice.yaml';
const rules = loadRules([{ file: FILE, text: readFileSync(FILE, 'utf8') }]);
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

async function outcomes(texts: readonly string[]) {
  const federation = await readFederation(files.map(({ name }, i) => ({ name, bytes: encoder.encode(texts[i]) })));
  const crossings = findPenetrations(federation);
  const keys = new Map(crossings.penetrations.map((p) => [p.id, p.key]));
  const { findings } = judge(crossings, rules, { models: federation.models, allFindings: true });
  return new Map(findings.map((f) => [[f.check, keys.get(f.subject.id) ?? f.subject.id, f.side].join(' '), f]));
}

it(`holds for ${MUTANTS} mutants`, { timeout: 240_000 }, async () => {
  const whole = await outcomes(files.map((f) => f.text));
  const random = randomNumbers(SEED);
  const pick: Pick = (list) => list[Math.floor(random() * list.length)]!;
  const changed: Record<string, number> = {};
  for (let i = 0; i < MUTANTS; i++) {
    const [what, pattern, change] = MUTATIONS[i % MUTATIONS.length]!;
    const at = files.flatMap((f, file) =>
      f.text.split('\n').flatMap((line, n) => (pattern.test(line) ? [{ file, n }] : [])),
    );
    expect(at.length, what).toBeGreaterThan(0);
    const place = pick(at);
    const texts = files.map(({ text }, file) =>
      file === place.file
        ? text
            .split('\n')
            .map((line, n) => (n === place.n ? change(line, pick) : line))
            .join('\n')
        : text,
    );
    const mutant = await outcomes(texts);
    for (const [key, before] of whole) {
      const after = mutant.get(key);
      if (after && after.outcome !== before.outcome) changed[what] = (changed[what] ?? 0) + 1;
      const improved =
        (after?.outcome === 'passed' && (before.outcome === 'failed' || before.outcome === 'cantTell')) ||
        (after?.wouldBe === 'passed' && before.outcome === 'failed');
      expect(
        improved,
        `mutant ${i}, ${what}, line ${place.n + 1} of ${files[place.file]!.name}: ${key} ${before.outcome} -> ${after?.outcome}`,
      ).toBe(false);
    }
  }
  // The mutants bite: otherwise nothing was tried.
  expect(Object.keys(changed).length).toBeGreaterThanOrEqual(4);
});
