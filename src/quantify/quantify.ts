/** Penetrations, runs and the tested details that they are judged by → what is bought, cut and fixed. Arithmetic alone. */
import { compareTexts } from '../collect.js';
import type { Crossings, Judgement, Storey } from '../model.js';
import type { BriefChoices, TestedSystem } from '../rules/index.js';
import { alongRuns } from './along-runs.js';
import { atPenetrations } from './at-penetrations.js';
import { allowancesFor, quantifyChoices } from './choices.js';
import { type CutOptions, cutItems } from './cut-items.js';
import { countedTogether, type Draft } from './draft.js';
import { putTogether, type UnpricedItem } from './put-together.js';
import { onStorey, sameStoreys } from './storeys.js';
import { MATERIAL_KINDS, type Material, type Takeoff, type TakeoffPlace } from './takeoff.js';

export interface QuantifyInput {
  readonly crossings: Crossings;
  readonly judgement: Pick<Judgement, 'tested' | 'supports' | 'strategy' | 'proposedPanels'>;
  /** Documents that judging went by. */
  readonly systems: readonly TestedSystem[];
  readonly choices?: Partial<Pick<BriefChoices, 'takeoff' | 'systems'>> | undefined;
  /** Of all models; of those that are one the first stands for all. */
  readonly storeys: readonly Storey[];
}

export interface QuantifyOptions extends CutOptions {
  /** false: nothing is planned to be cut, so what is ordered is ordered by its quantity. */
  readonly cuts?: boolean;
}

/**
 * Takes the time of cutting plans, which search for the best.
 *
 * @throws the reason of `options.signal` when it is aborted
 */
export async function quantify(input: QuantifyInput, options: QuantifyOptions = {}): Promise<Takeoff> {
  const { crossings, judgement, systems } = input;
  const given = input.choices?.takeoff;
  const choices = quantifyChoices(given);
  const counting = { crossings, judgement, systems, choices, entries: input.choices?.systems };
  const { drafts, uncounted } = countedTogether([atPenetrations(counting), alongRuns(counting)]);
  const materials = materialsOf(drafts);
  const same = sameStoreys(input.storeys);
  const items = numbered(drafts).map(
    ({ place, material, ...item }): UnpricedItem => ({ ...item, ...onStorey(place, same), material: material.id }),
  );
  const byId = new Map(systems.map((system) => [system.id, system]));
  const cutting = options.cuts === false ? [] : await cutItems({ materials, items, systems: byId, choices }, options);
  const counted = {
    ...{ materials, items, cutting },
    storeys: [...new Set(same.values())],
    uncounted: uncounted.map((one) => onStorey(one, same)).sort(byPlace),
    allowances: allowancesFor(new Set(materials.map(({ kind }) => kind)), given),
    packLitres: choices.packLitres,
  };
  return putTogether(counted, given);
}

/** Each once, in the order of the kinds. */
function materialsOf(drafts: readonly Draft[]): Material[] {
  const materials = new Map(drafts.map(({ material }) => [material.id, material]));
  const order = ({ kind }: Material): number => MATERIAL_KINDS.indexOf(kind);
  return [...materials.values()].sort((a, b) => order(a) - order(b) || compareTexts(a.id, b.id));
}

/** By place; at one place they stay in the order of the work. */
const numbered = (drafts: readonly Draft[]): (Draft & { readonly id: string })[] =>
  [...drafts]
    .sort((a, b) => byPlace(a.place, b.place))
    .map((draft, i) => ({ id: `Q-${String(i + 1).padStart(5, '0')}`, ...draft }));

/** Penetrations before runs. */
const byPlace = (a: TakeoffPlace, b: TakeoffPlace): number =>
  Number(a.penetration === null) - Number(b.penetration === null) ||
  compareTexts(a.penetration ?? a.run ?? '', b.penetration ?? b.run ?? '');
