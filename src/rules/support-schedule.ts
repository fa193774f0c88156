/** The schedule that supports are installed by. */
import { compareTexts, fileUnder } from '../collect.js';
import { nameOf, refOf } from '../element-refs.js';
import type { CarriedDuct, SupportRow } from '../model.js';
import { supportsNeeded } from '../supports/loads.js';
import { elongation } from '../supports/rods.js';
import { held, type Weighed } from './support-design.js';
import { type HeldPiece, hundredths, numeric, type SupportedRun } from './supported-run.js';

/** A row for each section in each stretch. */
export function scheduleRows(run: SupportedRun): SupportRow[] {
  const groups = new Map<string, HeldPiece[]>();
  for (const piece of run.pieces) {
    if (piece.duct?.way !== 'level') continue;
    const { shape, width, height, diameter, material, sheet, insulation } = piece.duct;
    const { kind, layers } = piece.part.protection;
    const key = [
      piece.stretch.id,
      shape,
      width,
      height,
      diameter,
      material,
      kind,
      layers,
      sheet?.thickness,
      insulation?.thickness,
    ].join(' ');
    fileUnder(groups, key, piece);
  }
  return [...groups].sort(([a], [b]) => compareTexts(a, b)).map(([, group]) => rowOf(run, group));
}

function rowOf(run: SupportedRun, group: readonly HeldPiece[]): SupportRow {
  const { choices } = run.decided;
  const { strategy, system } = run.carried;
  const choice = choices?.supports;
  const [{ stretch, duct }] = group as [HeldPiece & { duct: CarriedDuct }];
  const weighed = run.weighed(group[0]!)!;
  const limits = run.limits(duct);
  const isTested = limits.rodStressStated === true;
  const allowed = run.rodStressAllowed(limits);
  const chosen = { rod: choice?.rod, bearer: choice?.bearer };
  const byStress = held(weighed, chosen, choice, undefined, allowed).spacingByStress;
  const tested = numeric(limits.supportSpacingAtMost);
  const governing = tested === undefined || byStress === undefined ? undefined : Math.min(tested, Math.floor(byStress));
  const own = held(weighed, chosen, choice, governing, allowed);
  const length = Number(group.reduce((sum, { part }) => sum + part.length, 0).toFixed(1));
  const growth = run.minutes === undefined ? undefined : elongation(1000, run.minutes);
  const names = new Set(group.map(({ part }) => nameOf(part)));
  return {
    ...{ run: strategy.run.id, part: strategy.ordinal, stretch: stretch.id, system: strategy.run.system },
    elements: group.map(({ part }) => refOf(part)),
    ...{ shape: duct.shape, width: duct.width, height: duct.height, diameter: duct.diameter, length },
    minutes: run.minutes ?? null,
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
    found: run.found.supports.filter(({ carries }) => names.has(nameOf(carries))).length,
  };
}

const tenths = (value: number | undefined): number | null => (value === undefined ? null : Number(value.toFixed(1)));

function rounded(mass: Weighed['sheet']): SupportRow['sheet'] {
  if (!mass) return { thickness: null, density: null, perMetre: null, from: null };
  return { ...mass, perMetre: hundredths(mass.perMetre ?? undefined) ?? null };
}
