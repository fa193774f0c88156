/** Supports of ductwork. */
import type { Support } from '../model.js';
import { angleIn, angleName } from '../supports/angles.js';
import { rodIn } from '../supports/rods.js';
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
