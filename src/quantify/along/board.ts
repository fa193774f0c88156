/** A casing of boards round a straight piece of ductwork, layer on layer; what is not straight by its developed surface. */
import { counted } from '../../words/text.js';
import { type Draft, quantitiesOf } from '../draft.js';
import { casingPanels, type PanelCut, panelsFromSheet } from '../formulas/casing.js';
import { layerOf } from '../materials.js';
import { deliveredAs } from '../stock.js';
import { type Cut, developedCuts } from './developed.js';
import { type Along, drafted, isFlat, layerAt, missing, type PiecesCounted, piecesTogether } from './part.js';

export function board(along: Along): PiecesCounted {
  const { system, layers, body } = along;
  const material = layerOf(system);
  const { layer } = system;
  const cannot = (because: string): PiecesCounted =>
    missing(along, { material: 'board', what: `${counted(layers, 'layer')} of board`, because });
  if (!layer || !material) return cannot(`${system.name} does not say what a layer is`);
  if (body.kind === 'straight' && body.across.shape !== 'rectangular')
    return cannot('how a casing of boards goes round a duct that is not rectangular, no document says');
  const { thickness, density } = layer;
  const drafts = Array.from({ length: layers }, (_, i) =>
    (body.kind === 'fitting' ? developedCuts(along, i + 1, 'board') : panels(along, i + 1, thickness)).map(
      ({ words, ...cut }): Omit<Draft, 'place' | 'element'> => ({
        ...quantitiesOf({ ...cut, thickness, density }),
        ...{ material, what: `layer ${i + 1}: ${words}`, source: layer.source ?? system.source },
        layer: layerAt(along, i + 1, thickness),
        formula: body.kind === 'fitting' ? 'developed' : 'casing',
      }),
    ),
  );
  const fixed = {
    material: 'screw',
    what: 'what joins the boards',
    because: `${system.name} does not say it`,
  } as const;
  return piecesTogether([drafted(along, ...drafts.flat()), missing(along, fixed)]);
}

function panels(along: Along, layer: number, thickness: number): Cut[] {
  const { body, length } = along;
  if (body.kind !== 'straight' || body.across.shape !== 'rectangular') return [];
  const [sheet] = deliveredAs('board', along.system, along.choices.stocks);
  return casingPanels(body.across, layer, thickness).flatMap(({ side, pieces, width }) => {
    const isBare = body.bare !== null && isFlat(body.bare) === (side === 'over and under');
    const count = isBare ? pieces - 1 : pieces;
    const cuts: PanelCut[] = sheet
      ? panelsFromSheet(length, width, sheet)
      : [{ pieces: length > 0 ? 1 : 0, length, width }];
    const words = `panels ${isBare ? `on the side away from the ${body.bare}` : side} the duct`;
    return cuts.map((cut) => ({ ...cut, pieces: cut.pieces * count, words: sheet ? words : `${words}, uncut` }));
  });
}
