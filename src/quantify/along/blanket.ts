/** Blanket round a piece of ductwork, layer on layer, and the tape on its joints. */
import { counted, number } from '../../words/text.js';
import { type Draft, quantitiesOf, roundedTo } from '../draft.js';
import { tapeLength } from '../formulas/fixings.js';
import { bestRoll, cutLength, piecesOfStrip, stripsAlong, stripsCut } from '../formulas/wrap.js';
import { layerOf, tapeOf } from '../materials.js';
import { deliveredAs } from '../stock.js';
import { type Cut, developedCuts } from './developed.js';
import {
  type Along,
  around,
  cornersOf,
  drafted,
  layerAt,
  missing,
  type PiecesCounted,
  piecesTogether,
} from './part.js';

type Joints = NonNullable<Along['system']['joints']>;

/** One layer as it is cut: strips side by side, each of so many pieces. */
interface Layer {
  readonly cuts: readonly Cut[];
  readonly strips: number;
  readonly piecesOfEach: number;
}

/** Nothing is taken off where a branch joins its side or an access panel lies on it. Common practice, no source. */
export function blanket(along: Along): PiecesCounted {
  const { system, layers, body } = along;
  const material = layerOf(system);
  const { layer, joints } = system;
  const cannot = (because: string): PiecesCounted =>
    missing(along, { material: 'blanket', what: `${counted(layers, 'layer')} of blanket`, because });
  if (!layer || !material) return cannot(`${system.name} does not say what a layer is`);
  if (!joints) return cannot(`${system.name} does not say how pieces lap`);
  const rolls = deliveredAs('blanket', along.system, along.choices.stocks);
  if (rolls.length > 0 && rolls.every(({ length, width }) => Math.min(length, width) <= joints.overlap))
    return cannot(`no piece as it is delivered is wider than its overlap, ${number(joints.overlap)} mm`);
  const { thickness, density } = layer;
  const source = layer.source ?? joints.source ?? system.source;
  return piecesTogether(
    Array.from({ length: layers }, (_, i): PiecesCounted => {
      const own = layerCut(along, i + 1, joints);
      const covers = number((around(along, i + 1) * along.length) / 1e6);
      const drafts = own.cuts.map(
        ({ words, ...cut }): Omit<Draft, 'place' | 'element'> => ({
          ...quantitiesOf({ ...cut, thickness, density }),
          ...{ material, what: `layer ${i + 1}, which covers ${covers} m²: ${words}`, source },
          layer: layerAt(along, i + 1, thickness),
          formula: body.kind === 'fitting' ? 'developed' : 'strip',
        }),
      );
      return piecesTogether([drafted(along, ...drafts), ...(joints.taped ? [tape(along, i + 1, own, joints)] : [])]);
    }),
  );
}

/** The strips of a piece go on over the joint with the next one, by one overlap. */
function layerCut(along: Along, layer: number, joints: Joints): Layer {
  const { body, length } = along;
  const { overlap } = joints;
  const rolls = deliveredAs('blanket', along.system, along.choices.stocks);
  if (body.kind === 'fitting') {
    const widest = Math.max(0, ...rolls.map(({ width }) => width));
    const strips = widest > overlap ? stripsAlong(length, widest, overlap) : 1;
    return { cuts: developedCuts(along, layer, 'blanket'), strips, piecesOfEach: 1 };
  }
  const strip = cutLength(around(along, layer), joints, cornersOf(along));
  const long = length === 0 ? 0 : length + along.joints * overlap;
  const how = body.bare === null ? 'strips round the duct' : `strips round three sides, not the ${body.bare}`;
  const roll = bestRoll(rolls, long, strip, overlap);
  if (!roll) {
    const words = `${how}; nothing says in what width it is delivered`;
    return { cuts: [{ words, pieces: long > 0 ? 1 : 0, length: strip, width: long }], strips: 1, piecesOfEach: 1 };
  }
  const each = piecesOfStrip(strip, roll.length, overlap);
  const joined = each.pieces > 1 ? `, each of ${each.pieces} pieces that lap` : '';
  const words = `${how}, of a roll ${number(roll.length)} x ${number(roll.width)}${joined}`;
  const cuts = stripsCut(long, roll.width, overlap).map(({ pieces, width }) => ({
    ...{ words, width, length: each.length },
    pieces: pieces * each.pieces,
  }));
  return { cuts, strips: stripsAlong(long, roll.width, overlap), piecesOfEach: each.pieces };
}

/** Every layer is taped, since documents name none. */
function tape(along: Along, layer: number, { strips, piecesOfEach }: Layer, joints: Joints): PiecesCounted {
  const { length, system } = along;
  if (length === 0) return drafted(along);
  const laps = Math.max(0, strips - 1) + along.joints;
  const metres = tapeLength(laps, around(along, layer), piecesOfEach * length) / 1000;
  return drafted(along, {
    ...quantitiesOf({ pieces: 1 }),
    lengthM: roundedTo(metres, 3),
    material: tapeOf(system),
    what: `layer ${layer}, over its joints round the duct and along the seam that closes it`,
    formula: 'tape',
    source: joints.source ?? system.source,
  });
}

/** How many strips the outermost layer has. */
export function outermostStrips(along: Along): number | undefined {
  const { joints } = along.system;
  return joints && layerCut(along, along.layers, joints).strips;
}
