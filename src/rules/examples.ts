import type { Example } from './check-set.js';
import { evaluateCheck, type Verdict } from './evaluate.js';
import type { CompiledCheck, RuleSet } from './rule-set.js';
import { say } from './say.js';

export interface ExampleResult {
  readonly file: string;
  readonly line: number;
  readonly check: string;
  /** From 1, within the check. */
  readonly example: number;
  readonly why: string | null;
  readonly ok: boolean;
  readonly expected: string;
  readonly got: string;
  /** What a finding would say. */
  readonly messages: readonly string[];
}

/** Runs the worked examples that the documents carry: facts in, outcome out. */
export function runExamples(rules: RuleSet): ExampleResult[] {
  return rules.checks.flatMap((check) =>
    check.examples.map(({ definition, line }, i) => runExample(check, definition, line, i + 1)),
  );
}

function runExample(check: CompiledCheck, example: Example, line: number, number: number): ExampleResult {
  const verdicts = evaluateCheck(check, example.facts, { demonstration: example.brief?.demonstration === true });
  const expected = describe(example.outcome, example.wouldBe, example.missing, example.reasons);
  const got = describeVerdicts(verdicts, example);
  return {
    file: check.file,
    line,
    check: check.definition.id,
    example: number,
    why: example.why ?? null,
    ok: expected === got,
    expected,
    got,
    messages: verdicts.map((verdict) => say(check, verdict, example.facts, 0).message),
  };
}

/** Says as much as the example asks for. `wouldBe` is always compared: it is too easily forgotten. */
function describeVerdicts(verdicts: readonly Verdict[], example: Example): string {
  const outcomes = [...new Set(verdicts.map(({ outcome }) => outcome))].join(' and ');
  const wouldBe = verdicts.find((verdict) => verdict.wouldBe !== null)?.wouldBe ?? undefined;
  const missing = example.missing && [...new Set(verdicts.flatMap((verdict) => verdict.missing))];
  const reasons = example.reasons && verdicts.flatMap(({ reason }) => (reason === null ? [] : [reason]));
  return describe(outcomes, wouldBe, missing, reasons);
}

function describe(
  outcome: string,
  wouldBe: string | undefined,
  missing: readonly string[] | undefined,
  reasons: readonly string[] | undefined,
): string {
  return [
    outcome,
    wouldBe === undefined ? '' : `would be ${wouldBe}`,
    missing ? `missing ${[...missing].sort().join(', ')}` : '',
    reasons ? `for ${[...reasons].sort().join(', ')}` : '',
  ]
    .filter((part) => part !== '')
    .join(', ');
}
