/** Panels that would have to be there for what is asked of a run: where, how large, and by what. */
import { fileUnder } from '../collect.js';
import type { AccessGap, Crossings, Penetration, ProposedPanel, Vec3 } from '../model.js';
import { PANEL_CLEARANCE } from '../tolerances.js';
import { placeAlong, stopWords } from './access-subjects.js';
import { type Proof, requiredLimit } from './evaluate.js';
import type { FactObject } from './fact-schema.js';
import { fewestPanels } from './fewest-panels.js';
import { numberOf, textOf } from './read-fact.js';
import type { CompiledCheck } from './rule-set.js';
import type { Subjects } from './subjects.js';

export interface ProposalOptions {
  readonly checks: readonly CompiledCheck[];
  readonly proof: Proof;
  readonly subjects: Pick<Subjects, 'accessGap' | 'bend' | 'penetration'>;
}

interface Asked {
  readonly limit: number;
  readonly source: string;
}

/** In the order of the runs; none where nothing says how far apart openings may be. */
export function proposedPanels(crossings: Crossings, options: ProposalOptions): ProposedPanel[] {
  const { checks, proof, subjects } = options;
  const byRun = new Map<string, Penetration[]>();
  for (const one of crossings.penetrations) if (one.duct.run !== null) fileUnder(byRun, one.duct.run, one);
  const strictest = (each: CompiledCheck['each'], facts: FactObject, measure?: string): Asked | undefined =>
    checks
      .filter((check) => check.each === each && (measure === undefined || check.definition.measure === measure))
      .flatMap((check) => {
        const limit = requiredLimit(check, facts, proof);
        // What is of no code is what the project itself asks, which says where.
        const asked = check.definition.basis.code === null ? textOf(facts, 'access.source') : undefined;
        const source = asked ?? check.definition.basis.source;
        return limit === undefined ? [] : [{ limit, source }];
      })
      .sort((a, b) => a.limit - b.limit)[0];
  const factsOf = new Map(subjects.accessGap.map((one) => [one.subject.id, one.facts]));
  const bendFacts = new Map(subjects.bend.map((one) => [one.subject.id, one.facts]));
  const passedFacts = new Map(subjects.penetration.map((one) => [one.subject.id, one.facts]));
  const buildUpAt = (id: string): number => numberOf(passedFacts.get(id) ?? {}, 'system.localBuildUp') ?? 0;
  const systems = new Map(crossings.runs.map(({ id, system }) => [id, system]));
  return crossings.access.flatMap(({ run, gaps, bends }) => {
    const facts = factsOf.get(run);
    const spacing = facts && strictest('accessGap', facts);
    const turning = bendFacts.get(run);
    const fromBend = turning && strictest('bend', turning);
    if (!facts || (!spacing && !fromBend)) return [];
    // The size hangs on nothing that is known of one panel alone.
    const size = strictest('accessPanel', { ...facts, accessPanel: { isLevel: true } }, 'accessPanel.least');
    const passed = byRun.get(run) ?? [];
    return gaps.flatMap((gap): ProposedPanel[] => {
      const targets = fromBend
        ? bends.flatMap(({ at }) => {
            const corner = gap.path.find((one) => isSame(one.at, at));
            return corner ? [{ at: corner.chainage, within: fromBend.limit }] : [];
          })
        : [];
      const places = fewestPanels({
        length: gap.length,
        spacing: gap.level > (spacing?.limit ?? Infinity) ? spacing!.limit : Infinity,
        targets,
        allowed: allowedOn(gap, (size?.limit ?? 0) / 2 + PANEL_CLEARANCE, passed, buildUpAt),
      });
      return (places ?? []).map((place) => ({
        ...{ run, system: systems.get(run) ?? null, at: placeAlong(gap, place), size: size?.limit ?? null },
        reason: `between ${stopWords(gap.from)} and ${stopWords(gap.to)}, ${(place / 1000).toFixed(2)} m from the first`,
        source: (spacing ?? fromBend)!.source,
      }));
    });
  });
}

/** On straight ducts, clear of their joints, of barriers and of what is built up beside these. */
function allowedOn(
  { path }: AccessGap,
  clear: number,
  passed: readonly Penetration[],
  buildUpAt: (penetration: string) => number,
): (readonly [number, number])[] {
  let free = path.flatMap((corner, i): (readonly [number, number])[] => {
    const next = path[i + 1];
    return corner.free && next ? [[corner.chainage + clear, next.chainage - clear]] : [];
  });
  for (const penetration of passed) {
    const reach = (penetration.barrier.thickness ?? 0) / 2 + buildUpAt(penetration.id) + clear;
    for (const [i, corner] of path.entries()) {
      const next = path[i + 1];
      const at = next && chainageOn(corner, next, penetration.position);
      if (at !== undefined) free = free.flatMap((one) => without(one, [at - reach, at + reach]));
    }
  }
  return free.filter(([from, to]) => from <= to);
}

function without(
  [from, to]: readonly [number, number],
  [start, end]: readonly [number, number],
): (readonly [number, number])[] {
  return [[from, Math.min(to, start)] as const, [Math.max(from, end), to] as const].filter(([a, b]) => a <= b);
}

type Corner = AccessGap['path'][number];

/** Where a point lies on the line between two corners; undefined where it is off it. */
function chainageOn(a: Corner, b: Corner, at: Vec3): number | undefined {
  const whole = b.chainage - a.chainage;
  if (whole <= 0) return undefined;
  const way = b.at.map((x, i) => (x - a.at[i]!) / whole);
  const along = at.reduce((sum, x, i) => sum + (x - a.at[i]!) * way[i]!, 0);
  const off = Math.hypot(...at.map((x, i) => x - a.at[i]! - along * way[i]!));
  return along >= 0 && along <= whole && off <= PANEL_CLEARANCE ? a.chainage + along : undefined;
}

const isSame = (a: Vec3, b: Vec3): boolean => a.every((x, i) => Math.abs(x - b[i]!) < 0.2);
