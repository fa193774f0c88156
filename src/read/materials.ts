/** Materials of elements: layers of barriers, and which metal (or not) a duct is made of. */
import type { LayerText } from '../construction/built-of.js';
import { add, scale } from '../geometry/vector.js';
import type { DuctMaterial, LayerStart, ProjectFacts } from '../model.js';
import type { Source } from './source.js';
import type { StepFile } from './step-file.js';
import { bool, hasWord, num, ref, refs, text } from './value.js';

export interface ReadLayer extends LayerText {
  readonly thickness: number | undefined;
}

export interface ReadLayers {
  readonly layers: readonly ReadLayer[];
  /** They lie one on the other as they are listed. */
  readonly isOrdered: boolean;
  /** Id of the IfcMaterialLayerSetUsage that says on which face they begin. */
  readonly usage: number | undefined;
}

const NO_LAYERS: ReadLayers = { layers: [], isOrdered: false, usage: undefined };

/** As the file lists them; a single material is one layer without thickness. */
export function readLayers({ relations, layers }: Source, id: number): ReadLayers {
  const own = relations.materialOf.get(id) ?? relations.materialOf.get(relations.typeOf.get(id) ?? 0);
  return own === undefined ? NO_LAYERS : layers(own);
}

export function readMaterial(file: StepFile, mm: number, id: number): ReadLayers {
  const name = (material: unknown) => text(file.line(ref(material) ?? 0)?.Name) ?? '';
  const unordered = (layers: readonly ReadLayer[]): ReadLayers => ({ layers, isOrdered: false, usage: undefined });
  const all = (ids: readonly (number | undefined)[], depth: number): ReadLayers =>
    unordered(ids.flatMap((one) => read(one, depth).layers));
  const read = (at: number | undefined, depth: number): ReadLayers => {
    const line = at === undefined ? undefined : file.line(at);
    if (!line || depth > 4) return unordered([]);
    switch (file.entity(at!)) {
      case 'IFCMATERIAL':
        return unordered([{ material: text(line.Name) ?? '', thickness: undefined }]);
      case 'IFCMATERIALLAYERSETUSAGE':
        return { ...read(ref(line.ForLayerSet), depth + 1), usage: at };
      case 'IFCMATERIALPROFILESETUSAGE':
        return read(ref(line.ForProfileSet), depth + 1);
      case 'IFCMATERIALLAYERSET': {
        const layers = refs(line.MaterialLayers).map((layer): ReadLayer => {
          const l = file.line(layer);
          const thickness = num(l?.LayerThickness);
          return {
            material: name(l?.Material),
            thickness: thickness === undefined || thickness < 0 ? undefined : thickness * mm,
            category: text(l?.Category),
            // UNKNOWN says that it is air, and not whether the air is changed.
            isAir: l !== undefined && l.IsVentilated !== null && bool(l.IsVentilated) !== false,
          };
        });
        return { layers, isOrdered: true, usage: undefined };
      }
      case 'IFCMATERIALLIST':
        return all(refs(line.Materials), depth + 1);
      case 'IFCMATERIALCONSTITUENTSET':
        return all(
          refs(line.MaterialConstituents).map((c) => ref(file.line(c)?.Material)),
          depth + 1,
        );
      case 'IFCMATERIALPROFILESET':
        return all(
          refs(line.MaterialProfiles).map((p) => ref(file.line(p)?.Material)),
          depth + 1,
        );
      default:
        return unordered([]);
    }
  };
  return read(id, 0);
}

/** Where the layers of a product begin, in the file's own coordinates; undefined where its usage is not whole. */
export function readLayerStart(
  { file, mm, placements }: Source,
  usage: number | undefined,
  placement: number | undefined,
): LayerStart | undefined {
  const line = usage === undefined ? undefined : file.line(usage);
  if (!line) return undefined;
  const placed = placements.objectIfWhole(placement);
  if (!placed) return undefined;
  const axis = { AXIS1: placed.x, AXIS2: placed.y, AXIS3: placed.z }[text(line.LayerSetDirection) ?? ''];
  const sense = { POSITIVE: 1, NEGATIVE: -1 }[text(line.DirectionSense) ?? ''];
  const offset = num(line.OffsetFromReferenceLine);
  if (!axis || !sense || offset === undefined) return undefined;
  return { at: add(placed.origin, scale(axis, offset * mm)), direction: scale(axis, sense) };
}

/** Id of the material itself, where there is just one: its properties may hold a rating. */
export function singleMaterial({ file, relations }: Source, id: number): number | undefined {
  const own = relations.materialOf.get(id) ?? relations.materialOf.get(relations.typeOf.get(id) ?? 0);
  return own !== undefined && file.entity(own) === 'IFCMATERIAL' ? own : undefined;
}

/** Order matters: "stainless steel" is not "steel". */
const METALS: readonly (readonly [DuctMaterial, RegExp])[] = [
  ['stainless', /stainless|edelstahl|inox|nirosta|rvs\b/iu],
  ['aluminium', /alumin/iu],
  ['plastic', /plastic|kunststoff|pvc|ppr?\b|polypropyl|polyethyl|pe-?hd|hdpe|frp|grp/iu],
  ['steel', /steel|stahl|acier|acciaio|acero|galvani|verzinkt|zinc/iu],
];

export function ductMaterial(layers: readonly ReadLayer[], own: ProjectFacts['ductMaterials'] = []): DuctMaterial {
  const classOf = (name: string) =>
    own.find(({ words }) => hasWord(name, words))?.material ?? METALS.find(([, words]) => words.test(name))?.[0];
  const found = new Set(layers.map(({ material }) => classOf(material)).filter((m) => m !== undefined));
  return found.size === 1 ? [...found][0]! : 'unknown';
}
