/** Pins and straps that hold the protection to a piece of ductwork. */
import type { Fixing } from '../../rules/tested-system.js';
import { perimeter } from '../../supports/masses.js';
import { counted, number } from '../../words/text.js';
import { quantitiesOf } from '../draft.js';
import { pinsOnFace, pinsOnRound, pinsOnSurface, strapLength, strapsAlong } from '../formulas/fixings.js';
import type { FormulaName } from '../formulas/words.js';
import { pinsOf, strapOf } from '../materials.js';
import { outermostStrips } from './blanket.js';
import { type Along, around, drafted, isFlat, missing, type PiecesCounted, piecesTogether } from './part.js';

/** A system without fixings needs none. */
export function fixings(along: Along): PiecesCounted {
  const { system, fixing } = along;
  if (system.fixings.length === 0) return piecesTogether([]);
  if (!fixing) {
    const because =
      'which fixing holds it is not the same, or not settled, at all barriers of its run; the brief can name one';
    return missing(along, { material: 'pin', what: 'pins or straps', because });
  }
  const { pins, straps } = fixing.pattern;
  return piecesTogether([
    ...(pins ? [pinned(along, fixing, pins)] : []),
    ...(straps ? [strapped(along, fixing, straps)] : []),
  ]);
}

type Pins = NonNullable<Fixing['pattern']['pins']>;
type Straps = NonNullable<Fixing['pattern']['straps']>;

/** Through all layers, so once for all of them, and as long as so many need. */
function pinned(along: Along, fixing: Fixing, pins: Pins): PiecesCounted {
  const { system, layers } = along;
  const cannot = (because: string): PiecesCounted => missing(along, { material: 'pin', what: 'pins', because });
  const length = pins.lengths.find((one) => one.layers === layers)?.length;
  if (length === undefined) return cannot(`${system.name} has no length of pins for ${counted(layers, 'layer')}`);
  if (pins.grid <= 0) return cannot(`${system.name} gives no distance between pins`);
  const grid = gridOf(along, pins);
  if (typeof grid === 'string') return cannot(grid);
  return drafted(along, {
    ...quantitiesOf({ pieces: grid.pieces }),
    material: pinsOf(system, length),
    what: `pins ${grid.where}, at most ${number(pins.grid)} mm apart`,
    formula: grid.formula,
    source: pins.source ?? fixing.source ?? system.source,
  });
}

/** Where the document does not say on which faces, on all of them. */
function gridOf(
  { body, length }: Along,
  { grid, where = 'all sides' }: Pins,
): { readonly pieces: number; readonly where: string; readonly formula: FormulaName } | string {
  if (body.kind === 'fitting') {
    if (where === 'underside') return 'which part of its surface is its underside is not known';
    return { pieces: pinsOnSurface(body.surface, grid), where: 'all over', formula: 'pinSurface' };
  }
  const { across, way, bare } = body;
  if (across.shape === 'rectangular') {
    const { width, height } = across;
    const [flat, beside] = [pinsOnFace(length, width, grid), pinsOnFace(length, height, grid)];
    // Of an upright duct no side is under it.
    if (where === 'underside')
      return {
        pieces: way === 'upright' || bare === 'bottom' ? 0 : flat,
        where: 'on the underside',
        formula: 'pinGrid',
      };
    const less = bare === null ? 0 : isFlat(bare) ? flat : beside;
    const words = bare === null ? 'on all sides' : 'on three sides';
    return { pieces: 2 * flat + 2 * beside - less, where: words, formula: 'pinGrid' };
  }
  if (where === 'underside') return 'a duct that is not rectangular has no flat underside';
  return { pieces: pinsOnRound(length, perimeter(across), grid), where: 'in rings', formula: 'pinRings' };
}

function strapped(along: Along, fixing: Fixing, straps: Straps): PiecesCounted {
  const { system, layers, length, body, barrierEnds, joints, choices } = along;
  const cannot = (because: string): PiecesCounted => missing(along, { material: 'strap', what: 'straps', because });
  if (body.kind === 'straight' && body.bare !== null) return cannot('how straps hold three sides, no document says');
  if (straps.spacing <= 0) return cannot(`${system.name} gives no distance between straps`);
  const strips = straps.oneMoreOnOverlaps ? outermostStrips(along) : 1;
  if (strips === undefined) return cannot(`${system.name} does not say how pieces lap`);
  const clear = straps.clearOfPenetration ?? 0;
  const spaced = strapsAlong(length, straps.spacing, clear, barrierEnds);
  const onLaps = straps.oneMoreOnOverlaps && length > 0 ? strips - 1 + joints : 0;
  const more = onLaps > 0 ? ` and ${onLaps} on overlaps` : '';
  return drafted(along, {
    ...quantitiesOf({
      pieces: spaced + onLaps,
      length: strapLength(around(along, layers), choices.strapOverlap),
    }),
    material: strapOf(system, straps.width),
    what: `straps round the outermost layer, ${spaced} at most ${number(straps.spacing)} mm apart${more}`,
    formula: 'straps',
    source: straps.source ?? fixing.source ?? system.source,
  });
}
