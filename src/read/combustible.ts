/** Does an element burn? As its common property set says, else as its materials are; undefined where nothing tells. */
import { readLayers } from './materials.js';
import type { Source } from './source.js';
import { bool } from './value.js';

/** Common practice of naming materials, no source. What burns is asked first: "wood wool cement board" is left open. */
const BURNS =
  /timber|\bwood|plywood|hardwood|softwood|chipboard|fibreboard|fiberboard|\b(osb|mdf|clt|glulam)\b|holz|\bbois\b|madera|\blegno\b|\bhout|\bträ\b|polystyr|polyurethan|polyethyl|polypropyl|\b(eps|xps|pur|pir|pvc|pe|pp|hdpe)\b|plastic|kunststoff|bitum|asphalt/iu;
const MAY_BURN = /wood wool|holzwolle|cement bonded|zementgebunden/iu;
const DOES_NOT_BURN =
  /concrete|beton|béton|hormigón|calcestruzzo|brick|masonry|mauerwerk|ziegel|blockwork|steel|stahl|acier|acciaio|acero|\bmetal|alumin|copper|kupfer|cast iron|gusseisen|\bglass\b|\bglas\b|stone wool|rock wool|steinwolle|\bair\b/iu;

export function readCombustible(source: Source, id: number): boolean | undefined {
  const stated = bool(source.properties.find(id, /^Pset_\w+Common$/, 'Combustible')?.value);
  if (stated !== undefined) return stated;
  return burns(readLayers(source, id).layers.map(({ material }) => material));
}

/** One layer that burns is enough; none burns only where each is known not to. */
export function burns(materials: readonly string[]): boolean | undefined {
  const each = materials.map((name) => {
    if (MAY_BURN.test(name)) return undefined;
    return BURNS.test(name) ? true : DOES_NOT_BURN.test(name) ? false : undefined;
  });
  if (each.includes(true)) return true;
  return each.length > 0 && each.every((one) => one === false) ? false : undefined;
}
