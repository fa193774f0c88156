/** One airway that must hold back fire as what holds it up sees it: its pieces, what they weigh, what is allowed. */
import { fileUnder } from '../collect.js';
import { nameOf } from '../element-refs.js';
import type { CarriedDuct, Stretch, StretchPart, SupportFacts, SupportSpan, SupportsFound } from '../model.js';
import type { Decided } from './decided.js';
import type { FactObject } from './fact-schema.js';
import type { RunStrategy } from './run-strategy.js';
import type { Subject } from './subject.js';
import { type Weighed, weigh } from './support-design.js';
import { publishedRodStress, supportLimits } from './support-limits.js';
import type { TestedSystem } from './tested-system.js';

/** One airway that must hold back fire, with what is known of its supports. */
export interface Carried {
  readonly strategy: RunStrategy;
  /** Whose subject the facts of the run and the models are. */
  readonly run: Subject;
  readonly system: TestedSystem | undefined;
}

export interface HeldPiece {
  readonly stretch: Stretch;
  readonly part: StretchPart;
  readonly duct: CarriedDuct | undefined;
}

/** What was found of the supports of one run. */
export interface RunSupports {
  readonly ducts: ReadonlyMap<string, CarriedDuct>;
  readonly supports: readonly SupportFacts[];
  readonly spans: readonly SupportSpan[];
  readonly isModelled: boolean;
}

const NONE: SupportsFound = { ducts: [], supports: [], spans: [], modelledRuns: [] };

/** Shared out to the runs once, so that none looks through those of all others. */
export function supportsByRun(found: SupportsFound = NONE): (run: string) => RunSupports {
  const ducts = new Map(found.ducts.map((duct) => [nameOf(duct), duct]));
  const supports = new Map<string, SupportFacts[]>();
  for (const one of found.supports) fileUnder(supports, one.run, one);
  const spans = new Map<string, SupportSpan[]>();
  for (const one of found.spans) fileUnder(spans, one.run, one);
  const modelled = new Set(found.modelledRuns);
  return (run) => ({
    ducts,
    supports: supports.get(run) ?? [],
    spans: spans.get(run) ?? [],
    isModelled: modelled.has(run),
  });
}

/** Of protected ductwork that must hold back fire; what is bare lapses, and is said elsewhere. */
export class SupportedRun {
  readonly minutes: number | undefined;
  readonly pieces: readonly HeldPiece[];

  constructor(
    readonly carried: Carried,
    readonly found: RunSupports,
    readonly decided: Decided,
  ) {
    const { required, airway, continuity } = carried.strategy;
    const { integrity, insulation } = required;
    this.minutes = integrity === undefined || insulation === undefined ? undefined : Math.max(integrity, insulation);
    const needed = new Set(continuity.needed.filter(({ protection }) => protection.kind !== 'none'));
    this.pieces = airway.stretches.flatMap((stretch) =>
      stretch.parts
        .filter((part) => needed.has(part))
        .map((part) => ({ stretch, part, duct: found.ducts.get(nameOf(part)) })),
    );
  }

  get isProtected(): boolean {
    return this.pieces.some(({ part }) => part.protection.kind !== 'unknown');
  }

  get isModelled(): boolean {
    return this.found.isModelled;
  }

  piecesOf({ parts }: SupportSpan): HeldPiece[] {
    return this.pieces.filter(({ stretch, part }) =>
      parts.some((one) => one.stretch === stretch.id && stretch.parts[one.part] === part),
    );
  }

  weighed({ part, duct }: HeldPiece): Weighed | undefined {
    const { choices, published = [] } = this.decided;
    return duct && weigh(duct, part.protection, this.carried.system, choices?.supports, published);
  }

  /** The heaviest of what it carries any of; undefined where one of them is not known. */
  heaviest(support: SupportFacts, own: HeldPiece): Weighed | undefined {
    const beside = this.found.spans
      .filter(({ kind, supports }) => kind !== 'riser' && kind !== 'riserEnd' && supports.includes(support.id))
      .flatMap((span) => this.piecesOf(span).filter(({ duct }) => duct !== undefined));
    const all = [own, ...beside].map((piece) => this.weighed(piece));
    if (all.some((one) => one?.perMetre === undefined)) return undefined;
    return all.reduce((most, one) => (one!.perMetre! > most!.perMetre! ? one : most));
  }

  limits(duct: CarriedDuct | undefined): FactObject {
    return supportLimits(this.carried.system, duct, this.minutes);
  }

  /** What rods may be stressed to for so long: as tested, else as standards have it. */
  rodStressAllowed(limits: FactObject): number | undefined {
    return limits.rodStressStated === true ? numeric(limits.rodStressAtMost) : this.publishedRodStress;
  }

  get publishedRodStress(): number | undefined {
    return publishedRodStress(this.decided.published ?? [], this.minutes);
  }
}

export const numeric = (value: unknown): number | undefined => (typeof value === 'number' ? value : undefined);
export const hundredths = (value: number | undefined): number | undefined =>
  value === undefined ? undefined : Number(value.toFixed(2));
