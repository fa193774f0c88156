/** Subjects that are alike are judged once: what comes out is what judging each by itself gives. */
import { describe, expect, it } from 'vitest';
import { demoBuilding } from '../../fixtures/demo-building.js';
import { findPenetrations } from '../../src/find/find-penetrations.js';
import { readFederation } from '../../src/read/read-federation.js';
import { evaluateReady, withAllVariables } from '../../src/rules/evaluate.js';
import { EACH, type FactObject, factAt } from '../../src/rules/fact-schema.js';
import { constructionRows } from '../../src/rules/index.js';
import { factsDeciding } from '../../src/rules/reads.js';
import { casesOf } from '../../src/rules/subjects.js';
import { verdictsBy } from '../../src/rules/verdicts.js';
import { demoBrief as brief, rules } from '../shipped-rules.js';

const proof = { demonstration: true, siteTolerance: 5 };

/** Tells every path that is looked at, also where nothing is found there. */
function watched(facts: FactObject, seen: Set<string>, path = ''): FactObject {
  const tell = (name: string | symbol): string => {
    const at = path === '' ? String(name) : `${path}.${String(name)}`;
    seen.add(at);
    return at;
  };
  return new Proxy(facts, {
    get: (target, name) => {
      const at = tell(name);
      const value = Reflect.get(target, name) as FactObject[string];
      return typeof value === 'object' && value !== null && !Array.isArray(value)
        ? watched(value as FactObject, seen, at)
        : value;
    },
    getOwnPropertyDescriptor: (target, name) => {
      tell(name);
      return Reflect.getOwnPropertyDescriptor(target, name);
    },
    has: (target, name) => {
      tell(name);
      return Reflect.has(target, name);
    },
  });
}

describe('verdicts on alike subjects of the demo', async () => {
  const encoder = new TextEncoder();
  const files = demoBuilding().files.map(({ name, text }) => ({ name, bytes: encoder.encode(text) }));
  const federation = await readFederation(files, { facts: brief.facts, constructions: constructionRows(rules) });
  const crossings = findPenetrations(federation, { facts: brief.facts });
  const { systems, dampers, flanges } = rules;
  const { subjects } = casesOf(crossings, federation.models, { systems, dampers, flanges, choices: brief.choices });
  const verdicts = () => verdictsBy(rules.checks, proof);

  it.each(EACH)('are those of each %s alone', (each) => {
    const alike = verdicts()(each);
    for (const { facts } of subjects[each]) {
      const ready = withAllVariables(each, facts);
      expect(alike.about(facts)).toEqual(alike.checks.map((check) => evaluateReady(check, ready, proof)));
    }
  });

  it.each(EACH)('hang on nothing but the facts that are compared: %s', (each) => {
    for (const check of verdicts()(each).checks) {
      const declared = factsDeciding(check);
      const seen = new Set<string>();
      for (const { facts } of subjects[each]) evaluateReady(check, watched(withAllVariables(each, facts), seen), proof);
      // CEL asks a group for its prototype. On the way to a fact its groups are looked at, and a group that is compared is so with all that is in it.
      const isDeclared = (path: string): boolean =>
        factAt(path) === undefined ||
        declared.some((one) => one === path || one.startsWith(`${path}.`) || path.startsWith(`${one}.`));
      expect(
        [...seen].filter((path) => !isDeclared(path)),
        check.definition.id,
      ).toEqual([]);
    }
  });
});

it('tells a missing fact, no number, a number and its text apart', () => {
  const text = { barrier: { name: '1;', kind: 'wall' }, model: {} };
  const all = ['1', '1;', 1, Number.NaN, Number.POSITIVE_INFINITY, undefined, true, 'true', '"1"'] as const;
  const verdicts = verdictsBy([...rules.checks], proof)('leak');
  const [check] = verdicts.checks;
  expect(factsDeciding(check!)).toContain('leak.width');
  const said = all.map((width) => {
    const leak: FactObject = width === undefined ? {} : { width };
    return verdicts.about({ ...text, leak });
  });
  expect(new Set(said).size).toBe(all.length);
});
