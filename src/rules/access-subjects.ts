/** Access openings, the ways between them and bends of runs, as checks look at them. */
import { fileUnder } from '../collect.js';
import { nameOf, refOf } from '../element-refs.js';
import type {
  AccessGap,
  AccessPanel,
  AccessStop,
  BarrierFacts,
  Bend,
  Crossings,
  ElementRef,
  Run,
  RunAccess,
  Vec3,
} from '../model.js';
import { oneLine } from '../words/text.js';
import { briefSays } from './brief-says.js';
import type { Decided } from './decided.js';
import type { FactObject } from './fact-schema.js';
import { barrierFacts } from './facts.js';
import { known } from './known.js';
import { type Choice, chosenSystem, ownFacts, serviceFact } from './own-facts.js';
import type { Subject } from './subject.js';
import { isTestedPanel } from './tested-panel.js';

export interface AccessSubjects {
  readonly accessGap: readonly Subject[];
  readonly bend: readonly Subject[];
  readonly accessPanel: readonly Subject[];
}

export function accessSubjects(
  { access, runs, penetrations }: Crossings,
  choices: ReadonlyMap<string, Choice>,
  decided: Decided,
  model: FactObject,
): AccessSubjects {
  const runOf = new Map(runs.map((run) => [run.id, run]));
  const byId = new Map(penetrations.map((penetration) => [penetration.id, penetration]));
  const idsOf = new Map<string | null, string[]>();
  for (const { id, duct } of penetrations) fileUnder(idsOf, duct.run, id);
  const each = access.flatMap((one) => {
    const run = runOf.get(one.run);
    const own = idsOf.get(one.run) ?? [];
    return run ? [{ ...one, facts: { model, ...sharedFacts(run, one, decided) }, run, penetrations: own }] : [];
  });
  const at = ({ barrier }: AccessPanel): AtBarrier | undefined => {
    const penetration = byId.get(barrier?.penetration ?? '');
    const choice = penetration && choices.get(penetration.id);
    return choice && { choice, barrier: penetration.barrier };
  };
  return {
    accessGap: each.flatMap((one) => one.gaps.map((gap) => gapSubject(gap, one))),
    bend: each.flatMap((one) => one.bends.map((bend) => bendSubject(bend, one))),
    accessPanel: each.flatMap((one) => one.panels.map((panel) => panelSubject(panel, one, at(panel)))),
  };
}

interface Of extends Pick<RunAccess, 'complete'> {
  readonly run: Run;
  readonly facts: FactObject;
  /** Ids; what a penetration lacks, its run lacks too, and is said there. */
  readonly penetrations: readonly string[];
}

function sharedFacts(run: Run, { systemType, systemNames }: RunAccess, decided: Decided): FactObject {
  const duct = {
    ...{ run: run.id, system: run.system, systemType, systemNames, properties: [] },
    ratings: { required: null, reached: null },
  };
  const { demand } = briefSays(duct, decided);
  const service = serviceFact(demand);
  const name = run.system === null ? run.id : `${oneLine(run.system)} (${run.id})`;
  return {
    run: known({ id: run.id, name, system: run.system, service: demand.service }),
    duct: known({ run: run.id, system: run.system, systemType, service }),
    access: askedBy(decided.choices?.access ?? [], run.system, service),
  };
}

type AskedAccess = NonNullable<Decided['choices']>['access'];

/** What the first entry asks for that fits; whether one does is left out where that hangs on what is not known. */
function askedBy(entries: AskedAccess, system: string | null, service: string | null): FactObject {
  for (const entry of entries) {
    const fits = [
      entry.system === undefined || (system === null ? undefined : system.toLowerCase() === entry.system.toLowerCase()),
      entry.service === undefined || (service === null ? undefined : service === entry.service),
    ];
    if (fits.includes(false)) continue;
    if (fits.includes(undefined)) return {};
    return known({
      spacingAsked: entry.spacing !== undefined,
      bendAsked: entry.fromBend !== undefined,
      ...{ spacing: entry.spacing, fromBend: entry.fromBend, source: entry.source },
    });
  }
  return { spacingAsked: false, bendAsked: false };
}

const NOWHERE = { side: null, barrier: null, airway: null, rank: 0 } as const;

/** Panels that nobody drew may lie between, so what is not known to be all says nothing of how far it is. */
function gapSubject(gap: AccessGap, { complete, facts, run, penetrations }: Of): Subject {
  const { from, to, length, level } = gap;
  return {
    ...{ ...NOWHERE, penetrations },
    facts: {
      ...facts,
      accessGap: known({ from: stopWords(from), to: stopWords(to), ...(complete && { length, level }) }),
    },
    subject: { type: 'run', id: run.id, elements: refsAlong([from, to]) },
    key: `access ${from.globalId} ${from.kind} ${to.globalId} ${to.kind}`,
    at: placeAlong(gap, length / 2),
  };
}

function bendSubject(
  { name, angle, toAccess, nearest, at, ...bend }: Bend,
  { complete, facts, run, penetrations }: Of,
): Subject {
  const reached = complete && { toAccess, nearest: nearest && stopWords(nearest) };
  return {
    ...{ ...NOWHERE, penetrations },
    facts: { ...facts, bend: known({ name: oneLine(name) || bend.globalId, angle, ...reached }) },
    subject: { type: 'run', id: run.id, elements: refsAlong([bend]) },
    key: `bend ${bend.globalId}`,
    at,
  };
}

interface AtBarrier {
  readonly choice: Choice;
  readonly barrier: BarrierFacts;
}

function panelSubject(panel: AccessPanel, { facts, run, penetrations }: Of, beside: AtBarrier | undefined): Subject {
  const { name, side, width, height, toEdge, barrier, at } = panel;
  const accessPanel = known({
    name: oneLine(name) || panel.globalId,
    side,
    isLevel: side !== null ? true : width !== null ? false : null,
    flat: width === null ? null : toEdge !== null,
    ...{ width, height, toEdge },
    least: width === null || height === null ? null : Math.min(width, height),
    atBarrier: beside !== undefined,
    toBarrier: barrier?.distance,
  });
  const counts = { penetrations: 1, facingEnds: 0 };
  const own = beside && ownFacts(beside.choice);
  const system = beside && chosenSystem(beside.choice);
  return {
    ...{ ...NOWHERE, penetrations },
    facts: {
      ...facts,
      ...(own && {
        ...own,
        system: { ...own.system, ...known({ panelAllowed: system && isTestedPanel(system, accessPanel) }) },
        barrier: barrierFacts(beside.barrier, counts, []),
      }),
      accessPanel,
    },
    subject: { type: 'run', id: run.id, elements: refsAlong([panel, panel.duct]) },
    key: `panel ${panel.globalId}`,
    at,
  };
}

export function stopWords({ kind, name, globalId }: AccessStop): string {
  const called = oneLine(name) || globalId;
  return kind === 'panel' ? called : kind === 'end' ? `the open end of ${called}` : `the end at ${called}`;
}

/** Each once, as they follow each other along the way. */
const refsAlong = (elements: readonly ElementRef[]): ElementRef[] => [
  ...new Map(elements.map((one) => [nameOf(one), refOf(one)])).values(),
];

/** The place so far along the way, to 0.1 mm. */
export function placeAlong({ path }: Pick<AccessGap, 'path'>, chainage: number): Vec3 {
  const next = Math.max(
    1,
    path.findIndex((one) => one.chainage >= chainage),
  );
  const [a, b] = [path[next - 1]!, path[next] ?? path.at(-1)!];
  const whole = b.chainage - a.chainage;
  const t = whole > 0 ? (chainage - a.chainage) / whole : 0;
  const at = (i: 0 | 1 | 2): number => Number((a.at[i] + (b.at[i] - a.at[i]) * t).toFixed(1));
  return [at(0), at(1), at(2)];
}
