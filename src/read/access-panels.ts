/** Panels and doors in ductwork through which what is in it is reached. */
import type { Source } from './source.js';
import type { Line } from './step-file.js';
import { hasWord, text } from './value.js';

/** IFC has no type for them, so names tell. Common practice, no source. */
const WORDS =
  /access (panel|door|hatch|opening)|inspection (panel|door|hatch|opening)|clean-?out|revisions(öffnung|deckel|klappe|tür)|trappe (de visite|d'accès)|portello di ispezione|tapa de (registro|inspección)/iu;

export function isAccessPanel(source: Source, id: number, line: Line): boolean {
  const type = source.file.line(source.relations.typeOf.get(id) ?? 0);
  const names = [line.Name, line.ObjectType, line.Description, type?.Name, type?.ElementType]
    .map(text)
    .filter((name) => name !== undefined);
  const own = source.facts?.accessPanels?.words ?? [];
  return names.some((name) => WORDS.test(name) || hasWord(name, own));
}
