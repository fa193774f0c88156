/** What a file says of the wall of a duct: its sheet, its insulation, its lining, and whether it is flexible. */
import type { DeclaredDuct, DuctLayer } from '../model.js';
import type { Source } from './source.js';
import type { Line } from './step-file.js';
import { bool, hasWord, num, ref, refs, text } from './value.js';

/** Words in the names of materials, types and elements. Common practice, no source. */
const INSULATION_WORDS =
  /insulat|(mineral|rock|stone|glass|steel) ?wool|isol(ant|ier|é\b|amento|ation thermique)|(ge)?d(ä|ae)mm(ung|t|stoff)?|(stein|glas|mineral)wolle|laine de (roche|verre)|lana (di roccia|minerale)|elastomeric/iu;
const NOT_INSULATED = /un-?insulated|non-?insulated|not insulated|no insulation|unged(ä|ae)mmt|non isol/iu;
const LINING_WORDS = /\blin(er|ing|ed)\b|innend(ä|ae)mmung|auskleidung/iu;
const FLEXIBLE_WORDS = /\bflex(i|ible|rohr|schlauch)?\b|schlauch|gaine souple|flessibil|conducto flexible/iu;
const NONE_WORDS = /^(|-+|no|none|n\/?a|nein|keine|ohne|non|aucune?|0)$/iu;

/** Thicker than any insulation of a duct, mm: a number in another unit, which says nothing of how thick it is. */
const MOST_THICKNESS = 500;

export function readWall(source: Source, id: number, line: Line): DuctLayer[] {
  const declared = declaredFor(source, id, line);
  const fromBrief = declared.flatMap(({ sheet, insulation, lining }): DuctLayer[] => [
    ...(sheet === undefined ? [] : [layer('sheet', 'unknown', sheet, 'brief')]),
    ...(insulation ? [layer('insulation', 'outside', insulation, 'brief')] : []),
    ...(lining === undefined ? [] : [layer('insulation', 'inside', lining, 'brief')]),
  ]);
  const isBare = declared.some(({ insulation }) => insulation === 0);
  const layers = [
    ...fromBrief,
    ...coverings(source, id),
    ...fromProperties(source, id),
    ...fromMaterial(source, materialOf(source, id), 0),
    ...fromNames(source, id, line),
  ];
  return isBare ? layers.filter(({ kind, place }) => kind === 'sheet' || place === 'inside') : layers;
}

export function isFlexible(source: Source, id: number, line: Line, predefined: string | undefined): boolean {
  const said = declaredFor(source, id, line).find(({ flexible }) => flexible !== undefined)?.flexible;
  if (said !== undefined) return said;
  if (predefined === 'FLEXIBLESEGMENT') return true;
  return predefined !== 'RIGIDSEGMENT' && namesOf(source, id, line).some((name) => FLEXIBLE_WORDS.test(name));
}

const layer = (
  kind: DuctLayer['kind'],
  place: DuctLayer['place'],
  thickness: number | undefined,
  from: DuctLayer['from'],
): DuctLayer => ({ kind, place, thickness: isThickness(thickness) ? thickness : undefined, from });

const isThickness = (mm: number | undefined): boolean => mm !== undefined && mm > 0 && mm <= MOST_THICKNESS;

function namesOf({ file, relations }: Source, id: number, line: Line): string[] {
  const type = file.line(relations.typeOf.get(id) ?? 0);
  return [line.Name, line.ObjectType, line.Description, type?.Name, type?.Description, type?.ElementType]
    .map(text)
    .filter((name) => name !== undefined);
}

function declaredFor(source: Source, id: number, line: Line): readonly DeclaredDuct[] {
  const all = source.facts?.ducts ?? [];
  if (all.length === 0) return all;
  const names = [...namesOf(source, id, line), ...materialNames(source, materialOf(source, id), 0)];
  return all.filter(({ words }) => names.some((name) => hasWord(name, words)));
}

const materialOf = ({ relations }: Source, id: number): number | undefined =>
  relations.materialOf.get(id) ?? relations.materialOf.get(relations.typeOf.get(id) ?? 0);

function materialNames(source: Source, at: number | undefined, depth: number): string[] {
  const line = at === undefined ? undefined : source.file.line(at);
  if (!line || depth > 4) return [];
  const inner = [
    line.ForLayerSet,
    line.MaterialLayers,
    line.MaterialConstituents,
    line.Materials,
    line.Material,
    line.ForProfileSet,
    line.MaterialProfiles,
  ].flatMap(refs);
  const own = text(line.Name);
  return [...(own === undefined ? [] : [own]), ...inner.flatMap((id) => materialNames(source, id, depth + 1))];
}

/** Layers and constituents by their own names, categories and materials. */
function fromMaterial(source: Source, at: number | undefined, depth: number): DuctLayer[] {
  const { file, mm } = source;
  const line = at === undefined ? undefined : file.line(at);
  if (!line || depth > 4) return [];
  const entity = file.entity(at!);
  const material = (part: Line | undefined) => text(file.line(ref(part?.Material) ?? 0)?.Name);
  const classified = (part: Line | undefined, thickness: number | undefined): DuctLayer => {
    const names = [text(part?.Name), text(part?.Category), text(part?.Description), material(part)].join(' ');
    const isLining = LINING_WORDS.test(names);
    if (!isLining && !isInsulation(names)) return layer('sheet', 'unknown', thickness, 'layers');
    // Which side of the sheet a list of layers begins at is not fixed for ducts.
    return layer('insulation', isLining ? 'inside' : 'unknown', thickness, 'layers');
  };
  switch (entity) {
    case 'IFCMATERIALLAYERSETUSAGE':
      return fromMaterial(source, ref(line.ForLayerSet), depth + 1);
    case 'IFCMATERIALLAYERSET':
      return refs(line.MaterialLayers).map((part) => {
        const thickness = num(file.line(part)?.LayerThickness);
        return classified(file.line(part), thickness === undefined ? undefined : thickness * mm);
      });
    case 'IFCMATERIALCONSTITUENTSET':
      return refs(line.MaterialConstituents)
        .map((part) => classified(file.line(part), undefined))
        .filter(({ kind }) => kind === 'insulation');
    case 'IFCMATERIALLIST':
      return refs(line.Materials).flatMap((part) => fromMaterial(source, part, depth + 1));
    case 'IFCMATERIAL':
      return isInsulation(text(line.Name) ?? '') ? [layer('insulation', 'unknown', undefined, 'layers')] : [];
    default:
      return [];
  }
}

const isInsulation = (name: string): boolean => INSULATION_WORDS.test(name) && !NOT_INSULATED.test(name);

/** Coverings are elements of their own; what they say of their thickness stands in layers, properties or quantities. */
function coverings(source: Source, id: number): DuctLayer[] {
  const { file, relations } = source;
  const parts = (relations.partsOf.get(id) ?? []).filter((part) => file.entity(part) === 'IFCCOVERING');
  return [...new Set([...(relations.coveringsOf.get(id) ?? []), ...parts])].flatMap((covering) => {
    const line = file.line(covering);
    const type = file.line(relations.typeOf.get(covering) ?? 0);
    const kind = [type?.PredefinedType, line?.PredefinedType].map(text).find((k) => k && k !== 'NOTDEFINED');
    const names = [line?.Name, line?.ObjectType, type?.Name].map(text).join(' ');
    if (kind !== 'INSULATION' && kind !== 'WRAPPING' && !isInsulation(names)) return [];
    const place = LINING_WORDS.test(names) ? ('inside' as const) : ('outside' as const);
    // Without a body of its own the covering may be drawn as part of the duct.
    const from = ref(line?.Representation) === undefined ? ('property' as const) : ('covering' as const);
    return [layer('insulation', place, coveringThickness(source, covering), from)];
  });
}

function coveringThickness(source: Source, id: number): number | undefined {
  const { file, relations, properties, mm } = source;
  const stated = properties.all(id).find(({ name }) => /thickness|dicke|st(ä|ae)rke|(é|e)paisseur/iu.test(name));
  const quantities = (relations.propertySetsOf.get(id) ?? []).flatMap((set) => refs(file.line(set)?.Quantities));
  const width = quantities.map((q) => file.line(q)).find((q) => text(q?.Name) === 'Width');
  const value = num(stated?.value) ?? num(width?.LengthValue);
  if (value !== undefined) return value * mm;
  const layers = fromMaterial(source, materialOf(source, id), 0).map(({ thickness }) => thickness);
  return layers.length > 0 && layers.every((t) => t !== undefined) ? layers.reduce((a, b) => a + b, 0) : undefined;
}

/** Property names as programs and offices write them, without spaces, points and underscores. */
const THICKNESS = {
  insulation:
    /^(thicknessof)?(duct)?(insulation|d(ä|ae)mm(ung)?s?|isol(ier)?(ation|ierung)?s?)(thickness|dicke|st(ä|ae)rke)?$|^(é|e)paisseur(del)?isol(ant|ation)$/iu,
  lining: /^(duct)?lin(ing|er)(thickness)?$/iu,
  sheet: /^(sheet|sheetmetal|metal|duct|duct ?wall|wall|blech|wand(ungs)?)(thickness|dicke|st(ä|ae)rke)$/iu,
} as const;

function fromProperties({ properties, mm }: Source, id: number): DuctLayer[] {
  const seen = new Set<string>();
  return properties.all(id).flatMap(({ set, name, value }): DuctLayer[] => {
    // The occurrence's own value comes first and overrides the type's.
    const bare = name.replace(/[\s._-]/g, '').toLowerCase();
    if (value === undefined || seen.has(bare)) return [];
    if (bare === 'hasliner' && /Duct/.test(set)) {
      seen.add(bare);
      return bool(value) === true ? [layer('insulation', 'inside', undefined, 'property')] : [];
    }
    const [kind] = Object.entries(THICKNESS).find(([, pattern]) => pattern.test(bare)) ?? [];
    if (!kind) return [];
    seen.add(bare);
    const [thickness, words, isThere] = [num(value), text(value), bool(value)];
    if (thickness === 0 || isThere === false || (words !== undefined && NONE_WORDS.test(words.trim()))) return [];
    const size = thickness === undefined ? undefined : thickness * mm;
    if (kind === 'sheet') return isThickness(size) ? [layer('sheet', 'unknown', size, 'property')] : [];
    return [layer('insulation', kind === 'lining' ? 'inside' : 'outside', size, 'property')];
  });
}

function fromNames(source: Source, id: number, line: Line): DuctLayer[] {
  const names = namesOf(source, id, line);
  if (names.some((name) => LINING_WORDS.test(name) && /duct|kanal/iu.test(name)))
    return [layer('insulation', 'inside', undefined, 'name')];
  return names.some(isInsulation) ? [layer('insulation', 'unknown', undefined, 'name')] : [];
}
