/** Angles and board collars round the duct at the faces, with what fixes them, at one penetration. */
import { valueAt } from '../../rules/size-value.js';
import { perimeter } from '../../supports/masses.js';
import { number } from '../../words/text.js';
import { type Counted, countedTogether, type Draft, quantitiesOf } from '../draft.js';
import { countAlong, countAround } from '../formulas/counting.js';
import { angleCentroid, angleOf, bentLength, framePieces } from '../formulas/frame.js';
import { angleBar, collarOf, screwsOf } from '../materials.js';
import { type At, beyondTable, drafted, facesOf, missing, type PartOf, sourceOf } from './at.js';
import { facesWords } from './fill.js';

type Screws = PartOf<'angle'>['intoBarrier'];
type Unplaced = Omit<Draft, 'place' | 'element'>;

/** Bars of which a frame at one face is made: how many, how long, and how much of each lies along the duct. */
interface Bars {
  readonly words: string;
  readonly pieces: number;
  readonly length: number;
  readonly alongDuct: number;
  /** It has no ends: bent round. */
  readonly isRing: boolean;
}

export function angle(at: At, part: PartOf<'angle'>): Counted {
  const [leg, thickness] = [valueAt(part.leg, at.size), valueAt(part.thickness, at.size)];
  if (leg === undefined || thickness === undefined) return missing(at, 'angle', 'angles', beyondTable(at));
  const faces = facesOf(at, part.faces);
  const { name, perMetre } = angleOf(leg, thickness);
  const bars = barsOf(at, part.sides, leg, thickness);
  const source = sourceOf(at, part);
  const cut = bars.map(
    ({ words, pieces, length, isRing }): Unplaced => ({
      ...quantitiesOf({ pieces: pieces * faces, length, perMetre }),
      material: angleBar(name),
      what: `angles ${words}, ${facesWords(faces)}`,
      formula: isRing ? 'bentBar' : 'frame',
      source,
    }),
  );
  const fixed = (screws: Screws, into: string, lengthOf: (bar: Bars) => number): Counted =>
    drafted(at, fixings(screws, into, bars, lengthOf, faces, source));
  return countedTogether([
    drafted(at, ...cut),
    fixed(part.intoBarrier, 'the barrier', ({ length }) => length),
    ...(part.intoDuct ? [fixed(part.intoDuct, 'the duct', ({ alongDuct }) => alongDuct)] : []),
  ]);
}

function barsOf({ framed, corners }: At, sides: PartOf<'angle'>['sides'], leg: number, thickness: number): Bars[] {
  if (framed.shape === 'rectangular')
    return framePieces(framed, leg, sides, corners).map(({ sides: words, ...rest }) => ({
      ...rest,
      words,
      isRing: false,
    }));
  const length = bentLength(framed, angleCentroid(leg, thickness));
  return [{ words: 'bent round', pieces: 1, length, alongDuct: perimeter(framed), isRing: true }];
}

/** In every bar at most so far apart, with one at each of its ends: so the corners are held from both sides. */
function fixings(
  { spacing, type, reachesFraming }: Screws,
  into: string,
  bars: readonly Bars[],
  lengthOf: (bar: Bars) => number,
  faces: number,
  source: string,
  fromEnd = 0,
): Unplaced {
  const inOne = (bar: Bars): number =>
    bar.isRing ? countAround(lengthOf(bar), spacing) : countAlong(lengthOf(bar), spacing, fromEnd);
  const count = faces * bars.reduce((sum, bar) => sum + bar.pieces * inOne(bar), 0);
  const words = type ?? `fasteners into ${into}, of a kind that the document does not say`;
  return {
    ...quantitiesOf({ pieces: count }),
    material: screwsOf(words),
    what: `from the angles into ${into}, at most ${number(spacing)} mm apart${reachesFraming ? ', into the framing' : ''}`,
    formula: bars.some(({ isRing }) => isRing) ? 'round' : 'row',
    source,
  };
}

/** Strips over and under the duct, shorter ones between them; halves with a cut-out round what is not rectangular. */
export function boardCollar(at: At, part: PartOf<'boardCollar'>): Counted {
  const [width, thickness] = [valueAt(part.width, at.size), valueAt(part.thickness, at.size)];
  if (width === undefined || thickness === undefined)
    return missing(at, 'boardCollar', 'board collar', beyondTable(at));
  const faces = facesOf(at, 'both');
  const source = sourceOf(at, part);
  const material = collarOf(at.system, part.material, thickness);
  const holes = holeWords(at, part);
  const cut = stripsOf(at, width);
  const strips = cut.map(
    ({ words, pieces, length, width: wide, formula }): Unplaced => ({
      ...quantitiesOf({ pieces: pieces * faces, length, width: wide }),
      ...{ material, what: `${words}, ${facesWords(faces)}${holes}`, formula, source },
    }),
  );
  const screws = part.intoBarrier;
  if (!screws)
    return countedTogether([
      drafted(at, ...strips),
      missing(at, 'screw', 'what fixes the board collar', `${at.system.name} does not say it`),
    ]);
  const bars = cut.map((strip) => ({ ...strip, alongDuct: 0, isRing: false }));
  return drafted(at, ...strips, {
    ...fixings(screws, 'the barrier', bars, ({ length }) => length, faces, source, leastFromEnd(at, part)),
    what: `through the board collar into the barrier, at most ${number(screws.spacing)} mm apart`,
  });
}

function stripsOf({ framed }: At, width: number) {
  if (framed.shape === 'rectangular')
    return framePieces(framed, width, 'all', 'butted').map(({ sides, pieces, length }) => ({
      ...{ words: `collar strips ${sides}`, pieces, length, width },
      formula: 'frame' as const,
    }));
  const [wide, high] = framed.shape === 'circular' ? [framed.diameter, framed.diameter] : [framed.width, framed.height];
  return [
    {
      ...{
        words: 'collar halves, cut out round the duct',
        pieces: 2,
        length: wide + 2 * width,
        width: high / 2 + width,
      },
      formula: 'halfCollars' as const,
    },
  ];
}

/** The nearer to the ends, the more there are. */
function leastFromEnd({ size }: At, { drilledFromEnd }: PartOf<'boardCollar'>): number {
  return (drilledFromEnd?.atLeast === undefined ? undefined : valueAt(drilledFromEnd.atLeast, size)) ?? 0;
}

function holeWords({ size }: At, { drilledFromEnd }: PartOf<'boardCollar'>): string {
  if (!drilledFromEnd) return '';
  const [least, most] = [drilledFromEnd.atLeast, drilledFromEnd.atMost].map((value) =>
    value === undefined ? undefined : valueAt(value, size),
  );
  const ends = [least, most].flatMap((mm) => (mm === undefined ? [] : [number(mm)]));
  if (ends.length === 0) return '';
  return `, holes ${ends.length === 2 ? ends.join(' to ') : `${least === undefined ? 'at most' : 'at least'} ${ends[0]}`} mm from the ends`;
}
