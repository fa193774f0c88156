/** Materials of elements: layers of barriers, and which metal (or not) a duct is made of. */
import type { DuctMaterial, MaterialLayer, ProjectFacts } from '../model.js';
import type { Source } from './source.js';
import { hasWord, num, ref, refs, text } from './value.js';

/** From outside to inside as the file lists them; a single material is one layer without thickness. */
export function readLayers({ file, relations, mm }: Source, id: number): MaterialLayer[] {
  const own = relations.materialOf.get(id) ?? relations.materialOf.get(relations.typeOf.get(id) ?? 0);
  const name = (material: unknown) => text(file.line(ref(material) ?? 0)?.Name) ?? '';
  const read = (at: number | undefined, depth: number): MaterialLayer[] => {
    const line = at === undefined ? undefined : file.line(at);
    if (!line || depth > 4) return [];
    switch (file.entity(at!)) {
      case 'IFCMATERIAL':
        return [{ material: text(line.Name) ?? '', thickness: undefined }];
      case 'IFCMATERIALLAYERSETUSAGE':
        return read(ref(line.ForLayerSet), depth + 1);
      case 'IFCMATERIALPROFILESETUSAGE':
        return read(ref(line.ForProfileSet), depth + 1);
      case 'IFCMATERIALLAYERSET':
        return refs(line.MaterialLayers).map((layer) => {
          const l = file.line(layer);
          const thickness = num(l?.LayerThickness);
          return { material: name(l?.Material), thickness: thickness === undefined ? undefined : thickness * mm };
        });
      case 'IFCMATERIALLIST':
        return refs(line.Materials).flatMap((m) => read(m, depth + 1));
      case 'IFCMATERIALCONSTITUENTSET':
        return refs(line.MaterialConstituents).flatMap((c) => read(ref(file.line(c)?.Material), depth + 1));
      case 'IFCMATERIALPROFILESET':
        return refs(line.MaterialProfiles).flatMap((p) => read(ref(file.line(p)?.Material), depth + 1));
      default:
        return [];
    }
  };
  return read(own, 0);
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

export function ductMaterial(layers: readonly MaterialLayer[], own: ProjectFacts['ductMaterials'] = []): DuctMaterial {
  const classOf = (name: string) =>
    own.find(({ words }) => hasWord(name, words))?.material ?? METALS.find(([, words]) => words.test(name))?.[0];
  const found = new Set(layers.map(({ material }) => classOf(material)).filter((m) => m !== undefined));
  return found.size === 1 ? [...found][0]! : 'unknown';
}
