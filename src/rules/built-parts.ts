/** What is built by a tested detail round one duct: its parts in the order of the work, with their sizes in millimetres. */
import type { BuiltAs, BuiltPart, BuiltScrews } from '../model.js';
import { type DuctSize, type SizeValue, valueAt } from './size-value.js';
import type { Detail } from './tested-detail.js';
import type { TestedSystemDocument } from './tested-system.js';

type Part = Detail['parts'][number];
type Screws = NonNullable<Extract<Part, { part: 'angle' }>['intoBarrier']>;

/** @param detail undefined: none is known to be for this barrier */
export function builtAs(
  system: Pick<TestedSystemDocument, 'layer' | 'protection' | 'source'>,
  detail: Detail | undefined,
  size: DuctSize,
): BuiltAs {
  return {
    parts: detail?.parts.map((part) => builtPart(part, detail, system.source, size)) ?? [],
    layerThickness: system.layer?.thickness ?? null,
    protection: system.protection,
    gapDatum: detail?.gapDatum ?? null,
    faces: detail?.faces ?? null,
  };
}

/** Of a detail that is built from one face, every part is on that one. */
function builtPart(part: Part, detail: Detail, documentSource: string, size: DuctSize): BuiltPart {
  const at = (value: SizeValue | undefined): number | null =>
    value === undefined ? null : (valueAt(value, size) ?? null);
  const onOne = detail.faces === 'one' || ('faces' in part && part.faces === 'one');
  const built = { source: part.source ?? detail.source ?? documentSource, faces: onOne ? 'one' : 'both' } as const;
  switch (part.part) {
    case 'packing':
      return { part: part.part, ...built, material: part.material };
    case 'angle':
      return {
        ...{ part: part.part, ...built, sides: part.sides, leg: at(part.leg), thickness: at(part.thickness) },
        ...{ intoBarrier: screwsOf(part.intoBarrier), intoDuct: part.intoDuct ? screwsOf(part.intoDuct) : null },
      };
    case 'boardCollar': {
      const { material, drilledFromEnd: holes, intoBarrier } = part;
      return {
        ...{ part: part.part, ...built, material, width: at(part.width), thickness: at(part.thickness) },
        drilledFromEnd: holes ? { atLeast: at(holes.atLeast), atMost: at(holes.atMost) } : null,
        intoBarrier: intoBarrier ? screwsOf(intoBarrier) : null,
      };
    }
    case 'localBuildUp':
      return { part: part.part, ...built, length: at(part.length), layers: part.layers };
    case 'sealant':
      return { part: part.part, ...built, at: part.at, depth: at(part.depth), width: at(part.width) };
  }
}

const screwsOf = ({ spacing, type, reachesFraming }: Screws): BuiltScrews => ({
  spacing,
  type: type ?? null,
  reachesFraming: reachesFraming ?? null,
});
