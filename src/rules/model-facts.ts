/** The facts of the models taken together, and of the code that holds. */
import type { Crossings, ModelInfo } from '../model.js';
import type { Decided } from './decided.js';
import type { FactObject } from './fact-schema.js';
import { known } from './known.js';
import type { ProtectionCounts } from './protection.js';

export function modelFacts(
  crossings: Crossings,
  models: readonly ModelInfo[] | undefined,
  protection: ProtectionCounts,
): FactObject {
  return known({
    ...protection,
    panelsWaiting: 0,
    ductwork: models?.reduce((sum, { counts }) => sum + ductworkOf(counts), 0),
    barriers: crossings.barriers.length,
    rated: crossings.barriers.filter(({ rating }) => rating.state === 'stated' || rating.state === 'durationOnly')
      .length,
    penetrations: crossings.penetrations.length,
    facingEnds: crossings.facingEnds.length,
    ...apartFacts(crossings.apart, models),
  });
}

/** Nothing is judged yet, so nothing waits. */
export const codeFacts = ({ choices, codes = [] }: Pick<Decided, 'choices' | 'codes'>): FactObject =>
  known({
    waiting: 0,
    jurisdictionGiven: choices?.jurisdiction !== undefined,
    known: [...new Set(codes.map(({ jurisdiction, edition }) => `${jurisdiction}: ${edition}`))].sort().join('; '),
  });

/** Of several files that lie apart the first stands for all: one origin is mended at a time. */
function apartFacts(apart: Crossings['apart'], models: readonly ModelInfo[] | undefined) {
  const [first] = apart;
  if (!first) return { overlap: true };
  const nameOf = (id: string): string => models?.find((model) => model.id === id)?.file ?? id;
  const [x, y, z] = first.offset;
  return {
    overlap: false,
    apart: first.distance,
    strayFile: nameOf(first.model),
    nearestFile: nameOf(first.from),
    strayFiles: apart.length,
    offset: { x, y, z },
  };
}

const ductworkOf = (counts: ModelInfo['counts']): number =>
  counts.ducts + counts.fittings + counts.dampers + counts.silencers + counts.terminals;
