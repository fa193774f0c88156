/** What a tested system, or a standard where it says nothing, allows of supports. */
import type { CarriedDuct } from '../model.js';
import { allowedStress, type StressStep } from '../supports/loads.js';
import type { Rod } from '../supports/rods.js';
import type { FactObject } from './fact-schema.js';
import { known } from './known.js';
import type { PublishedValue } from './published-values.js';
import { type DuctSize, valueAt } from './size-value.js';
import type { TestedSystem } from './tested-system.js';

export const sizeOf = ({ shape, width, height, diameter }: CarriedDuct): DuctSize => ({
  shape,
  width: width ?? undefined,
  height: height ?? undefined,
  diameter: diameter ?? undefined,
});

export function smallerSide({ width, height, diameter }: CarriedDuct): number | undefined {
  if (diameter !== null) return diameter;
  return width === null || height === null ? undefined : Math.min(width, height);
}

/** @param minutes that the supports must hold; undefined: not known */
export function supportLimits(
  system: TestedSystem | undefined,
  duct: CarriedDuct | undefined,
  minutes: number | undefined,
): FactObject {
  if (!system) return { applied: false, ...statedOf(undefined) };
  const { id, name, status, supports } = system;
  const stress = (steps: readonly StressStep[] | undefined): number | undefined =>
    steps && minutes !== undefined ? allowedStress(steps, minutes) : undefined;
  return known({
    ...{ applied: true, id, name, status },
    supportSpacingAtMost: supports && duct && valueAt(supports.spacingAtMost, sizeOf(duct)),
    firstSupportAtMost:
      supports?.firstSupportAtMost !== undefined && duct
        ? valueAt(supports.firstSupportAtMost, sizeOf(duct))
        : undefined,
    rodStressAtMost: stress(supports?.rodStress),
    rodLengthAtMost: supports?.rodLengthAtMost,
    bearerStressAtMost: stress(supports?.bearerStress),
    ...statedOf(supports),
    riserSupportAtMost: riserLimit(system, duct),
  });
}

/** What the document says anything of: what it does not is asked of standards, or of nothing. */
const statedOf = (supports: TestedSystem['supports']) => ({
  firstSupportStated: supports?.firstSupportAtMost !== undefined,
  rodStressStated: supports?.rodStress !== undefined,
  rodLengthStated: supports?.rodLengthAtMost !== undefined,
  rodsStated: supports?.rods !== undefined,
  bearersStated: supports?.bearers !== undefined,
  bearerStressStated: supports?.bearerStress !== undefined,
  risersStated: supports?.risers !== undefined,
});

/** Whether such steel was tested; undefined where the document, or the support, does not say. */
export function allowedSteel(
  supports: TestedSystem['supports'],
  rod: Rod | undefined,
  bearer: string | undefined,
): FactObject {
  return known({
    rodAllowed: rod && supports?.rods ? supports.rods.includes(rod) : undefined,
    bearerAllowed: bearer && supports?.bearers ? supports.bearers.includes(bearer) : undefined,
  });
}

function riserLimit({ supports }: TestedSystem, duct: CarriedDuct | undefined): number | undefined {
  const risers = supports?.risers;
  if (!risers) return undefined;
  const { distanceAtMost, timesSmallerSideAtMost: times } = risers;
  if (times === undefined) return distanceAtMost;
  const side = duct && smallerSide(duct);
  return side === undefined ? undefined : Math.min(distanceAtMost, times * side);
}

const ROD_STRESS = 'rod-stress';
const SHEET_THICKNESS = 'sheet-thickness';
/** Published values that are used though no document cites them. */
export const USED_BY_SUPPORTS: readonly string[] = [ROD_STRESS, SHEET_THICKNESS];

/** What standards allow rods; undefined: nothing for so long. */
export function publishedRodStress(
  published: readonly PublishedValue[],
  minutes: number | undefined,
): number | undefined {
  const value = published.find(({ id }) => id === ROD_STRESS)?.value;
  if (!value || !('rows' in value) || minutes === undefined) return undefined;
  const steps = value.rows.flatMap(({ upTo, value: stress }) =>
    upTo !== undefined && typeof stress === 'number' ? [{ upTo, stress }] : [],
  );
  return allowedStress(steps, minutes);
}

/** Thickness of the sheet by the published table; only of galvanised steel, since it speaks of no other. */
export function publishedSheet(published: readonly PublishedValue[], duct: CarriedDuct): number | undefined {
  const value = published.find(({ id }) => id === SHEET_THICKNESS)?.value;
  if (duct.material !== 'steel' || duct.shape !== 'rectangular' || !value || !('bySize' in value)) return undefined;
  return valueAt({ bySize: value.bySize }, sizeOf(duct));
}
