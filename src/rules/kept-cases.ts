/** What checks look at and what they said of it, kept while nothing changes that it hangs on: then only changed checks are judged. */
import type { Crossings, ModelInfo } from '../model.js';
import type { Decided } from './decided.js';
import type { Proof } from './evaluate.js';
import type { Result } from './finding.js';
import type { CompiledCheck } from './rule-set.js';
import { type Cases, casesOf, type Subjects } from './subjects.js';

interface Last {
  readonly crossings: Crossings;
  readonly models: readonly ModelInfo[] | undefined;
  readonly said: string;
  readonly cases: Cases;
}

type Results = ReadonlyMap<CompiledCheck, readonly Result[]>;

export class KeptCases {
  private last: Last | undefined;
  /** Of those cases, under one proof, by what the check says. */
  private judged = {
    subjects: undefined as Subjects | undefined,
    under: '',
    by: new Map<string, readonly Result[]>(),
  };

  /** As `casesOf` gives it. */
  readonly of: typeof casesOf = (crossings, models, decided: Decided = { systems: [], dampers: [] }) => {
    // What compartments a run serves follows from the crossings. All else is what documents say: plain data, some 100 kB.
    const { serves: _, ...documents } = decided;
    const said = JSON.stringify(documents);
    const { last } = this;
    if (last?.crossings === crossings && last.models === models && last.said === said) return last.cases;
    const cases = casesOf(crossings, models, decided);
    this.last = { crossings, models, said, cases };
    return cases;
  };

  /** @param judge what checks say of the subjects, those of the models left out: asked for those checks that are new */
  results(
    subjects: Subjects,
    proof: Proof,
    checks: readonly CompiledCheck[],
    judge: (checks: readonly CompiledCheck[]) => Results,
  ): Results {
    const under = JSON.stringify(proof);
    const { judged } = this;
    const before = judged.subjects === subjects && judged.under === under ? judged.by : new Map<string, Result[]>();
    const named = checks
      .filter(({ each }) => each !== 'model')
      // All that is compiled of a check stands in its definition.
      .map((check) => ({ check, name: JSON.stringify(check.definition) }));
    const fresh = judge(named.filter(({ name }) => !before.has(name)).map(({ check }) => check));
    const now = named.map(({ check, name }) => ({ check, name, results: before.get(name) ?? fresh.get(check)! }));
    this.judged = { subjects, under, by: new Map(now.map(({ name, results }) => [name, results])) };
    return new Map(now.map(({ check, results }) => [check, results]));
  }
}
