/** The lines of what is bought: one function for each, so that the same thing has the same name wherever it is needed. */

import type { TestedSystem } from '../rules/index.js';
import { number } from '../words/text.js';
import type { Material, MaterialKind, Measure } from './takeoff.js';

function materialOf(
  kind: MaterialKind,
  measure: Measure,
  name: string,
  system: Pick<TestedSystem, 'id' | 'status'> | undefined,
): Material {
  const id = [kind, ...(system ? [system.id] : []), name].join(' | ');
  return { id, kind, name, measure, testedSystem: system?.id ?? null, status: system?.status ?? null };
}

/** Blanket or board of a tested system: the same on the duct and in local build-ups. Undefined: it does not say what it is. */
export function layerOf(system: TestedSystem): Material | undefined {
  const { layer, name, protection } = system;
  if (!layer || protection === 'fireResistingDuct') return undefined;
  const words = `${name}: ${protection}, layer of ${number(layer.thickness)} mm, ${number(layer.density)} kg/m³`;
  return materialOf(protection, 'm2', words, system);
}

export const packingOf = (system: TestedSystem, material: string): Material =>
  materialOf('packing', 'l', `packing of ${material}`, system);

export const sealantOf = (system: TestedSystem): Material =>
  materialOf('sealant', 'l', `sealant of ${system.name}`, system);

/** Angles are bought by their section, whichever document asks for them. */
export const angleBar = (name: string): Material => materialOf('angle', 'm', `steel angle ${name}`, undefined);

export const screwsOf = (words: string): Material => materialOf('screw', 'pieces', words, undefined);

export const collarOf = (system: TestedSystem, material: string, thickness: number): Material =>
  materialOf('boardCollar', 'm2', `collar of ${material}, ${number(thickness)} mm`, system);

export const pinsOf = (system: TestedSystem, length: number): Material =>
  materialOf('pin', 'pieces', `pins for ${system.name}, ${number(length)} mm long`, system);

export const strapOf = (system: TestedSystem, width: number): Material =>
  materialOf('strap', 'm', `straps for ${system.name}, ${number(width)} mm wide`, system);

export const tapeOf = (system: TestedSystem): Material => materialOf('tape', 'm', `tape for ${system.name}`, system);

export const rodOf = (rod: string): Material => materialOf('rod', 'm', `threaded rod ${rod}`, undefined);

export const bearerOf = (name: string): Material => materialOf('bearer', 'm', `bearer ${name}`, undefined);

/** @param size in words, e.g. `400 x 300 mm` */
export const accessPanelOf = (size: string): Material =>
  materialOf('accessPanel', 'pieces', `access panel, ${size}`, undefined);
