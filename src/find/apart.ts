/** Files whose ductwork and barriers lie away from those of all others: they were exported from another origin. */
import { type Box, boxDistance, boxOf } from '../geometry/box.js';
import { lerp, sub } from '../geometry/vector.js';
import type { Federation, FileApart } from '../model.js';
import { FEDERATION_REACH } from '../tolerances.js';
import { roundLength, roundPoint } from './rounding.js';

interface PlacedFile {
  readonly id: string;
  readonly box: Box;
  readonly elements: number;
}

/** In the order of the models; none where everything lies in one place. What one file holds belongs together. */
export function filesApart({ models, airElements, barriers }: Federation): FileApart[] {
  const files = models.flatMap(({ id }): PlacedFile[] => {
    const elements = [...airElements, ...barriers].filter((element) => element.model === id);
    if (elements.length === 0) return [];
    return [{ id, box: boxOf(elements.flatMap((element) => element.bodies)), elements: elements.length }];
  });
  const main = mainGroup(files);
  return files
    .filter((file) => !main.includes(file))
    .map((file) => {
      const nearest = [...main].sort((a, b) => boxDistance(a.box, file.box) - boxDistance(b.box, file.box))[0]!;
      return {
        model: file.id,
        from: nearest.id,
        distance: roundLength(boxDistance(nearest.box, file.box)),
        offset: roundPoint(sub(middleOf(file.box), middleOf(nearest.box))),
      };
    });
}

/** Of the groups of files that lie together, the one with the most elements; of equals the first. */
function mainGroup(files: readonly PlacedFile[]): readonly PlacedFile[] {
  const groups: PlacedFile[][] = [];
  for (const file of files) {
    const near = groups.filter((group) => group.some((other) => boxDistance(file.box, other.box) <= FEDERATION_REACH));
    for (const group of near) groups.splice(groups.indexOf(group), 1);
    groups.push([...near.flat(), file]);
  }
  const size = (group: readonly PlacedFile[]) => group.reduce((sum, file) => sum + file.elements, 0);
  const first = (group: readonly PlacedFile[]) => Math.min(...group.map((file) => files.indexOf(file)));
  return groups.sort((a, b) => size(b) - size(a) || first(a) - first(b))[0] ?? [];
}

const middleOf = ({ min, max }: Box) => lerp(min, max, 0.5);
