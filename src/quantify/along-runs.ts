/**
 * What is needed along duct runs: for every piece that is said to be protected the layers of its tested system with what
 * holds them, the supports of the support schedule, access panels. What is built at barriers is counted there. A duct that
 * resists fire by itself needs nothing more along the run than its supports.
 */
import { fileUnder } from '../collect.js';
import { nameOf } from '../element-refs.js';
import type { Penetration, Run, StrategyRow, Stretch, StretchPart, TestedDetail } from '../model.js';
import { settledBy, type TestedSystem } from '../rules/index.js';
import { entryFor } from '../strategy/index.js';
import { listed } from '../words/text.js';
import { blanket } from './along/blanket.js';
import { board } from './along/board.js';
import { fixings } from './along/fixings.js';
import type { RunInput } from './along/input.js';
import { alongPanels } from './along/panels.js';
import { alongPart, type Context, type Missed, missing, type PiecesCounted, piecesTogether } from './along/part.js';
import { alongSupports } from './along/supports.js';
import type { Counted } from './draft.js';
import type { TakeoffPlace, Uncounted } from './takeoff.js';

export function alongRuns(input: RunInput): Counted {
  const { crossings, judgement, systems } = input;
  const byId = new Map(systems.map((system) => [system.id, system]));
  const rowOf = new Map(judgement.strategy.flatMap((row) => row.stretches.map((id) => [id, row] as const)));
  const chosen = new Map(judgement.tested.map((one) => [one.penetration, one.chosen]));
  const shared = {
    systems: byId,
    chosenAt: (penetration: string) => chosen.get(penetration) ?? undefined,
    panels: new Set(crossings.access.flatMap((one) => one.panels.map(nameOf))),
    choices: input.choices,
  };
  const { drafts, missed } = piecesTogether([
    ...crossings.runs.flatMap((run) => {
      const named = namedFor(run, input);
      return run.stretches.map((stretch) =>
        alongStretch(run, stretch, { ...shared, named, row: rowOf.get(stretch.id) }),
      );
    }),
    lapsesOf(crossings.runs, judgement.strategy),
    alongSupports(input),
  ]);
  return { drafts: [...drafts, ...alongPanels(input)], uncounted: uncountedOf(missed) };
}

/** What the brief names for the system of a run, whatever the run passes. */
function namedFor({ id, system }: Run, { crossings, entries = [] }: RunInput): StrategyRow['testedSystem'] {
  const access = crossings.access.find(({ run }) => run === id);
  const unasked = { properties: [], ratings: { required: null, reached: null }, serves: null };
  const of = { system, systemType: access?.systemType ?? null, systemNames: access?.systemNames ?? [], ...unasked };
  const found = entryFor(of, entries);
  const { testedSystem, fixing = null } = found.is === 'entry' ? found.entry : {};
  return testedSystem === undefined ? null : { id: testedSystem, fixing };
}

interface Settled extends Pick<Context, 'choices'> {
  /** By the brief; null: it names none. */
  readonly named: StrategyRow['testedSystem'];
  readonly row: StrategyRow | undefined;
  readonly systems: ReadonlyMap<string, TestedSystem>;
  /** undefined: nothing is. */
  readonly chosenAt: (penetration: string) => TestedDetail | undefined;
  /** Names of access panels, which lie on ducts and are no ductwork. */
  readonly panels: ReadonlySet<string>;
}

function alongStretch(run: Run, stretch: Stretch, settled: Settled): PiecesCounted {
  const { row, panels } = settled;
  // A fire damper in a barrier is built in there.
  const shut = new Set(row?.crossings.flatMap((one) => (DAMPERS.has(one.treatment) ? [one.penetration] : [])));
  const isBuiltIn = (i: number): boolean =>
    stretch.parts[i]!.element === 'damper' &&
    stretch.ends.some(({ part, penetration }) => part === i && shut.has(penetration));
  const pieces = stretch.parts
    .map((part, i) => ({ part, i }))
    .filter(({ part, i }) => !panels.has(nameOf(part)) && !isBuiltIn(i));
  const counted = new Set(pieces.flatMap(({ part, i }) => (COVERS.has(part.protection.kind) ? [i] : [])));
  return piecesTogether(
    pieces.map(({ part, i }) => {
      const place = { penetration: null, run: run.id, storey: part.storey, system: run.system };
      const unsupported = row && row.mustResist !== false ? withoutSupports({ place, part }) : piecesTogether([]);
      return counted.has(i)
        ? piecesTogether([counting(place, i, { ...settled, stretch, counted }), unsupported])
        : unsupported;
    }),
  );
}

const DAMPERS: ReadonlySet<string> = new Set(['damper', 'both'] satisfies Penetration['treatment']['kind'][]);

/** The support schedule has straight, level pieces of known section; bends and the like hang from those beside them. */
function withoutSupports({ place, part }: { readonly place: TakeoffPlace; readonly part: StretchPart }): PiecesCounted {
  const { measures } = part;
  if (!measures) return piecesTogether([]);
  const cannot = (because: string): PiecesCounted =>
    missing({ place, part }, { material: 'bearer', what: 'supports', because });
  if (measures.way === 'upright')
    return cannot('upright ductwork stands on floors, and how, the support schedule does not say');
  return measures.unknown === null || part.element === 'fitting' ? piecesTogether([]) : cannot(measures.unknown);
}

/** What lies round a duct; one that resists fire by itself has nothing round it. */
const COVERS: ReadonlySet<string> = new Set(['blanket', 'board'] satisfies StretchPart['protection']['kind'][]);

function counting(
  place: TakeoffPlace,
  index: number,
  settled: Settled & Pick<Context, 'stretch' | 'counted'>,
): PiecesCounted {
  const { row, systems, chosenAt } = settled;
  const part = settled.stretch.parts[index]!;
  const material = part.protection.kind === 'board' ? 'board' : 'blanket';
  const cannot = (because: string): PiecesCounted =>
    missing({ place, part }, { material, what: `${material} and what holds it`, because });
  const tested = row?.testedSystem ?? testedHere(material, settled) ?? (row ? null : settled.named);
  const system = tested ? systems.get(tested.id) : undefined;
  if (!system) return cannot(row ? NO_SYSTEM : NO_BARRIER);
  if (system.protection !== material) return cannot(`${system.name}, by which its run is judged, protects otherwise`);
  const fixing = system.fixings.find(({ id }) => id === tested?.fixing) ?? null;
  const stopsAt = (penetration: string): boolean | undefined => {
    const own = chosenAt(penetration);
    const detail = systems.get(own?.system ?? '')?.details.find(({ id }) => id === own?.detail);
    return detail && detail.gapDatum === 'stopsAtFace';
  };
  const along = alongPart(place, index, { ...settled, system, fixing, stopsAt });
  if (typeof along === 'string') return cannot(along);
  return piecesTogether([material === 'board' ? board(along) : blanket(along), fixings(along)]);
}

/** Of a run with several tested systems the one at the ends of the stretch, where only one there protects so. */
function testedHere(
  kind: 'blanket' | 'board',
  { stretch, systems, chosenAt }: Pick<Settled & Context, 'stretch' | 'systems' | 'chosenAt'>,
): StrategyRow['testedSystem'] {
  const chosen = stretch.ends.flatMap(({ penetration }) => chosenAt(penetration) ?? []);
  return settledBy(chosen.filter((one) => systems.get(one.system)?.protection === kind));
}

const NO_SYSTEM = 'no one tested system is settled at the barriers of its run; the brief can name one';
const NO_BARRIER =
  'its run passes no rated barrier, and the brief does not name the tested system by which it is protected';

/** What must hold back fire and is bare: nothing can be counted for it. */
function lapsesOf(runs: readonly Run[], strategy: readonly StrategyRow[]): PiecesCounted {
  const partOf = new Map(
    runs.flatMap(({ stretches }) =>
      stretches.flatMap(({ parts }) => parts.map((part) => [nameOf(part), part] as const)),
    ),
  );
  const missed = strategy
    .filter(({ mustResist }) => mustResist !== false)
    .flatMap(({ run, system, lapses }) =>
      lapses
        .filter(({ kind }) => kind !== 'inLine')
        .flatMap(({ kind, doubtful, elements }) => {
          const perhaps = doubtful ? ', and whether it must be protected is not known' : '';
          const why = kind === 'bare' ? 'nothing protects it' : 'neither the models nor the brief say what protects it';
          const because = `${why}${perhaps}; nothing is counted for it`;
          return elements.map((element): Missed => {
            const part = partOf.get(nameOf(element));
            const place = { penetration: null, run, storey: part?.storey ?? null, system };
            return { ...place, material: null, what: 'protection', piece: part?.name ?? element.globalId, because };
          });
        }),
    );
  return { drafts: [], missed };
}

/** Pieces at one place of which the same is not known are named in one entry. */
function uncountedOf(missed: readonly Missed[]): Uncounted[] {
  const groups = new Map<string, Missed[]>();
  for (const one of missed) {
    const { piece: _, ...rest } = one;
    fileUnder(groups, JSON.stringify(rest), one);
  }
  return [...groups.values()].map((group) => {
    const [{ piece: _, ...first }] = group as [Missed];
    const names = [...new Set(group.map(({ piece }) => piece))];
    const more = names.length > NAMED ? [...names.slice(0, NAMED), `${names.length - NAMED} more`] : names;
    return { ...first, what: `${first.what} on ${listed(more)}` };
  });
}

const NAMED = 5;
