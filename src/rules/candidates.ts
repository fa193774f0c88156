/** Every way that a tested system has to make one penetration good, held against it. */
import { compareNumbers } from '../collect.js';
import { acrossOf, coverMass, grownAcross } from '../supports/masses.js';
import { detailsFor, layersThere, partsOf } from './detail-facts.js';
import type { FactObject } from './fact-schema.js';
import { known } from './known.js';
import { ductSizeOf } from './read-fact.js';
import { FIXING_KINDS, isOfFixing, type ScopeLine, scopeLines } from './scope-lines.js';
import { valueAt } from './size-value.js';
import { fixingFacts, systemFacts, type Tested } from './system-facts.js';
import type { Detail } from './tested-detail.js';
import type { Fixing, TestedSystem } from './tested-system.js';

export interface Candidate extends Tested {
  /** Of the penetration, as it is or would be protected. */
  readonly facts: FactObject;
  /** What it allows here: `system.…`. */
  readonly own: FactObject;
  readonly lines: readonly ScopeLine[];
  readonly misses: readonly ScopeLine[];
  readonly unknown: readonly ScopeLine[];
  /** The least of the margins, each as a part of its limit; Infinity where nothing is measured in numbers. */
  readonly margin: number;
  /** kg of protection on one metre of duct, with the local build-up of the detail; undefined: not known. */
  readonly material: number | undefined;
}

export interface Pins {
  readonly fixing?: string | undefined;
  readonly detail?: string | undefined;
}

/** Of fixings the best alone: they do not bear on what else is asked. The best candidate comes first. */
export function candidatesOf(system: TestedSystem, facts: FactObject, pins: Pins = {}): Candidate[] {
  const details = detailsFor(system, facts, layersThere(system.protection, facts));
  const pinned = pins.detail === undefined ? details : details.filter(({ id }) => id === pins.detail);
  return ranked((pinned.length > 0 ? pinned : [undefined]).map((detail) => bestHeld(system, detail, facts, pins)));
}

/** The same with all other details, also of other barriers: what is nearest is looked for among them. */
export const otherCandidatesOf = (
  system: TestedSystem,
  facts: FactObject,
  tried: ReadonlySet<Detail | undefined>,
): Candidate[] =>
  system.details.filter((detail) => !tried.has(detail)).map((detail) => bestHeld(system, detail, facts, {}));

function bestHeld(system: TestedSystem, detail: Detail | undefined, facts: FactObject, pins: Pins): Candidate {
  const fixings = pins.fixing === undefined ? system.fixings : system.fixings.filter(({ id }) => id === pins.fixing);
  const first = candidate({ system, fixing: fixings[0], detail }, facts);
  if (fixings.length < 2) return first;
  const size = ductSizeOf(facts);
  const held = fixings.map((fixing): Held => {
    const own = known({ fixingNeeded: true, ...fixingFacts(fixing, size) });
    const lines = scopeLines({ system, fixing, detail }, own, facts, FIXING_KINDS);
    return { fixing, own, ...counted(lines), lines };
  });
  // The other lines are the same with all of them, so of margins those of the fixings alone decide.
  const [best] = held.sort(
    (a, b) =>
      a.misses.length - b.misses.length || a.unknown.length - b.unknown.length || compareNumbers(b.margin, a.margin),
  );
  return best!.fixing === first.fixing ? first : heldBy(first, best!);
}

/** One way to hold it, and the lines that go by it. */
interface Held extends Pick<Candidate, 'own' | 'lines' | 'misses' | 'unknown' | 'margin'> {
  readonly fixing: Fixing;
}

/** @param tested of one document, for one penetration */
export function candidate(tested: Tested, facts: FactObject): Candidate {
  const own = systemFacts(tested, facts);
  return withLines({ ...tested, facts, own, material: materialOf(tested, facts) }, scopeLines(tested, own, facts));
}

/** The same held otherwise: the fixing bears on no other line. */
function heldBy({ lines, own, ...rest }: Candidate, held: Held): Candidate {
  const from = lines.findIndex(isOfFixing);
  const others = lines.filter((line) => !isOfFixing(line));
  const unheld = Object.fromEntries(Object.entries(own).filter(([name]) => !(name in NOT_HELD)));
  return withLines({ ...rest, fixing: held.fixing, own: { ...unheld, ...held.own } }, [
    ...others.slice(0, from),
    ...held.lines,
    ...others.slice(from),
  ]);
}

/** What a fixing says is left out where it says nothing of it. */
const NOT_HELD = fixingFacts(undefined, {});

const withLines = (
  { system, fixing, detail, facts, own, material }: Tested & Pick<Candidate, 'facts' | 'own' | 'material'>,
  lines: readonly ScopeLine[],
): Candidate => ({ ...{ system, fixing, detail, facts, own, material, lines }, ...counted(lines) });

const counted = (lines: readonly ScopeLine[]) => ({
  misses: lines.filter(({ met }) => met === false),
  unknown: lines.filter(({ met }) => met === undefined),
  margin: marginOf(lines),
});

function marginOf(lines: readonly ScopeLine[]): number {
  let least = Number.POSITIVE_INFINITY;
  for (const line of lines) if (isBuilt(line) && line.relative! < least) least = line.relative!;
  return least;
}

/** Of what is built: more minutes than are asked, or less pressure than was tested, make nothing easier to build. */
export const isBuilt = ({ relative, unit, fact }: ScopeLine): boolean =>
  relative !== undefined && unit !== 'min' && !fact.startsWith('brief.');

function materialOf({ system, detail }: Tested, facts: FactObject): number | undefined {
  const size = ductSizeOf(facts);
  const across = acrossOf(size);
  const layers = layersThere(system.protection, facts);
  if (!across || !system.layer || layers === undefined) return undefined;
  const { thickness, density } = system.layer;
  const along = coverMass(across, thickness * layers, density);
  const builtUp = (detail ? partsOf(detail, 'localBuildUp') : []).map((part) => {
    const length = valueAt(part.length, size);
    const onTop = coverMass(grownAcross(across, thickness * layers), thickness * part.layers, density);
    return length === undefined ? undefined : (onTop * length * (part.faces === 'both' ? 2 : 1)) / 1000;
  });
  return builtUp.includes(undefined) ? undefined : builtUp.reduce<number>((sum, one) => sum + one!, along);
}

/** Best first; equal ones stay in the order of the document. */
export const ranked = (candidates: readonly Candidate[]): Candidate[] => [...candidates].sort(compareCandidates);

/** Fewer misses, less unknown, more margin, less material, more margin of the fixing. */
export const compareCandidates = (a: Candidate, b: Candidate): number =>
  a.misses.length - b.misses.length ||
  a.unknown.length - b.unknown.length ||
  compareNumbers(b.margin, a.margin) ||
  compareNumbers(a.material ?? Number.POSITIVE_INFINITY, b.material ?? Number.POSITIVE_INFINITY) ||
  compareNumbers(fixingMargin(b), fixingMargin(a));

const fixingMargin = ({ lines }: Candidate): number => marginOf(lines.filter(isOfFixing));
