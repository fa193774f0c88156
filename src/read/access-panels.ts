/** Panels and doors in ductwork through which what is in it is reached. */
import type { AccessCover } from '../model.js';
import { readElement, type Source, tryBodies } from './source.js';
import type { EntityName, Line } from './step-file.js';
import { hasWord, label, text } from './value.js';

/** IFC has no type for them, so names tell. Common practice, no source. */
const WORDS =
  /access (panel|door|hatch|opening)|inspection (panel|door|hatch|opening)|clean-?out|revisions(öffnung|deckel|klappe|tür)|trappe (de visite|d'accès)|portello di ispezione|tapa de (registro|inspección)/iu;

/** What shows that it is an access panel; undefined: nothing does. */
export function accessEvidence(source: Source, id: number, line: Line): string | undefined {
  const type = source.file.line(source.relations.typeOf.get(id) ?? 0);
  const names = [line.Name, line.ObjectType, line.Description, type?.Name, type?.ElementType]
    .map(text)
    .filter((name) => name !== undefined);
  const { words = [], property } = source.facts?.accessPanels ?? {};
  const named = names.find((name) => WORDS.test(name) || hasWord(name, words));
  if (named !== undefined) return `name "${named}"`;
  if (!property) return undefined;
  const stated = source.properties.all(id).find((p) => p.set === property.set && p.name === property.property);
  return label(stated?.value) === property.value ? `${property.set}.${property.property}` : undefined;
}

/** Entities beside ductwork that files model such panels as. Common practice, no source. */
const ENTITIES: readonly EntityName[] = [
  'IFCDISCRETEACCESSORY',
  'IFCBUILDINGELEMENTPROXY',
  'IFCDOOR',
  'IFCCOVERING',
  'IFCPLATE',
];

/** Whether they lie on ductwork, and not in a wall or a ceiling, their place tells. */
export const readAccessCovers = (source: Source, model: string): AccessCover[] =>
  ENTITIES.flatMap((entity) => source.file.ids(entity, true)).flatMap((id) => {
    const line = source.file.line(id);
    const evidence = line && accessEvidence(source, id, line);
    if (!line || evidence === undefined) return [];
    const bodies = tryBodies(source, line, 'Access panel') ?? [];
    return bodies.length > 0 ? [{ ...readElement(source, id, line), model, bodies, accessEvidence: evidence }] : [];
  });
