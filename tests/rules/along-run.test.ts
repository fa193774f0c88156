/** The choice of tested systems along a run against every assignment there is. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { areCompatible, assignmentOf, chooseAlong, compareAssignments } from '../../src/rules/along-run.js';
import type { Candidate } from '../../src/rules/candidates.js';
import type { TestedSystem } from '../../src/rules/tested-system.js';
import { shippedRules } from './rule-cases.js';

const [blanket] = shippedRules.systems as [TestedSystem];
const IDS = ['a', 'b', 'c', 'd'] as const;

const anySystems = fc.array(fc.tuple(fc.constantFrom(...IDS), fc.constantFrom(...IDS)), { maxLength: 4 }).map((pairs) =>
  IDS.map(
    (id): TestedSystem => ({
      ...blanket,
      id,
      compatibleWith: pairs
        .filter(([from, to]) => from === id && to !== id)
        .map(([, system]) => ({ system, source: 'a test' })),
    }),
  ),
);

interface Drawn {
  readonly system: number;
  readonly misses: number;
  readonly unknown: number;
  readonly margin: number;
  readonly material: number;
}
const anyDrawn: fc.Arbitrary<Drawn> = fc.record({
  system: fc.nat(3),
  misses: fc.nat(1),
  unknown: fc.nat(1),
  // Few values, so that there are ties.
  margin: fc.constantFrom(-0.5, 0, 0.25, Number.POSITIVE_INFINITY),
  material: fc.constantFrom(10, 20),
});

function candidateOf(systems: readonly TestedSystem[], drawn: Drawn): Candidate {
  const { system, ...counted } = drawn;
  return {
    system: systems[system]!,
    ...{ fixing: undefined, detail: undefined, facts: {}, fixingMargin: 0 },
    ...counted,
  };
}

/** Every choice of one candidate, or none, for each place, of systems that may stand together. */
function* assignments(places: readonly (readonly Candidate[])[]): Generator<(Candidate | undefined)[]> {
  const [first, ...rest] = places;
  if (!first) return yield [];
  for (const others of assignments(rest))
    for (const one of [...first, undefined])
      if (!one || others.every((other) => !other || areCompatible(one.system, other.system))) yield [one, ...others];
}

describe('the choice along a run', () => {
  it('is the best of all assignments', () => {
    let together = 0;
    fc.assert(
      fc.property(
        anySystems,
        fc.array(fc.array(anyDrawn, { maxLength: 4 }), { minLength: 1, maxLength: 3 }),
        (systems, drawn) => {
          const places = drawn.map((list) => list.map((one) => candidateOf(systems, one)));
          const all = [...assignments(places)].map(assignmentOf);
          const best = all.reduce((a, b) => (compareAssignments(b, a) < 0 ? b : a));
          const chosen = chooseAlong(places, []);
          const own = assignmentOf(chosen);
          if (own.systems > 1) together++;
          // Where not every place can have one, those without take their own best: that is judged by itself.
          if (best.counts[0] === 0) expect(compareAssignments(own, best)).toBe(0);
          expect(chosen.map((one) => one === undefined)).toEqual(places.map((list) => list.length === 0));
        },
      ),
      { numRuns: 2000, seed: 8 },
    );
    expect(together).toBeGreaterThan(50);
  });

  it('does not hang on the order of places, and of equals takes the first that the brief lists', () => {
    const systems = IDS.map((id): TestedSystem => ({ ...blanket, id }));
    const equal = (system: number) => candidateOf(systems, { system, misses: 0, unknown: 0, margin: 0, material: 10 });
    const places = [
      [equal(2), equal(1)],
      [equal(1), equal(2)],
    ];
    const ids = (listed: string[], of = places) => chooseAlong(of, listed).map((one) => one?.system.id);
    expect(ids(['c', 'b'])).toEqual(['c', 'c']);
    expect(ids(['b', 'c'])).toEqual(['b', 'b']);
    expect(ids([])).toEqual(['b', 'b']);
    // What the brief lists comes before all that it does not, whatever their ids.
    expect(ids(['c'])).toEqual(['c', 'c']);
    expect(ids(['d', 'c'])).toEqual(['c', 'c']);
    expect(ids(['d'])).toEqual(['b', 'b']);
    expect(ids([], [...places].reverse())).toEqual(['b', 'b']);
  });
});
