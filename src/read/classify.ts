/** Is this element ductwork, another service, or can the file not tell? The evidence is kept with the answer. */
import type { AirElementKind } from '../model.js';
import type { Source } from './source.js';
import type { Line } from './step-file.js';
import { refs, text } from './value.js';

export type Classified =
  | { readonly is: 'air'; readonly kind: AirElementKind; readonly evidence: string }
  | { readonly is: 'service'; readonly kind: 'pipe' | 'cable' | 'other' }
  | { readonly is: 'unclassified' }
  | { readonly is: 'nothing' };

/** Entity of the element, or of its type without `TYPE`: IFC2X3 says what an element is only there. */
const AIR: Readonly<Record<string, AirElementKind>> = {
  IFCDUCTSEGMENT: 'segment',
  IFCDUCTFITTING: 'fitting',
  IFCDAMPER: 'damper',
  IFCDUCTSILENCER: 'silencer',
  IFCFAN: 'fan',
  IFCAIRTERMINAL: 'terminal',
  IFCAIRTERMINALBOX: 'terminal',
  IFCUNITARYEQUIPMENT: 'equipment',
  IFCAIRTOAIRHEATRECOVERY: 'equipment',
};
const SERVICE: Readonly<Record<string, 'pipe' | 'cable' | 'other'>> = {
  IFCPIPESEGMENT: 'pipe',
  IFCPIPEFITTING: 'pipe',
  IFCCABLESEGMENT: 'cable',
  IFCCABLEFITTING: 'cable',
  IFCCABLECARRIERSEGMENT: 'cable',
  IFCCABLECARRIERFITTING: 'cable',
  IFCCONVEYORSEGMENT: 'other',
};
/** What a bare entity would be if it is ductwork; terminals and the rest are not looked for without a type. */
const GENERIC: Readonly<Record<string, AirElementKind>> = {
  IFCFLOWSEGMENT: 'segment',
  IFCFLOWFITTING: 'fitting',
  IFCFLOWCONTROLLER: 'damper',
};

/** Words for ductwork and for what it is not, in languages that models are made in. Common practice, no source. */
export const DUCT_WORDS =
  /\bduct(s|work)?\b|luftkanal|l(ü|ue)ftungs?kanal|l(ü|ue)ftungsleitung|\bkanal\b|\bgaine|\bcondott[ae]\b|\bconductos?\b|luchtkanaal|ventilationskanal|ilmakanava|kanał|воздуховод|风管|ダクト/iu;
const DAMPER_WORDS = /damper|klappe|clapet|serranda|compuerta|клапан/iu;
const AIR_WORDS =
  /supply air|exhaust air|extract air|return air|outdoor air|ventilation|zuluft|abluft|fortluft|au(ß|ss)enluft|umluft|soufflage|reprise d'air|tilluft|frånluft/iu;
const PIPE_WORDS = /\bpipe|\brohr|\btuyau|\btubo|\btuber[ií]a|sprinkler|drain|abwasser|sanit|heizung|\bwater\b/iu;
const CABLE_WORDS = /cable|kabel|c(â|a)ble|\bladder|\btray\b|conduit|trunking|busbar|leiter(?!platte)/iu;
const AIR_SYSTEM_TYPES = new Set(['AIRCONDITIONING', 'EXHAUST', 'VENTILATION']);

export function classify(source: Source, id: number, line: Line): Classified {
  const { file, relations } = source;
  const entity = file.entity(id);
  const type = file.entity(relations.typeOf.get(id) ?? 0);
  for (const [name, evidence] of [
    [entity, entity],
    [type.replace(/TYPE$/, ''), `type ${type}`],
  ] as const) {
    const kind = AIR[name];
    if (kind) return { is: 'air', kind: flexible(source, id, line, kind), evidence };
    const service = SERVICE[name];
    if (service) return { is: 'service', kind: service };
  }
  const generic = GENERIC[entity];
  if (!generic) return { is: 'nothing' };
  // A type of another trade (valve, switch, junction box …) says that it is no ductwork, but it may stand in an opening.
  if (type !== '' && !/^IFC(BUILDINGELEMENTPROXY|FLOW|DISTRIBUTION)\w*TYPE$/.test(type))
    return { is: 'service', kind: 'other' };
  return byEvidence(source, id, line, generic);
}

function flexible(source: Source, id: number, line: Line, kind: AirElementKind): AirElementKind {
  return kind === 'segment' && predefinedType(source, id, line) === 'FLEXIBLESEGMENT' ? 'flexible' : kind;
}

/** The type's PredefinedType wins where it says anything; NOTDEFINED says nothing. */
export function predefinedType({ file, relations }: Source, id: number, line: Line): string | undefined {
  const says = (x: unknown) => {
    const word = text(x);
    return word === undefined || word === 'NOTDEFINED' ? undefined : word;
  };
  return says(file.line(relations.typeOf.get(id) ?? 0)?.PredefinedType) ?? says(line.PredefinedType);
}

/** Property sets first, then systems, names and drawing layers: from what is written for programs to what for people. */
function byEvidence(source: Source, id: number, line: Line, kind: AirElementKind): Classified {
  const sets = [...new Set(source.properties.all(id).map((p) => p.set))];
  const wanted = kind === 'damper' ? /Damper/ : /Duct/;
  const set = sets.find((name) => /^Pset_/.test(name) && wanted.test(name) && !/Pipe|Cable/.test(name));
  const air = (evidence: string): Classified => ({ is: 'air', kind, evidence });
  if (set) return air(`property set ${set}`);

  const system = readSystem(source, id);
  const isAirSystem = AIR_SYSTEM_TYPES.has(system?.type ?? '') || AIR_WORDS.test(system?.name ?? '');
  const words = kind === 'damper' ? DAMPER_WORDS : DUCT_WORDS;
  const names = [text(line.Name), text(line.ObjectType), text(line.Description), typeName(source, id)].filter(
    (n): n is string => n !== undefined && n !== '',
  );
  const layers = layersOf(source, line);
  const labels = [...names, ...layers];
  if (labels.some((n) => CABLE_WORDS.test(n))) return { is: 'service', kind: 'cable' };
  if (labels.some((n) => PIPE_WORDS.test(n))) return { is: 'service', kind: 'pipe' };
  if (isAirSystem && kind !== 'damper') return air(`system "${system?.name}"`);
  const name = names.find((n) => words.test(n));
  if (name) return air(`name "${name}"`);
  const layer = layers.find((n) => words.test(n) || (kind !== 'damper' && AIR_WORDS.test(n)));
  if (layer) return air(`layer "${layer}"`);
  return { is: 'unclassified' };
}

const typeName = ({ file, relations }: Source, id: number) => text(file.line(relations.typeOf.get(id) ?? 0)?.Name);

export interface ReadSystem {
  readonly id: number;
  readonly name: string;
  readonly type: string | undefined;
  /** What else it is called, as far as that is not its name. */
  readonly names: readonly string[];
}

export function readSystem({ file, relations }: Source, id: number): ReadSystem | undefined {
  for (const group of relations.groupsOf.get(id) ?? []) {
    if (!/^IFC(SYSTEM|DISTRIBUTIONSYSTEM|DISTRIBUTIONCIRCUIT)$/.test(file.entity(group))) continue;
    const line = file.line(group);
    const [long, object, description] = [line?.LongName, line?.ObjectType, line?.Description].map(text);
    const name = text(line?.Name) || long || object;
    if (!name) continue;
    const names = [...new Set([long, object, description].filter((one): one is string => !!one && one !== name))];
    return { id: group, name, type: purposeOf(text(line?.PredefinedType)), names };
  }
  return undefined;
}

/** NOTDEFINED and USERDEFINED say nothing of what a system is for. */
const purposeOf = (type: string | undefined): string | undefined =>
  type === 'NOTDEFINED' || type === 'USERDEFINED' ? undefined : type;

/** Names of the drawing layers that the element's representations are on. */
function layersOf({ file, drawingLayers }: Source, line: Line): string[] {
  const shape = refs(line.Representation)[0];
  const representations = refs(file.line(shape ?? 0)?.Representations);
  return drawingLayers()
    .filter(({ items }) => representations.some((id) => items.has(id)))
    .map(({ name }) => name);
}
