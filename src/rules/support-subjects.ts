/** Supports and the lengths between them, as checks look at them, and the schedule that supports are installed by. */
import { compareTexts } from '../collect.js';
import { nameOf, refOf, refsOf } from '../element-refs.js';
import { resistsFire } from '../fire-rating/index.js';
import type {
  CarriedDuct,
  Crossings,
  ElementRef,
  HangsFrom,
  Stretch,
  StretchPart,
  SupportFacts,
  SupportRow,
  SupportSpan,
  SupportsFound,
} from '../model.js';
import { supportsNeeded } from '../supports/loads.js';
import { elongation } from '../supports/rods.js';
import { oneLine } from '../words/text.js';
import type { Decided } from './decided.js';
import type { FactObject } from './fact-schema.js';
import { known } from './known.js';
import type { RunStrategy } from './run-strategy.js';
import type { Subject } from './subject.js';
import { held, type Weighed, weigh } from './support-design.js';
import { publishedRodStress, smallerSide, supportLimits } from './support-limits.js';
import type { TestedSystem } from './tested-system.js';

/** One airway that must hold back fire, with what is known of its supports. */
export interface Carried {
  readonly strategy: RunStrategy;
  /** Whose subject the facts of the run and the models are. */
  readonly run: Subject;
  readonly system: TestedSystem | undefined;
}

interface Piece {
  readonly stretch: Stretch;
  readonly part: StretchPart;
  readonly duct: CarriedDuct | undefined;
}

const NONE: SupportsFound = { ducts: [], supports: [], spans: [], modelledRuns: [] };

/** Of protected ductwork that must hold back fire; what is bare lapses, and is said elsewhere. */
export class SupportedRun {
  readonly minutes: number | undefined;
  private readonly found: SupportsFound;
  private readonly pieces: readonly Piece[];

  constructor(
    private readonly carried: Carried,
    { supports = NONE }: Crossings,
    private readonly decided: Decided,
  ) {
    const { required, airway, continuity } = carried.strategy;
    const { integrity, insulation } = required;
    this.minutes = integrity === undefined || insulation === undefined ? undefined : Math.max(integrity, insulation);
    this.found = supports;
    const ducts = new Map(supports.ducts.map((duct) => [nameOf(duct), duct]));
    const needed = new Set(continuity.needed.filter(({ protection }) => protection.kind !== 'none'));
    this.pieces = airway.stretches.flatMap((stretch) =>
      stretch.parts
        .filter((part) => needed.has(part))
        .map((part) => ({ stretch, part, duct: ducts.get(nameOf(part)) })),
    );
  }

  get isProtected(): boolean {
    return this.pieces.some(({ part }) => part.protection.kind !== 'unknown');
  }

  get isModelled(): boolean {
    return this.found.modelledRuns.includes(this.carried.strategy.run.id);
  }

  supports(): Subject[] {
    return this.found.supports.flatMap((support) => {
      const piece = this.pieces.find(({ part }) => nameOf(part) === nameOf(support.carries));
      return piece ? [this.supportSubject(support, piece)] : [];
    });
  }

  spans(): Subject[] {
    if (!this.isModelled) return [];
    return this.found.spans.flatMap((span) => {
      const own = this.piecesOf(span);
      return own.length > 0 ? [this.spanSubject(span, own)] : [];
    });
  }

  private piecesOf({ parts }: SupportSpan): Piece[] {
    return this.pieces.filter(({ stretch, part }) =>
      parts.some((one) => one.stretch === stretch.id && stretch.parts[one.part] === part),
    );
  }

  private weighed({ part, duct }: Piece): Weighed | undefined {
    const { choices, published = [] } = this.decided;
    return duct && weigh(duct, part.protection, this.carried.system, choices?.supports, published);
  }

  /** The heaviest of what it carries any of; undefined where one of them is not known. */
  private heaviest(support: SupportFacts, own: Piece): Weighed | undefined {
    const beside = this.found.spans
      .filter(({ kind, supports }) => kind !== 'riser' && supports.includes(support.id))
      .flatMap((span) => this.piecesOf(span).filter(({ duct }) => duct !== undefined));
    const all = [own, ...beside].map((piece) => this.weighed(piece));
    if (all.some((one) => one?.perMetre === undefined)) return undefined;
    return all.reduce((most, one) => (one!.perMetre! > most!.perMetre! ? one : most));
  }

  private limits(duct: CarriedDuct | undefined): FactObject {
    return supportLimits(this.carried.system, duct, this.minutes);
  }

  private supportSubject(support: SupportFacts, piece: Piece): Subject {
    const { choices, published = [] } = this.decided;
    const limits = this.limits(piece.duct);
    const [rod, bearer] = [support.rod ?? choices?.supports?.rod, support.bearer ?? choices?.supports?.bearer];
    const fromStandard = publishedRodStress(published, this.minutes);
    const allowed = limits.rodStressStated === true ? limits.rodStressAtMost : fromStandard;
    // Where supports may be missing from the models nobody knows what one of them carries; a riser stands on floors.
    const isHanging = piece.duct?.way === 'level';
    const carried = this.isModelled && isHanging ? (support.carried ?? undefined) : undefined;
    const weighed = isHanging ? this.heaviest(support, piece) : undefined;
    const own = weighed && held(weighed, { rod, bearer }, choices?.supports, carried, numeric(allowed));
    const tested = this.carried.system?.supports;
    return this.subject(
      {
        support: known({
          id: support.id,
          name: oneLine(support.name) || support.id,
          duct: oneLine(piece.part.name) || piece.part.globalId,
          minutes: this.minutes,
          hanging: isHanging,
          loadKnowable: this.isModelled && isHanging,
          rod,
          rods: choices?.supports?.rods ?? 2,
          rodStress: hundredths(own?.rodStress),
          rodStressPublished: fromStandard,
          rodLoad: hundredths(own?.rodLoad),
          rodLength: support.rodLength,
          bearer,
          bearerStress: hundredths(own?.bearerStress),
          carried,
          massPerMetre: hundredths(weighed?.perMetre),
          spacingByStress: own?.spacingByStress === undefined ? undefined : Math.floor(own.spacingByStress),
          ...hangsFacts(support.hangsFrom, this.minutes),
        }),
        system: {
          ...limits,
          ...known({
            rodAllowed: rod && tested?.rods ? tested.rods.includes(rod) : undefined,
            bearerAllowed: bearer && tested?.bearers ? tested.bearers.includes(bearer) : undefined,
          }),
        },
      },
      { elements: [...support.elements, support.carries], key: `support ${support.id}`, at: support.position },
    );
  }

  private spanSubject(span: SupportSpan, own: readonly Piece[]): Subject {
    const sides = own.map(({ duct }) => (duct ? smallerSide(duct) : undefined));
    const longest = [...own].sort((a, b) => b.part.length - a.part.length)[0]!;
    const { strategy } = this.carried;
    const all = [...strategy.airway.inner, ...strategy.airway.shut].map(({ penetration }) => penetration);
    const barrier = all.find(({ id }) => id === span.penetration)?.barrier;
    return this.subject(
      {
        span: known({
          kind: span.kind,
          duct: oneLine(longest.part.name) || longest.part.globalId,
          barrier: barrier && (oneLine(barrier.name) || barrier.globalId),
          length: span.length,
          found: span.supports.length > 0,
          smallerSide: sides.includes(undefined) ? undefined : Math.min(...sides.map((side) => side ?? 0)),
        }),
        system: this.limits(longest.duct),
      },
      {
        elements: own.map(({ part }) => part),
        key: [
          'span',
          span.kind,
          ...(span.penetration === null ? [] : [barrier?.globalId ?? '']),
          ...span.supports,
        ].join(' '),
        at: span.at,
      },
    );
  }

  private subject(
    own: FactObject,
    { elements, key, at }: { elements: readonly ElementRef[] } & Pick<Subject, 'key' | 'at'>,
  ) {
    const { run, strategy } = this.carried;
    return {
      ...run,
      facts: { ...run.facts, ...own },
      subject: { type: 'run', id: strategy.run.id, elements: refsOf(elements) },
      key: `${run.key} ${key}`,
      at,
    } satisfies Subject;
  }

  /** A row for each section in each stretch. */
  rows(): SupportRow[] {
    const groups = new Map<string, Piece[]>();
    for (const piece of this.pieces) {
      if (piece.duct?.way !== 'level') continue;
      const { shape, width, height, diameter, material } = piece.duct;
      const { kind, layers } = piece.part.protection;
      const key = [piece.stretch.id, shape, width, height, diameter, material, kind, layers].join(' ');
      groups.set(key, [...(groups.get(key) ?? []), piece]);
    }
    return [...groups].sort(([a], [b]) => compareTexts(a, b)).map(([, group]) => this.row(group));
  }

  private row(group: readonly Piece[]): SupportRow {
    const { choices, published = [] } = this.decided;
    const { strategy, system } = this.carried;
    const choice = choices?.supports;
    const [{ stretch, duct }] = group as [Piece & { duct: CarriedDuct }];
    const weighed = this.weighed(group[0]!)!;
    const limits = this.limits(duct);
    const isTested = limits.rodStressStated === true;
    const allowed = isTested ? numeric(limits.rodStressAtMost) : publishedRodStress(published, this.minutes);
    const chosen = { rod: choice?.rod, bearer: choice?.bearer };
    const byStress = held(weighed, chosen, choice, undefined, allowed).spacingByStress;
    const tested = numeric(limits.supportSpacingAtMost);
    const governing =
      tested === undefined || byStress === undefined ? undefined : Math.min(tested, Math.floor(byStress));
    const own = held(weighed, chosen, choice, governing, allowed);
    const length = Number(group.reduce((sum, { part }) => sum + part.length, 0).toFixed(1));
    const growth = this.minutes === undefined ? undefined : elongation(1000, this.minutes);
    const names = new Set(group.map(({ part }) => nameOf(part)));
    return {
      ...{ run: strategy.run.id, part: strategy.ordinal, stretch: stretch.id, system: strategy.run.system },
      elements: group.map(({ part }) => refOf(part)),
      ...{ shape: duct.shape, width: duct.width, height: duct.height, diameter: duct.diameter, length },
      minutes: this.minutes ?? null,
      sheet: rounded(weighed.sheet),
      insulation: rounded(weighed.insulation),
      protection: rounded(weighed.protection),
      perMetre: hundredths(weighed.perMetre) ?? null,
      ...{ rod: chosen.rod ?? null, rods: choice?.rods ?? 2, bearer: chosen.bearer ?? null },
      bearerLength: tenths(own.bearerLength),
      bearerMass: hundredths(own.bearerMass) ?? null,
      testedSystem: system?.name ?? null,
      testedStatus: system?.status ?? null,
      spacing: {
        tested: tested ?? null,
        byStress: byStress === undefined ? null : Math.floor(byStress),
        governing: governing ?? null,
      },
      load: tenths(own.load),
      rodLoad: tenths(own.rodLoad),
      rodStress: hundredths(own.rodStress) ?? null,
      rodStressAllowed: allowed ?? null,
      rodStressFrom: allowed === undefined ? null : isTested ? 'system' : 'published',
      bearerStress: hundredths(own.bearerStress) ?? null,
      bearerStressAllowed: numeric(limits.bearerStressAtMost) ?? null,
      firstSupport: numeric(limits.firstSupportAtMost) ?? null,
      rodLengthAtMost: numeric(limits.rodLengthAtMost) ?? null,
      growthPerMetre: tenths(growth),
      needed: governing === undefined || governing === 0 ? null : supportsNeeded(length, governing),
      found: this.found.supports.filter(({ carries }) => names.has(nameOf(carries))).length,
    };
  }
}

/** Steel beams, stud walls and the like say nothing by themselves; timber burns, and panels let go. */
const LETS_GO: readonly string[] = ['timberStud', 'massTimber', 'sandwichPanel'];

function hangsFacts(from: HangsFrom | null, minutes: number | undefined): FactObject {
  if (!from) return {};
  const { rating, construction } = from;
  const resists = resistsFire(rating);
  const bears = [rating.loadbearing, rating.integrity, rating.duration].find((value) => typeof value === 'number');
  const holdsSo = resists === true && typeof bears === 'number' ? bears : resists === false ? 0 : undefined;
  const letsGo = LETS_GO.includes(construction) || resists === false;
  return known({
    hangsFrom: oneLine(from.name) || from.globalId,
    hangsFromKind: from.kind,
    hangsFromConstruction: construction === 'unknown' ? undefined : construction,
    hangsFromMinutes: holdsSo,
    hangsFromHolds: letsGo ? false : minutes === undefined || holdsSo === undefined ? undefined : holdsSo >= minutes,
  });
}

const numeric = (value: unknown): number | undefined => (typeof value === 'number' ? value : undefined);
const hundredths = (value: number | undefined): number | undefined =>
  value === undefined ? undefined : Number(value.toFixed(2));
const tenths = (value: number | undefined): number | null => (value === undefined ? null : Number(value.toFixed(1)));

function rounded(mass: Weighed['sheet']): SupportRow['sheet'] {
  if (!mass) return { thickness: null, density: null, perMetre: null, from: null };
  return { ...mass, perMetre: hundredths(mass.perMetre ?? undefined) ?? null };
}
