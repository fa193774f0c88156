/** The listed findings as places in the building. */
import { sub } from '../geometry/vector.js';
import type { Federation } from '../model.js';
import type { Report } from '../report/schema.js';
import type { FindingExtras } from './geometry-extras.js';
import type { GeometryNode } from './geometry-nodes.js';

/** Those that have a place. */
export const findingNodes = (
  { origin }: Pick<Federation, 'origin'>,
  { findings }: Pick<Report, 'findings'>,
): GeometryNode<FindingExtras>[] =>
  findings.flatMap(({ id, key, check, outcome, message, subject, at }) => {
    if (!at) return [];
    const penetration = subject.type === 'penetration' ? subject.id : null;
    const extras = { kind: 'finding', at, id, key, check, outcome, message, penetration } as const;
    return [{ name: id, extras, shape: null, surface: null, at: sub(at, origin) }];
  });
