/** More layers on those of the duct beside a barrier, at one penetration. */

import type { Fixing } from '../../rules/index.js';
import { valueAt } from '../../rules/size-value.js';
import { perimeter } from '../../supports/masses.js';
import { counted, number } from '../../words/text.js';
import { type Counted, countedTogether, type Draft, quantitiesOf } from '../draft.js';
import { pinsOnFace, pinsOnRound, strapLength, strapsAlong } from '../formulas/fixings.js';
import { cutLength, piecesOfStrip, roundLayer } from '../formulas/wrap.js';
import { layerOf, pinsOf, strapOf } from '../materials.js';
import { deliveredAs } from '../stock.js';
import { type At, beyondTable, drafted, facesOf, missing, type PartOf, sourceOf } from './at.js';
import { facesWords } from './fill.js';

const WHAT = 'local build-up';

export function localBuildUp(at: At, part: PartOf<'localBuildUp'>): Counted {
  const { system, duct, layers } = at;
  const material = layerOf(system);
  if (!material || !system.layer)
    return missing(at, 'localBuildUp', WHAT, `${system.name} does not say what a layer is`);
  if (!system.joints) return missing(at, 'localBuildUp', WHAT, `${system.name} does not say how pieces lap`);
  const length = valueAt(part.length, at.size);
  if (length === undefined) return missing(at, 'localBuildUp', WHAT, beyondTable(at));
  const { thickness, density } = system.layer;
  const { joints } = system;
  const delivered = system.protection === 'fireResistingDuct' ? [] : deliveredAs(system.protection, system, at.stocks);
  const widest = Math.max(0, ...delivered.map(({ width }) => width));
  // Strips as wide as the build-up is long; of several that lap where no roll is so wide.
  const strips = piecesOfStrip(length, widest > joints.overlap ? widest : length, joints.overlap);
  const faces = facesOf(at, part.faces);
  const drafts = Array.from({ length: part.layers }, (_, i): Omit<Draft, 'place' | 'element'> => {
    const layer = layers + 1 + i;
    const cut = cutLength(roundLayer(duct, layer, thickness), joints, duct.shape === 'rectangular' ? 4 : 0);
    return {
      ...quantitiesOf({ pieces: strips.pieces * faces, length: cut, width: strips.length, thickness, density }),
      material,
      what: `${WHAT}, layer ${layer} on the duct, ${number(length)} mm along it, ${facesWords(faces)}`,
      formula: 'wrap',
      source: sourceOf(at, part),
    };
  });
  return countedTogether([drafted(at, ...drafts), fixed(at, { length, faces, layers: layers + part.layers })]);
}

interface BuiltUp {
  readonly length: number;
  readonly faces: number;
  /** With those of the duct under it. */
  readonly layers: number;
}

/** By the pattern that holds the protection of the duct, anew: what holds the layers under it is not long enough. */
function fixed(at: At, builtUp: BuiltUp): Counted {
  const { system, fixing } = at;
  if (system.fixings.length === 0) return countedTogether([]);
  if (!fixing) return missing(at, 'pin', `what holds the ${WHAT}`, 'which fixing holds the protection is not settled');
  const { pins, straps } = fixing.pattern;
  return countedTogether([
    ...(pins ? [pinned(at, fixing, pins, builtUp)] : []),
    ...(straps ? [strapped(at, fixing, straps, builtUp)] : []),
  ]);
}

function pinned(at: At, fixing: Fixing, pins: NonNullable<Fixing['pattern']['pins']>, built: BuiltUp): Counted {
  const { system, duct, penetration } = at;
  const { length, faces, layers } = built;
  const what = `pins of the ${WHAT}`;
  const long = pins.lengths.find((one) => one.layers === layers)?.length;
  if (long === undefined)
    return missing(at, 'pin', what, `${system.name} has no length of pins for ${counted(layers, 'layer')}`);
  if (pins.grid <= 0) return missing(at, 'pin', what, `${system.name} gives no distance between pins`);
  const isBelowOnly = pins.where === 'underside';
  const source = pins.source ?? fixing.source ?? system.source;
  const material = pinsOf(system, long);
  const draft = (pieces: number, formula: 'pinGrid' | 'pinRings'): Counted =>
    drafted(at, {
      ...quantitiesOf({ pieces: pieces * faces }),
      ...{ material, what: `${what}, at most ${number(pins.grid)} mm apart`, formula, source },
    });
  if (duct.shape !== 'rectangular')
    return isBelowOnly
      ? missing(at, 'pin', what, 'a duct that is not rectangular has no flat underside')
      : draft(pinsOnRound(length, perimeter(duct), pins.grid), 'pinRings');
  const [flat, beside] = [pinsOnFace(length, duct.width, pins.grid), pinsOnFace(length, duct.height, pins.grid)];
  // What passes a floor goes up, so no side of it is under it.
  if (isBelowOnly) return penetration.barrier.kind === 'wall' ? draft(flat, 'pinGrid') : countedTogether([]);
  return draft(2 * flat + 2 * beside, 'pinGrid');
}

function strapped(at: At, fixing: Fixing, straps: NonNullable<Fixing['pattern']['straps']>, built: BuiltUp): Counted {
  const { system, duct, strapOverlap } = at;
  const what = `straps of the ${WHAT}`;
  if (straps.spacing <= 0) return missing(at, 'strap', what, `${system.name} gives no distance between straps`);
  const each = strapsAlong(built.length, straps.spacing, straps.clearOfPenetration ?? 0, 1);
  const around = roundLayer(duct, built.layers, system.layer!.thickness);
  return drafted(at, {
    ...quantitiesOf({ pieces: each * built.faces, length: strapLength(around, strapOverlap) }),
    material: strapOf(system, straps.width),
    what: `${what}, at most ${number(straps.spacing)} mm apart`,
    formula: 'straps',
    source: straps.source ?? fixing.source ?? system.source,
  });
}
