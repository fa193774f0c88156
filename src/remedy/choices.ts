/**
 * Findings that another tested detail mends: another fixing, another number of layers, another system that may be used. What
 * would fit, the review has worked out already; whether it does with all else as it is, judging again shows.
 */
import { nameOf } from '../element-refs.js';
import type { Choose, Crossings, DuctProtection, Penetration, TestedDetail, TestedFor } from '../model.js';
import type { BareFinding } from '../rules/index.js';
import type { Building } from './building.js';
import type { KindOf } from './faults.js';
import { type Judging, outcomesOf, proofOf } from './prove.js';

/** What was tried and found is tried no more. */
const MOST_TRIED = 3;

/** From the one that changes least on site. */
const BY_CHANGE: readonly Choose['kind'][] = ['chooseFixing', 'chooseDetail', 'chooseLayers', 'chooseSystem'];

export interface Choosing {
  readonly building: Building;
  readonly judging: Judging;
  readonly kindOf: KindOf;
}

/** @returns the change and the findings that it mends; undefined where none that may be used does */
export function choiceFor(
  tested: TestedFor,
  findings: readonly BareFinding[],
  choosing: Choosing,
): { readonly change: Choose; readonly mended: readonly BareFinding[] } | undefined {
  const { building, judging, kindOf } = choosing;
  const { chosen } = tested;
  const p = building.penetrations.get(tested.penetration);
  if (!chosen || !p) return undefined;
  const missed = new Set(chosen.scope.filter(({ outcome }) => outcome === 'missed').map(({ check }) => check));
  const mended = findings.filter((one) => one.outcome === 'failed' && missed.has(one.check) && !kindOf(one.check));
  if (mended.length === 0) return undefined;
  const checks = new Set(mended.map(({ check }) => check));
  // What geometry has to mend is missed by every choice.
  const others = [
    ...tested.feasible.flatMap((one) => [
      ...(one.system === chosen.system ? [{ ...one, layers: chosen.layers }] : []),
      one,
    ]),
    ...tested.nearest.filter(({ misses }) => misses.every(({ check }) => kindOf(check) && !checks.has(check))),
  ];
  const keys = new Set(mended.map(({ key }) => key));
  const along = alongRun(building.crossings, p);
  const before = outcomesOf(along, judging);
  const change = others
    .map((other) => choose(other, chosen, p))
    .filter((one) => one !== undefined)
    .sort((a, b) => BY_CHANGE.indexOf(a.kind) - BY_CHANGE.indexOf(b.kind))
    .slice(0, MOST_TRIED)
    .find((one) => proofOf(before, outcomesOf(chosenIn(along, one, p, building), pinned(one, p, judging)), keys).holds);
  return change && { change, mended };
}

function choose(to: TestedDetail, from: TestedDetail, { id }: Penetration): Choose | undefined {
  const kind =
    to.system !== from.system
      ? 'chooseSystem'
      : to.layers !== from.layers
        ? 'chooseLayers'
        : to.fixing !== from.fixing
          ? 'chooseFixing'
          : to.detail !== from.detail
            ? 'chooseDetail'
            : undefined;
  const { system, fixing, detail, layers } = to;
  return kind && { kind, penetration: id, testedSystem: system, fixing, detail, layers };
}

/** The run that the penetration belongs to, with the neighbours of all that it passes. */
function alongRun(crossings: Crossings, p: Penetration): Crossings {
  const own = crossings.penetrations.filter((one) => one === p || (p.duct.run !== null && one.duct.run === p.duct.run));
  const ids = new Set(own.flatMap(({ id, neighbours }) => [id, ...neighbours.map(({ penetration }) => penetration)]));
  const kept = crossings.penetrations.filter(({ id }) => ids.has(id));
  const penetrations = kept.map((one) => ({
    ...one,
    neighbours: one.neighbours.filter(({ penetration }) => ids.has(penetration)),
  }));
  const barriers = new Set(penetrations.map(({ barrier }) => nameOf(barrier)));
  return {
    ...crossings,
    penetrations,
    runs: crossings.runs.filter(({ id }) => id === p.duct.run),
    access: crossings.access.filter(({ run }) => run === p.duct.run),
    barriers: crossings.barriers.filter((one) => barriers.has(nameOf(one))),
    ...{ facingEnds: [], openings: [], doors: [], compartments: crossings.compartments },
  };
}

/** The protection of its pieces as the chosen system has it. */
function chosenIn(crossings: Crossings, change: Choose, p: Penetration, { systems }: Building): Crossings {
  const system = systems.find(({ id }) => id === change.testedSystem);
  const row = system?.scope.ratings.find(({ layers }) => layers === change.layers);
  if (!system || !row || change.kind === 'chooseFixing' || change.kind === 'chooseDetail') return crossings;
  const protection = {
    kind: system.protection,
    layers: row.layers,
    integrity: row.integrity,
    insulation: row.insulation,
  };
  const own = new Set(p.elements.map(nameOf));
  const put = <T extends DuctProtection | Penetration['treatment']>(there: T): T => ({ ...there, ...protection });
  return {
    ...crossings,
    penetrations: crossings.penetrations.map((one) =>
      one.id === p.id ? { ...one, treatment: put(one.treatment) } : one,
    ),
    runs: crossings.runs.map((run) => ({
      ...run,
      stretches: run.stretches.map((stretch) => ({
        ...stretch,
        parts: stretch.parts.map((part) =>
          own.has(nameOf(part)) ? { ...part, protection: put(part.protection) } : part,
        ),
      })),
    })),
  };
}

/** What the brief would say of this penetration. */
function pinned({ testedSystem, fixing, detail }: Choose, { key, tag }: Penetration, judging: Judging): Judging {
  const { brief } = judging.judge;
  if (!brief?.choices) return judging;
  const others = brief.choices.pinned.filter(({ penetration }) => penetration !== key && penetration !== tag);
  const pin = {
    penetration: key,
    testedSystem,
    ...(fixing !== null && { fixing }),
    ...(detail !== null && { detail }),
  };
  const choices = { ...brief.choices, pinned: [...others, pin] };
  return { ...judging, judge: { ...judging.judge, brief: { ...brief, choices } } };
}
