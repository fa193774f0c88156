/** Supports of ductwork, and what they may hang from besides floors, roofs and walls. */
import { constructionOf } from '../construction/construction-of.js';
import type { Carrier, Support } from '../model.js';
import { angleIn, angleName } from '../supports/angles.js';
import { rodIn } from '../supports/rods.js';
import { statedRating } from './barrier-rating.js';
import { predefinedType } from './classify.js';
import { readLayers } from './materials.js';
import { readElement, type Source, tryBodies } from './source.js';
import type { EntityName } from './step-file.js';
import { hasWord, label, text } from './value.js';

/** Entities that supports are written as, IFC having none for them; not their subtypes, which say what they are. */
const ENTITIES: readonly EntityName[] = [
  'IFCDISCRETEACCESSORY',
  'IFCMECHANICALFASTENER',
  'IFCFASTENER',
  'IFCMEMBER',
  'IFCBEAM',
  'IFCPLATE',
  'IFCBUILDINGELEMENTPROXY',
  'IFCELEMENTASSEMBLY',
  'IFCFLOWFITTING',
];
/** Common practice, no source. */
const WORDS =
  /\bhanger|\bsupports?\b|trapeze|threaded rod|drop rod|hanging rod|\bbearer|\bbracket|abh(ä|ae)ng(ung|er)|\bschelle|konsole|traverse|gewindestange|suspente|supportage|tige filet(é|e)e|staffa|barra filettata|varilla roscada/iu;

/** The names of an element, of its type and of the assembly that it is a part of. */
function namesOf({ file, relations }: Source, id: number): string[] {
  const whole = relations.wholeOf.get(id) ?? 0;
  const assembly = file.entity(whole) === 'IFCELEMENTASSEMBLY' ? file.line(whole) : undefined;
  const [line, type] = [file.line(id), file.line(relations.typeOf.get(id) ?? 0)];
  return [line?.Name, line?.ObjectType, type?.Name, type?.ElementType, assembly?.Name]
    .map(text)
    .filter((name) => name !== undefined);
}

export function isSupport(source: Source, id: number): boolean {
  const entity = source.file.entity(id);
  if (!ENTITIES.some((one) => one === entity)) return false;
  const own = source.facts?.supports?.words ?? [];
  return namesOf(source, id).some((name) => WORDS.test(name) || hasWord(name, own));
}

/** Those with bodies; an assembly without one is its parts. */
export function readSupports(source: Source, model: string): Support[] {
  const { file, relations } = source;
  return ENTITIES.flatMap((entity) => file.ids(entity)).flatMap((id) => {
    const line = file.line(id);
    if (!line || !isSupport(source, id)) return [];
    const bodies = tryBodies(source, line, 'Support') ?? [];
    if (bodies.length === 0) return [];
    const stated = source.properties.all(id).flatMap(({ value }) => label(value) ?? []);
    const texts = [...namesOf(source, id), ...stated];
    const [rod] = texts.flatMap((one) => rodIn(one) ?? []);
    const [bearer] = texts.flatMap((one) => angleIn(one) ?? []);
    const whole = relations.wholeOf.get(id) ?? 0;
    const assembly = file.entity(whole) === 'IFCELEMENTASSEMBLY' ? text(file.line(whole)?.GlobalId) : undefined;
    return [{ ...readElement(source, id, line), model, bodies, rod, bearer: bearer && angleName(bearer), assembly }];
  });
}

export function readCarriers(source: Source, model: string): Carrier[] {
  const { file } = source;
  const beams = file.ids('IFCBEAM', true).map((id) => [id, 'beam'] as const);
  const members = file.ids('IFCMEMBER', true).map((id) => [id, 'member'] as const);
  const ceilings = file
    .ids('IFCCOVERING', true)
    .filter((id) => predefinedType(source, id, file.line(id)!) === 'CEILING')
    .map((id) => [id, 'ceiling'] as const);
  const words = source.facts?.barriers ?? [];
  return [...beams, ...members, ...ceilings].flatMap(([id, kind]): Carrier[] => {
    const line = file.line(id);
    if (!line || isSupport(source, id)) return [];
    const element = readElement(source, id, line);
    // What the brief calls a barrier is read as one.
    if (words.some((entry) => hasWord(element.name, entry.words))) return [];
    const bodies = tryBodies(source, line, kind === 'ceiling' ? 'Ceiling' : 'Beam') ?? [];
    if (bodies.length === 0) return [];
    const materials = readLayers(source, id).layers.map(({ material }) => material);
    return [
      {
        ...element,
        model,
        bodies,
        kind,
        construction: constructionOf(materials, [element.name], source.constructions),
        rating: statedRating(source, [id], { object: 'barrier' }),
      },
    ];
  });
}
