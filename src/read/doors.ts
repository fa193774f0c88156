/** Doors and windows, as far as the walls that they stand in need them: what they are called and rated for. */
import type { Door } from '../model.js';
import { statedRating } from './barrier-rating.js';
import { readElement, type Source } from './source.js';

/** Of a filling; nothing where it is no door or window. */
export function readDoor(source: Source, id: number): Door[] {
  const line = source.file.line(id);
  if (!line || !/^IFC(DOOR|WINDOW)/.test(source.file.entity(id))) return [];
  const { globalId, name } = readElement(source, id, line);
  return [{ globalId, name, rating: statedRating(source, [id], { object: 'door' }) }];
}
