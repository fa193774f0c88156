/** More layers on those of the duct beside a barrier, at one penetration. */
import { valueAt } from '../../rules/size-value.js';
import { number } from '../../words/text.js';
import { type Counted, type Draft, quantitiesOf } from '../draft.js';
import { cutLength, roundLayer, stripsAlong } from '../formulas/wrap.js';
import { layerOf } from '../materials.js';
import { type At, beyondTable, drafted, facesOf, missing, type PartOf, sourceOf } from './at.js';
import { facesWords } from './fill.js';

const WHAT = 'local build-up';

/** Strips as wide as the build-up is long; of several where no roll is so wide. */
export function localBuildUp(at: At, part: PartOf<'localBuildUp'>): Counted {
  const { system, duct, layers } = at;
  const material = layerOf(system);
  if (!material || !system.layer)
    return missing(at, 'localBuildUp', WHAT, `${system.name} does not say what a layer is`);
  if (!system.joints) return missing(at, 'localBuildUp', WHAT, `${system.name} does not say how pieces lap`);
  const length = valueAt(part.length, at.size);
  if (length === undefined) return missing(at, 'localBuildUp', WHAT, beyondTable(at));
  const { thickness, density, pieces = [] } = system.layer;
  const { joints } = system;
  const widest = Math.max(0, ...pieces.map(({ width }) => width));
  const strips = widest === 0 || length <= widest ? 1 : stripsAlong(length, widest, joints.overlap);
  const width = strips === 1 ? length : (length + (strips - 1) * joints.overlap) / strips;
  const faces = facesOf(at, part.faces);
  const drafts = Array.from({ length: part.layers }, (_, i): Omit<Draft, 'place' | 'element'> => {
    const layer = layers + 1 + i;
    const around = roundLayer(duct, layer, thickness);
    const cut = cutLength(around, joints, duct.shape === 'rectangular' ? 4 : 0);
    return {
      ...quantitiesOf({ pieces: strips * faces, length: cut, width, thickness, density }),
      material,
      what: `${WHAT}, layer ${layer} on the duct, ${number(length)} mm along it, ${facesWords(faces)}`,
      formula: 'wrap',
      source: sourceOf(at, part),
    };
  });
  return drafted(at, ...drafts);
}
