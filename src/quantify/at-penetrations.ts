/** What is built at each penetration: the parts of the tested detail that it is judged by, counted. */
import { resistsFire } from '../fire-rating/index.js';
import type { Crossings, Judgement, OpeningSubject, Penetration, TestedFor } from '../model.js';
import { sheetSize } from '../rules/facts.js';
import type { Detail, TestedSystem } from '../rules/index.js';
import { acrossOf, coverSection, grownAcross } from '../supports/masses.js';
import type { QuantifyChoices } from './choices.js';
import { COUNTED_NOTHING, type Counted, countedTogether } from './draft.js';
import type { At } from './parts/at.js';
import { localBuildUp } from './parts/build-up.js';
import { packing, sealant } from './parts/fill.js';
import { angle, boardCollar } from './parts/frames.js';
import type { TakeoffPlace } from './takeoff.js';

export interface PenetrationInput {
  readonly crossings: Pick<Crossings, 'penetrations' | 'openings'>;
  readonly judgement: Pick<Judgement, 'tested'>;
  readonly systems: readonly TestedSystem[];
  readonly choices: QuantifyChoices;
}

export function atPenetrations({ crossings, judgement, systems, choices }: PenetrationInput): Counted {
  const tested = new Map(judgement.tested.map((one) => [one.penetration, one]));
  const byId = new Map(systems.map((system) => [system.id, system]));
  const openings = new Map(crossings.openings.flatMap((one) => one.penetrations.map((id) => [id, one] as const)));
  return countedTogether(
    crossings.penetrations.map((penetration) => {
      const { chosen = null } = tested.get(penetration.id) ?? {};
      if (!chosen) return withoutDetail(penetration);
      const at = placeOf(penetration, chosen, byId, openings.get(penetration.id), choices);
      return 'because' in at
        ? nothingKnown(penetration, at.because)
        : countedTogether(at.detail.parts.map((part) => countedOf(at, part)));
    }),
  );
}

function countedOf(at: At, part: Detail['parts'][number]): Counted {
  switch (part.part) {
    case 'packing':
      return packing(at, part);
    case 'sealant':
      return sealant(at, part);
    case 'angle':
      return angle(at, part);
    case 'boardCollar':
      return boardCollar(at, part);
    case 'localBuildUp':
      return localBuildUp(at, part);
  }
}

type Chosen = NonNullable<TestedFor['chosen']>;

function placeOf(
  penetration: Penetration,
  chosen: Chosen,
  systems: ReadonlyMap<string, TestedSystem>,
  opening: OpeningSubject | undefined,
  { angleCorners: corners, filletLeg, strapOverlap, stocks }: QuantifyChoices,
): At | { readonly because: string } {
  const system = systems.get(chosen.system);
  const detail = system?.details.find(({ id }) => id === chosen.detail);
  if (!system || !detail) return { because: `${chosen.title}: no tested detail is known to be for this barrier` };
  const size = sheetSize(penetration.duct);
  const duct = acrossOf(size);
  if (!duct) return { because: "the duct's section is not known" };
  const isThrough = detail.gapDatum === 'passesThrough';
  const { layers } = chosen;
  if (layers === null) return { because: 'nothing says how many layers protect the duct' };
  const thick = system.protection === 'fireResistingDuct' ? 0 : (system.layer?.thickness ?? 0) * layers;
  const taken = isThrough ? coverSection(duct, thick) : 0;
  return {
    ...{ penetration, place: placeIn(penetration), system, detail, size, duct, layers },
    ...{ corners, filletLeg, strapOverlap, stocks, fixing: system.fixings.find(({ id }) => id === chosen.fixing) },
    framed: isThrough ? grownAcross(duct, thick) : duct,
    // Of an opening that several ducts pass each takes an equal share.
    freeArea: opening && Math.max(0, (opening.freeAreaM2 * 1e6) / opening.penetrations.length - taken),
  };
}

const placeIn = ({ id, storey, duct }: Penetration): TakeoffPlace => ({
  ...{ penetration: id, run: null, storey: storey?.globalId ?? null, system: duct.system },
});

/** Nothing is to be built where nothing is asked. A damper's own document says what goes round it. */
function withoutDetail(penetration: Penetration): Counted {
  const { crossing, barrier, treatment } = penetration;
  if (crossing !== 'through' || resistsFire(barrier.rating) === false) return COUNTED_NOTHING;
  return nothingKnown(penetration, BECAUSE[treatment.kind]);
}

const NO_SYSTEM = 'no tested system is settled for what protects the duct here';
const BECAUSE: { readonly [K in Penetration['treatment']['kind']]: string } = {
  damper: 'what is built round a damper stands in its own tested document, and is not counted',
  both: NO_SYSTEM,
  blanket: NO_SYSTEM,
  board: NO_SYSTEM,
  fireResistingDuct: NO_SYSTEM,
  none: 'nothing protects the duct here, so nothing is counted for it',
  unknown: 'nothing says what protects the duct here',
};

function nothingKnown(penetration: Penetration, because: string): Counted {
  const place = placeIn(penetration);
  return { drafts: [], uncounted: [{ ...place, material: null, what: 'all that is built here', because }] };
}
