/**
 * Rule documents and briefs changed at random from a seed, loaded, told about and judged by, on the demo building.
 *
 * - A **crash** is anything thrown but a RuleDocumentError of one line with a place.
 * - A **hang** is a document that takes more than {@link LONGEST} of processor time, or is stopped after thirty times that
 *   by the clock, since the machine may be busy.
 * - A **false pass** is a finding that passed of a check that says of itself, as the document is written, that it is about
 *   fire, unless what is written proves it: `false-pass.ts` reads the texts by itself and says what it looks at.
 *
 * Documents are judged by without a brief and under the demo's. Reading is not repeated: the facts of a brief are only
 * loaded, its choices are judged by.
 */
import { createContext, runInContext } from 'node:vm';
import {
  judge,
  loadBrief,
  loadRules,
  notesOn,
  type ProjectBrief,
  RuleDocumentError,
  type RuleDocumentText,
  type RuleSet,
  runExamples,
} from '../../src/rules/index.js';
import { type Demo, demoCrossings } from './demo-crossings.js';
import { falsePasses, firePasses } from './false-pass.js';
import { mutated, pick, randomFrom } from './mutate-document.js';

/** Milliseconds of processor time. */
const LONGEST = 20_000;

export interface Fault {
  readonly seed: number;
  readonly what: string;
  readonly document: RuleDocumentText;
}

export interface DocumentsFuzzed {
  readonly runs: number;
  readonly refused: number;
  /** Loaded, told about and judged by. */
  readonly judged: number;
  /** How many findings about fire passed and were held against what is written. */
  readonly firePasses: number;
  readonly crashes: readonly Fault[];
  readonly hangs: readonly Fault[];
  readonly falsePasses: readonly Fault[];
  /** Milliseconds of processor time that the slowest document took. */
  readonly slowest: number;
}

export interface DocumentsInput {
  readonly shipped: readonly RuleDocumentText[];
  readonly brief: RuleDocumentText;
  readonly runs: number;
  /** Run n has the seed `seed + n`, so that any run can be made again by itself. */
  readonly seed: number;
  /** What is judged; left out: the demo building is read. */
  readonly demo?: Demo;
}

export async function fuzzDocuments({ shipped, brief, runs, seed, demo }: DocumentsInput): Promise<DocumentsFuzzed> {
  const rules = loadRules(shipped);
  const briefRead = loadBrief(brief, rules);
  const ground = { shipped, brief, rules, briefRead, demo: demo ?? (await demoCrossings(rules, briefRead)) };
  const all = Array.from({ length: runs }, (_, i) => fuzzOne(ground, seed + i));
  const faults = (kind: Ended['kind']): Fault[] =>
    all.flatMap((one) => (one.kind === kind ? [{ seed: one.seed, what: one.what, document: one.document }] : []));
  return {
    runs,
    refused: all.filter(({ kind }) => kind === 'refused').length,
    judged: all.filter(({ kind }) => kind === 'judged').length,
    firePasses: all.reduce((sum, one) => sum + one.passes, 0),
    crashes: faults('crash'),
    hangs: faults('hang'),
    falsePasses: faults('falsePass'),
    slowest: Math.max(...all.map(({ milliseconds }) => milliseconds)),
  };
}

interface Ground {
  readonly shipped: readonly RuleDocumentText[];
  readonly brief: RuleDocumentText;
  readonly rules: RuleSet;
  readonly briefRead: ProjectBrief;
  readonly demo: Demo;
}

interface Outcome {
  readonly kind: 'refused' | 'judged' | 'crash' | 'hang' | 'falsePass';
  readonly what: string;
  /** Findings about fire that passed. */
  readonly passes: number;
}

interface Ended extends Outcome {
  readonly seed: number;
  readonly document: RuleDocumentText;
  readonly milliseconds: number;
}

function fuzzOne(ground: Ground, seed: number): Ended {
  const random = randomFrom(seed);
  const all = [...ground.shipped, ground.brief];
  const original = pick(random, all);
  const others = all.map(({ text }) => text);
  const document = { file: original.file, text: mutated(original.text, others, random) };
  const start = process.cpuUsage();
  const ended = stopped(() => tried(ground, original, document), 30 * LONGEST);
  const { user, system } = process.cpuUsage(start);
  const milliseconds = (user + system) / 1000;
  const hangs = ended.kind !== 'hang' && milliseconds > LONGEST;
  const outcome = hangs ? { kind: 'hang' as const, what: `took ${milliseconds} ms`, passes: 0 } : ended;
  return { ...outcome, seed, document, milliseconds };
}

/** Node can stop code that does not end by itself only in a context. */
function stopped(run: () => Outcome, timeout: number): Outcome {
  try {
    return runInContext('run()', createContext({ run }), { timeout }) as Outcome;
  } catch (cause) {
    // An error of the context's own, which is no Error here.
    const code = typeof cause === 'object' && cause !== null && 'code' in cause ? cause.code : undefined;
    if (code === 'ERR_SCRIPT_EXECUTION_TIMEOUT')
      return { kind: 'hang', what: `was stopped after ${timeout} ms`, passes: 0 };
    throw cause;
  }
}

function tried(ground: Ground, original: RuleDocumentText, document: RuleDocumentText): Outcome {
  try {
    return original === ground.brief ? triedBrief(ground, document) : triedRules(ground, original, document);
  } catch (cause) {
    const isPlaced = cause instanceof RuleDocumentError && cause.line > 0 && cause.column > 0;
    if (isPlaced && cause.file === document.file && /^[^\n\r]{5,}$/.test(cause.message))
      return { kind: 'refused', what: cause.message, passes: 0 };
    return { kind: 'crash', what: cause instanceof Error ? `${cause.stack}` : String(cause), passes: 0 };
  }
}

function triedBrief(ground: Ground, document: RuleDocumentText): Outcome {
  return judged(ground, ground.rules, ground.shipped, [{ text: document, brief: loadBrief(document, ground.rules) }]);
}

/** The checks of the document alone; with all shipped checks where it holds none. */
function triedRules(ground: Ground, original: RuleDocumentText, document: RuleDocumentText): Outcome {
  const own = loadRules([document], ground.rules);
  notesOn([document], own, { rules: ground.rules, texts: ground.shipped });
  runExamples(own);
  const texts = ground.shipped.map((text) => (text === original ? document : text));
  const { rules } = ground;
  const other = <T extends { readonly file: string }>(list: readonly T[], mine: readonly T[]): readonly T[] => [
    ...list.filter(({ file }) => file !== original.file),
    ...mine,
  ];
  const set: RuleSet = {
    ...rules,
    documents: other(rules.documents, own.documents),
    checks: own.checks.length > 0 ? own.checks : rules.checks,
    systems: other(rules.systems, own.systems),
    dampers: other(rules.dampers, own.dampers),
    services: other(rules.services, own.services),
    flanges: other(rules.flanges, own.flanges),
    published: own.published.length > 0 ? own.published : rules.published,
  };
  return judged(ground, set, texts, [undefined, { text: ground.brief, brief: ground.briefRead }]);
}

type Brief = { readonly text: RuleDocumentText; readonly brief: ProjectBrief } | undefined;

function judged(
  { demo: { crossings, models } }: Ground,
  rules: RuleSet,
  texts: readonly RuleDocumentText[],
  briefs: readonly Brief[],
): Outcome {
  let passes = 0;
  for (const given of briefs) {
    const { findings } = judge(crossings, rules, { brief: given?.brief, models, allFindings: true });
    const written = { documents: texts.map(({ text }) => text), brief: given?.text.text };
    passes += firePasses(findings, written).length;
    const [wrong] = falsePasses(findings, written);
    if (wrong) return { kind: 'falsePass', what: wrong, passes };
  }
  return { kind: 'judged', what: '', passes };
}
