/** Rods and bearers of the support schedule. */
import { fileUnder } from '../../collect.js';
import { nameOf, refOf } from '../../element-refs.js';
import type { Crossings, Run, SupportFacts, SupportRow } from '../../model.js';
import { number } from '../../words/text.js';
import { type Draft, quantitiesOf } from '../draft.js';
import { bearerOf, rodOf } from '../materials.js';
import type { MaterialKind, TakeoffPlace } from '../takeoff.js';
import type { RunInput } from './input.js';
import { type PiecesCounted, piecesTogether } from './part.js';

type Unplaced = Omit<Draft, 'place' | 'element'>;
type Input = Pick<RunInput, 'crossings' | 'judgement' | 'choices'>;

export function alongSupports({ crossings, judgement, choices }: Input): PiecesCounted {
  const storeyOf = storeys(crossings.runs);
  const carried = new Map<string, SupportFacts[]>();
  for (const support of crossings.supports?.supports ?? []) fileUnder(carried, nameOf(support.carries), support);
  return piecesTogether(
    judgement.supports.map((row) => {
      const place = { penetration: null, run: row.run, storey: storeyOf(row), system: row.system };
      const found = row.elements.flatMap((element) => carried.get(nameOf(element)) ?? []);
      return piecesTogether([rods(row, place, found, choices.rodLength), bearers(row, place)]);
    }),
  );
}

/** null where its pieces stand on several. */
function storeys(runs: Crossings['runs']): (row: SupportRow) => string | null {
  const storeyOf = new Map(
    runs.flatMap(({ stretches }: Run) =>
      stretches.flatMap(({ parts }) => parts.map((part) => [nameOf(part), part.storey] as const)),
    ),
  );
  return ({ elements }) => {
    const all = new Set(elements.map((element) => storeyOf.get(nameOf(element)) ?? null));
    return all.size === 1 ? [...all][0]! : null;
  };
}

function rods(
  row: SupportRow,
  place: TakeoffPlace,
  found: readonly SupportFacts[],
  lengthChosen: number | undefined,
): PiecesCounted {
  const { needed, rod, rods: ofEach } = row;
  const cannot = cannotIn(row, place, 'rod');
  if (needed === null) return cannot('rods', spacingUnknown(row));
  if (rod === null) return cannot('rods', 'no size of rods is chosen; the brief can name one');
  const shown = lengthOf(found);
  const length = shown ?? lengthChosen;
  const how = shown === undefined ? '' : ', as long as the longest that the models show there';
  const counted = drafted(place, row, {
    ...quantitiesOf({ pieces: needed * ofEach, length }),
    material: rodOf(rod),
    what: `rods of ${needed} supports of ${sizeWords(row)}${how}`,
    ...{ formula: 'supports', source: SCHEDULE },
  });
  if (length !== undefined) return counted;
  return piecesTogether([counted, cannot(`length of rods ${rod}`, 'neither the models nor the brief say it')]);
}

/** Of those that the models show the longest: what is cut too long can be cut again. */
function lengthOf(found: readonly SupportFacts[]): number | undefined {
  const lengths = found.flatMap(({ rodLength }) => rodLength ?? []);
  return lengths.length === 0 ? undefined : Math.max(...lengths);
}

function bearers(row: SupportRow, place: TakeoffPlace): PiecesCounted {
  const { needed, bearer, bearerLength, bearerMass } = row;
  const cannot = cannotIn(row, place, 'bearer');
  if (needed === null) return cannot('bearers', spacingUnknown(row));
  if (bearer === null) return cannot('bearers', 'no bearer is chosen; the brief can name one');
  const perMetre = bearerMass === null || !bearerLength ? undefined : (bearerMass * 1000) / bearerLength;
  const counted = drafted(place, row, {
    ...quantitiesOf({ pieces: needed, length: bearerLength ?? undefined, perMetre }),
    material: bearerOf(bearer),
    what: `bearers under ${sizeWords(row)}`,
    ...{ formula: 'supports', source: SCHEDULE },
  });
  if (bearerLength !== null) return counted;
  const because = 'how wide the protected duct is, or how far a bearer reaches beyond it, is not known';
  return piecesTogether([counted, cannot(`length of bearers ${bearer}`, because)]);
}

const SCHEDULE = 'the support schedule';
const spacingUnknown = ({ spacing }: SupportRow): string =>
  spacing.tested === null
    ? 'no tested system that is settled says how far apart supports may stand here'
    : 'what the rods bear, and so how far apart supports may stand, is not known; the support schedule says what of it is';

const sizeWords = ({ width, height, diameter }: Pick<SupportRow, 'width' | 'height' | 'diameter'>): string =>
  diameter === null ? `${number(width ?? 0)} x ${number(height ?? 0)} mm` : `ø ${number(diameter)} mm`;

const drafted = (place: TakeoffPlace, { elements }: SupportRow, draft: Unplaced): PiecesCounted => ({
  // Of several pieces a support belongs to none alone.
  drafts: [{ ...draft, place, element: elements.length === 1 ? refOf(elements[0]!) : null }],
  missed: [],
});

const cannotIn =
  (row: SupportRow, place: TakeoffPlace, material: MaterialKind) =>
  (what: string, because: string): PiecesCounted => ({
    drafts: [],
    missed: [{ ...place, material, what, because, piece: `ducts of ${sizeWords(row)}` }],
  });
