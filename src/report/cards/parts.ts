/** What is built at one penetration, in the order of the work: the items of the take-off and nothing worked out anew. */
import { fileUnder } from '../../collect.js';
import { type Material, QUANTITY_OF, type TakeoffItem, type TakeoffPlace } from '../../quantify/takeoff.js';
import { counted, number } from '../../words/text.js';
import type { ReportPenetration } from '../schema.js';
import { MEASURE_WORDS } from '../takeoff-words.js';

export interface PartRow {
  readonly item: TakeoffItem;
  readonly material: Material;
  /** Its numbers in the section; none where it has no part there. */
  readonly numbers: readonly number[];
}

/** Items in their order, each with the numbers that the parts of its kind have in the section. */
export function partRows(
  { treatment: { chosen } }: ReportPenetration,
  items: readonly TakeoffItem[],
  materials: ReadonlyMap<string, Material>,
): PartRow[] {
  let fixed: string | undefined;
  return items.map((item) => {
    const material = materials.get(item.material)!;
    if (material.kind === 'angle' || material.kind === 'boardCollar') fixed = material.kind;
    const part = material.kind === 'screw' ? fixed : (PART_OF[material.kind] ?? material.kind);
    const numbers = (chosen?.parts ?? []).flatMap((one, i) => (one.part === part ? [i + 1] : []));
    return { item, material, numbers };
  });
}

/** What a local build-up is made of. */
const PART_OF: { readonly [kind: string]: string } = {
  blanket: 'localBuildUp',
  board: 'localBuildUp',
  pin: 'localBuildUp',
  strap: 'localBuildUp',
};

/** `4 × 480 mm`, `4 × 600 × 100 mm`, `28 pieces`, `0.275 l along 3.816 m`. */
export function amountWords({ item, material }: Pick<PartRow, 'item' | 'material'>): string {
  const { pieces, length, width, lengthM } = item;
  if (length !== null) return `${pieces} × ${number(length)}${width === null ? '' : ` × ${number(width)}`} mm`;
  if (material.measure === 'pieces') return counted(pieces, 'piece');
  const amount = item[QUANTITY_OF[material.measure]];
  const along = lengthM === null || material.measure === 'm' ? '' : ` along ${lengthM} m`;
  return amount === null ? 'not known' : `${amount} ${MEASURE_WORDS[material.measure]}${along}`;
}

/** What is counted, or could not be, at each penetration, by its id. */
export function byPenetration<T extends TakeoffPlace>(all: readonly T[]): ReadonlyMap<string, readonly T[]> {
  const found = new Map<string, T[]>();
  for (const one of all) if (one.penetration !== null) fileUnder(found, one.penetration, one);
  return found;
}
