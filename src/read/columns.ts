/** Columns: no barriers, but openings stand beside them. */
import type { Column } from '../model.js';
import { readCombustible } from './combustible.js';
import { readElement, type Source, tryBodies } from './source.js';

export function readColumns(source: Source, model: string): Column[] {
  return source.file.ids('IFCCOLUMN', true).flatMap((id) => {
    const line = source.file.line(id);
    const bodies = line && tryBodies(source, line, 'Column');
    return line && bodies && bodies.length > 0
      ? [
          {
            ...readElement(source, id, line),
            model,
            kind: 'column' as const,
            bodies,
            combustible: readCombustible(source, id),
          },
        ]
      : [];
  });
}
