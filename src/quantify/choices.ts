/** What the project has decided of quantities, and what is taken for granted where it has not. */
import type { TakeoffChoices } from '../rules/takeoff-choices.js';
import { number } from '../words/text.js';
import type { Corners } from './formulas/frame.js';
import type { Allowance, MaterialKind } from './takeoff.js';

/** What has a value where the project gives none. */
interface Settled {
  /** mm that one cut takes away. */
  readonly kerf: number;
  readonly angleCorners: Corners;
  /** Of one pack of sealant. */
  readonly packLitres: number;
  /** Part that is added to the developed surface of what is not straight. */
  readonly fittingAllowance: number;
  /** mm that a strap laps on itself. */
  readonly strapOverlap: number;
  /** mm of the legs of beads whose size no document says. */
  readonly filletLeg: number;
}

/** All of it settled, but for what nobody can take for granted. */
export interface QuantifyChoices extends Settled {
  readonly stocks: TakeoffChoices['stocks'];
  /** undefined: no offcut is kept. */
  readonly keepOffcutsFrom: number | undefined;
  /** undefined: not known. */
  readonly rodLength: number | undefined;
}

/** Common practice, no source. */
const DEFAULTS: Settled = {
  kerf: 3,
  angleCorners: 'butted',
  packLitres: 0.6,
  fittingAllowance: 0.15,
  strapOverlap: 100,
  filletLeg: 12,
};

/** What each is in words, and on which materials alone it bears. */
const ABOUT: { readonly [K in keyof Settled]: { readonly says: string; readonly of: readonly MaterialKind[] } } = {
  kerf: { says: 'mm that one cut takes away', of: ['angle', 'rod', 'bearer', 'board', 'boardCollar'] },
  angleCorners: { says: 'how angles meet at the corners of a duct', of: ['angle'] },
  packLitres: { says: 'l in one pack of sealant', of: ['sealant'] },
  fittingAllowance: {
    says: 'part that is added to the developed surface of bends, branches and transitions',
    of: ['blanket', 'board'],
  },
  strapOverlap: { says: 'mm that a strap laps on itself', of: ['strap'] },
  filletLeg: { says: 'mm of the legs of beads whose size no document says', of: ['sealant'] },
};

/** What is delivered where neither the brief nor a document says it. Common practice, no source. */
const STOCKS: TakeoffChoices['stocks'] = [
  { of: 'angle', length: 6000 },
  { of: 'bearer', length: 6000 },
  { of: 'rod', length: 3000 },
  { of: 'boardCollar', length: 2500, width: 1200 },
];

const FROM_NOBODY = 'common practice, no source';

type Given = Partial<TakeoffChoices>;

export function quantifyChoices(takeoff: Given = {}): QuantifyChoices {
  const own = takeoff.stocks ?? [];
  return {
    ...DEFAULTS,
    ...withoutUndefined(takeoff),
    stocks: [...own, ...STOCKS.filter(({ of }) => own.every((one) => one.of !== of))],
    keepOffcutsFrom: takeoff.keepOffcutsFrom,
    rodLength: takeoff.rodLength,
  };
}

const KEYS = Object.keys(DEFAULTS) as (keyof Settled)[];

const withoutUndefined = (takeoff: Given): Partial<Settled> =>
  Object.fromEntries(KEYS.flatMap((key) => (takeoff[key] === undefined ? [] : [[key, takeoff[key]]])));

/** What was taken for granted of the kinds that there are. */
export function allowancesFor(kinds: ReadonlySet<MaterialKind>, takeoff: Given = {}): Allowance[] {
  const choices = quantifyChoices(takeoff);
  const from = (isOwn: boolean): string => (isOwn ? 'brief' : FROM_NOBODY);
  const values = KEYS.filter((key) => ABOUT[key].of.some((kind) => kinds.has(kind))).map(
    (key): Allowance => ({
      ...{ key: `choices.takeoff.${key}`, value: choices[key], says: ABOUT[key].says },
      from: from(takeoff[key] !== undefined),
    }),
  );
  const stocks = choices.stocks
    .filter(({ of }) => kinds.has(of))
    .map(({ of, length, width }): Allowance => {
      const size = [length, ...(width === undefined ? [] : [width])].map(number).join(' x ');
      const isOwn = (takeoff.stocks ?? []).some((one) => one.of === of);
      return { key: 'choices.takeoff.stocks', value: size, says: `mm, ${of} as delivered`, from: from(isOwn) };
    });
  return [...values, ...stocks];
}
