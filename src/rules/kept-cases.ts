/** What checks look at, kept while nothing changes that it hangs on: then a changed limit is held to what there is. */
import type { Crossings, ModelInfo } from '../model.js';
import type { Decided } from './decided.js';
import { type Cases, casesOf } from './subjects.js';

export class KeptCases {
  private last:
    | {
        readonly crossings: Crossings;
        readonly models: readonly ModelInfo[] | undefined;
        readonly said: string;
        readonly cases: Cases;
      }
    | undefined;

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
}
