/** Verdicts on subjects that are alike: a building has a few kinds of places, and thousands of each. */
import { onceForEach } from '../collect.js';
import { evaluateReady, type Proof, type Verdict, withAllVariables } from './evaluate.js';
import type { Each, FactObject, FactValue } from './fact-schema.js';
import { factReader } from './read-fact.js';
import { factsDeciding } from './reads.js';
import type { CompiledCheck } from './rule-set.js';

/** Bounds what is kept in memory, at some kB each; beyond it all are judged anew. */
const MOST_KEPT = 10_000;

/** All checks of one kind. What they say hangs on the facts that they read alone, so subjects alike in these are judged once. */
export class AlikeVerdicts {
  private readonly known = new Map<string, readonly (readonly Verdict[])[]>();
  private readonly readers: readonly ReturnType<typeof factReader>[];

  constructor(
    private readonly each: Each,
    readonly checks: readonly CompiledCheck[],
    private readonly proof: Proof,
  ) {
    this.readers = [...new Set(checks.flatMap(factsDeciding))].map(factReader);
  }

  /** What each check says, in the order of the checks. */
  about(facts: FactObject): readonly (readonly Verdict[])[] {
    let key = '';
    for (const read of this.readers) key += written(read(facts));
    const known = this.known.get(key);
    if (known) return known;
    const ready = withAllVariables(this.each, facts);
    const said = this.checks.map((check) => evaluateReady(check, ready, this.proof));
    if (this.known.size >= MOST_KEPT) this.known.clear();
    this.known.set(key, said);
    return said;
  }
}

/** So that no two lists of values are written alike: a text can't end itself, and 1 is not "1". */
function written(value: FactValue | FactObject | undefined): string {
  if (value === undefined) return ';';
  return typeof value === 'number' ? `${value};` : `${JSON.stringify(value)};`;
}

type ByEach = (each: Each) => AlikeVerdicts;
const remembered = onceForEach((_: readonly CompiledCheck[]) => new Map<string, ByEach>());

/** One for a list of checks and what the brief says of proof, as long as that list is in use: proofs of changes judge the same again and again. */
export function verdictsBy(checks: readonly CompiledCheck[], proof: Proof): ByEach {
  const proofs = remembered(checks);
  const name = JSON.stringify(proof);
  const known = proofs.get(name) ?? newVerdicts(checks, proof);
  proofs.set(name, known);
  return known;
}

function newVerdicts(checks: readonly CompiledCheck[], proof: Proof): ByEach {
  const kinds = new Map<Each, AlikeVerdicts>();
  return (each) => {
    const known =
      kinds.get(each) ??
      new AlikeVerdicts(
        each,
        checks.filter((check) => check.each === each),
        proof,
      );
    kinds.set(each, known);
    return known;
  };
}
