/** One run: a mutant of one file of one building, read and judged, by its number alone. */
import { findInBuilding, findPenetrations } from '../../src/find/find-penetrations.js';
import type { Federation } from '../../src/model.js';
import { workerReader } from '../../src/platform/worker-reader.js';
import { InputError } from '../../src/read/container.js';
import type { FileReader } from '../../src/read/file-reader.js';
import { readFederation } from '../../src/read/read-federation.js';
import { readHere } from '../../src/read/read-here.js';
import { buildReport } from '../../src/report/build-report.js';
import { briefOf } from '../../src/review/documents.js';
import { reviewFound } from '../../src/review/review.js';
import { constructionRows, judgeWithResults, largestSeparation } from '../../src/rules/index.js';
import { demoBrief, demoBriefText, rules } from '../shipped-rules.js';
import { type Building, cases, parts, realModels, type Shares, wholeDemo } from './buildings.js';
import { mutantOf } from './mutate.js';
import { type Judged, verdictOf } from './oracle.js';
import { type Random, randomOf } from './random.js';
import { StepText } from './step-text.js';

export interface Task {
  readonly seed: number;
  /** The harmed file is read as the program does it: in a thread that is ended where it takes too long. */
  readonly isWatched: boolean;
}

export interface Outcome {
  readonly seed: number;
  /** The mutation, and of what. */
  readonly what: string;
  readonly end: 'reviewed' | 'refused' | 'stopped' | 'crash' | 'false pass';
  /** In one line. */
  readonly detail: string;
  readonly passes: number;
  readonly reread: number;
}

/** Remedies, quantities and cuts can crash and never pass anything: so many runs make them once. */
const WHOLE_EVERY = 10;

const facts = demoBrief.facts;
const guidance = { facts, constructions: constructionRows(rules) };
const common = { createdAt: '2026-01-01T00:00:00Z', toolVersion: '0' };

function buildingOf(random: Random, shares: Shares): Building {
  const share = 100 * random.next();
  if (share < shares.parts) return random.pick(parts());
  if (share < shares.parts + shares.cases) return random.pick(cases());
  const real = realModels();
  return share < shares.parts + shares.cases + shares.demo || real.length === 0 ? wholeDemo() : random.pick(real);
}

const encoder = new TextEncoder();
/** Files as they were built, each read once. */
const unharmed = new Map<string, ReturnType<FileReader>>();
const judgedBefore = new Map<string, Promise<Judged>>();

const unharmedSteps = new Map<string, StepText>();

function stepOf(text: string): StepText {
  const step = unharmedSteps.get(text) ?? new StepText(text);
  unharmedSteps.set(text, step);
  return step;
}

/** Shorter than the program's: mutants are small. */
const watched = workerReader(undefined, () => ({ elementSeconds: 15, fileSeconds: 60 }));

function federationOf(
  building: Building,
  bytes: readonly Uint8Array[],
  harmed: number,
  isWatched = false,
): Promise<Federation> {
  const reader: FileReader = (input, model) => {
    const i = building.files.findIndex(({ name }) => name === input.name);
    if (i === harmed) return (isWatched ? watched : readHere)(input, model, guidance);
    const key = `${building.name}/${input.name}`;
    const reading = unharmed.get(key) ?? readHere(input, model, guidance);
    unharmed.set(key, reading);
    return reading;
  };
  return readFederation(
    building.files.map(({ name }, i) => ({ name, bytes: bytes[i]! })),
    { reader },
  );
}

function judged(federation: Federation): Judged {
  const { models } = federation;
  const crossings = findPenetrations(federation, { separation: largestSeparation(rules), facts });
  const judgement = judgeWithResults(crossings, rules, { brief: demoBrief, models, allFindings: true });
  const report = buildReport({ models, crossings, ...judgement, ...common });
  const fire = new Set(report.checks.filter(({ about }) => about === 'fire').map(({ id }) => id));
  return { report, results: judgement.all(), fire };
}

async function reviewWhole(federation: Federation, isUnderBrief: boolean): Promise<void> {
  const options = { separation: largestSeparation(rules), facts: isUnderBrief ? facts : undefined };
  const { crossings, buildingWide: wide } = findInBuilding(federation, options);
  const brief = isUnderBrief ? briefOf(demoBriefText.file, encoder.encode(demoBriefText.text), rules) : undefined;
  await reviewFound({ federation, crossings, wide }, { rules, brief, ...common });
}

/** The review of a building without a harm. */
export function before(building: Building): Promise<Judged> {
  const known = judgedBefore.get(building.name);
  if (known) return known;
  const made = federationOf(
    building,
    building.files.map(({ text }) => encoder.encode(text)),
    -1,
  ).then(judged);
  judgedBefore.set(building.name, made);
  return made;
}

export async function runOne({ seed, isWatched }: Task, shares: Shares): Promise<Outcome> {
  const random = randomOf(seed);
  const building = buildingOf(random, shares);
  const harmed = random.below(building.files.length);
  const { what, bytes, taken } = mutantOf(building.files[harmed]!.text, random);
  const about = { seed, what: `${what} in ${building.files[harmed]!.name} of ${building.name}` };
  const none = { passes: 0, reread: 0 };
  const unharmedJudged = building.isJudged ? await before(building) : undefined;
  const all = building.files.map(({ text }, i) => (i === harmed ? bytes : encoder.encode(text)));
  try {
    const federation = await federationOf(building, all, harmed, isWatched);
    if (seed % WHOLE_EVERY === 0) await reviewWhole(federation, building.isJudged);
    if (!unharmedJudged) {
      findPenetrations(federation, { separation: largestSeparation(rules) });
      return { ...about, ...none, end: 'reviewed', detail: '' };
    }
    const after = judged(federation);
    const steps = building.files.map(({ text }, i) =>
      i === harmed ? new StepText(new TextDecoder().decode(bytes)) : stepOf(text),
    );
    const { falsePasses, passes, reread } = verdictOf(steps, after, unharmedJudged, taken);
    const end = falsePasses.length > 0 ? 'false pass' : 'reviewed';
    return { ...about, passes, reread, end, detail: falsePasses.slice(0, 3).join('; ') };
  } catch (error) {
    if (error instanceof InputError)
      return {
        ...about,
        ...none,
        end: / stopped its reader/.test(error.message) ? 'stopped' : 'refused',
        detail: error.message,
      };
    const where = error instanceof Error ? (error.stack ?? error.message) : String(error);
    return { ...about, ...none, end: 'crash', detail: where.replace(/\s+/g, ' ').slice(0, 400) };
  }
}
