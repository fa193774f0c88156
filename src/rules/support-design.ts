/** What one metre of protected ductwork weighs, and what a support of it bears. What is not known is left out. */
import type { CarriedDuct, DuctMaterial, DuctProtection, SupportMass } from '../model.js';
import { angleIn, angleModulus } from '../supports/angles.js';
import { bearerStress, largestSpacing, supportLoad } from '../supports/loads.js';
import {
  type Across,
  acrossOf,
  coverMass,
  grownAcross,
  STEEL_DENSITY,
  sheetMass,
  widthOf,
} from '../supports/masses.js';
import { type Rod, rodStress } from '../supports/rods.js';
import type { BriefChoices } from './project-brief.js';
import type { PublishedValue } from './published-values.js';
import { publishedSheet } from './support-limits.js';
import type { TestedSystem } from './tested-system.js';

type SupportChoice = NonNullable<BriefChoices['supports']>;

/** kg/m³; EN 1993-1-1, EN 1993-1-4, EN 1999-1-1. Stainless steel and aluminium from memory. */
const DENSITY: { readonly [M in DuctMaterial]?: number } = {
  steel: STEEL_DENSITY,
  stainless: 7900,
  aluminium: 2700,
};

export interface Weighed {
  readonly sheet: SupportMass | undefined;
  readonly insulation: SupportMass | undefined;
  readonly protection: SupportMass | undefined;
  /** kg, of all of them. */
  readonly perMetre: number | undefined;
  /** Outside of everything. */
  readonly outside: Across | undefined;
}

/** Insulation that nothing shows is not there; protection lies on four sides. */
export function weigh(
  duct: CarriedDuct,
  protection: DuctProtection,
  system: TestedSystem | undefined,
  choice: SupportChoice | undefined,
  published: readonly PublishedValue[],
): Weighed {
  const across = acrossOf(duct);
  const sheet = across && sheetOf(duct, across, published);
  const insulation = across && insulationOf(duct, across, choice);
  const insulated = across && insulation?.thickness != null ? grownAcross(across, insulation.thickness) : across;
  const cover = insulated && protectionOf(protection, insulated, system);
  const parts = [sheet, insulation, cover].map((part) => part?.perMetre ?? undefined);
  const perMetre = parts.includes(undefined) ? undefined : parts.reduce((sum, part) => sum! + part!, 0);
  const outside =
    insulated && insulation?.thickness != null && cover?.thickness != null
      ? grownAcross(insulated, cover.thickness)
      : undefined;
  return { sheet, insulation, protection: cover, perMetre, outside };
}

function sheetOf(duct: CarriedDuct, across: Across, published: readonly PublishedValue[]): SupportMass {
  const stated = duct.sheet?.thickness ?? null;
  const thickness = stated ?? publishedSheet(published, duct) ?? null;
  const density = DENSITY[duct.material] ?? null;
  return {
    thickness,
    density,
    perMetre: thickness === null || density === null ? null : sheetMass(across, thickness, density),
    from:
      stated !== null ? (duct.sheet?.from === 'brief' ? 'brief' : 'model') : thickness === null ? null : 'published',
  };
}

function insulationOf({ insulation }: CarriedDuct, across: Across, choice: SupportChoice | undefined): SupportMass {
  if (!insulation || insulation.thickness === 0) return { thickness: 0, density: null, perMetre: 0, from: 'model' };
  const { thickness } = insulation;
  const density = choice?.insulationDensity ?? null;
  return {
    thickness,
    density,
    perMetre: thickness === null || density === null ? null : coverMass(across, thickness, density),
    from: insulation.from === 'brief' ? 'brief' : 'model',
  };
}

function protectionOf({ kind, layers }: DuctProtection, across: Across, system: TestedSystem | undefined): SupportMass {
  const nothing = { thickness: null, density: null, perMetre: null, from: null };
  if (!system?.layer || system.protection !== kind) return nothing;
  const count = kind === 'fireResistingDuct' ? 1 : layers;
  const { density } = system.layer;
  if (count === null) return { ...nothing, density, from: 'system' };
  const thickness = system.layer.thickness * count;
  return { thickness, density, perMetre: coverMass(across, thickness, density), from: 'system' };
}

export interface Held {
  readonly bearerLength: number | undefined;
  /** kg. */
  readonly bearerMass: number | undefined;
  /** N. */
  readonly load: number | undefined;
  readonly rodLoad: number | undefined;
  /** N/mm². */
  readonly rodStress: number | undefined;
  readonly bearerStress: number | undefined;
  /** mm, at which the rods are stressed as far as is allowed. */
  readonly spacingByStress: number | undefined;
}

export interface Chosen {
  readonly rod: Rod | undefined;
  readonly bearer: string | undefined;
}

/**
 * @param carried mm of duct that one support carries
 * @param allowed stress in rods, N/mm²
 */
export function held(
  { perMetre, outside }: Weighed,
  { rod, bearer }: Chosen,
  choice: SupportChoice | undefined,
  carried: number | undefined,
  allowed: number | undefined,
): Held {
  const rods = choice?.rods ?? 2;
  const angle = bearer === undefined ? undefined : angleIn(bearer);
  const beyond = (by: number | undefined): number | undefined =>
    outside && by !== undefined ? widthOf(outside) + 2 * by : undefined;
  const bearerLength = beyond(choice?.bearerBeyond);
  const bearerMass = angle && bearerLength !== undefined ? (angle.mass * bearerLength) / 1000 : undefined;
  const load =
    perMetre !== undefined && carried !== undefined && bearerMass !== undefined
      ? supportLoad(perMetre, carried, bearerMass)
      : undefined;
  const between = beyond(choice?.rodFromSide);
  const rodLoad = load === undefined ? undefined : load / rods;
  return {
    bearerLength,
    bearerMass,
    load,
    rodLoad,
    rodStress: rod && rodLoad !== undefined ? rodStress(rodLoad, rod) : undefined,
    bearerStress:
      angle && load !== undefined && between !== undefined
        ? bearerStress(load, between, angleModulus(angle))
        : undefined,
    spacingByStress:
      rod && allowed !== undefined && perMetre !== undefined && bearerMass !== undefined
        ? largestSpacing(rod, rods, allowed, perMetre, bearerMass)
        : undefined,
  };
}
