/** Access panels: those on protected ductwork, and those that are proposed. */
import { nameOf, refOf } from '../../element-refs.js';
import { distance, dot, sub } from '../../geometry/vector.js';
import type { Run, StretchPart, Vec3 } from '../../model.js';
import { number } from '../../words/text.js';
import { type Draft, quantitiesOf } from '../draft.js';
import { accessPanelOf } from '../materials.js';
import type { RunInput } from './input.js';

export function alongPanels({ crossings, judgement }: Pick<RunInput, 'crossings' | 'judgement'>): Draft[] {
  const runs = new Map(crossings.runs.map((run) => [run.id, run]));
  const found = crossings.access.flatMap(({ run, panels }) =>
    panels.flatMap((panel): Draft[] => {
      const own = runs.get(run);
      const part = partsOf(own).find((one) => nameOf(one) === nameOf(panel.duct));
      if (!own || !part || !isProtected(part)) return [];
      const size =
        panel.width === null || panel.height === null
          ? SIZE_UNKNOWN
          : `${number(panel.width)} x ${number(panel.height)} mm`;
      return [panelDraft(own, part, size, `access panel ${panel.name}`, 'the models')];
    }),
  );
  const proposed = judgement.proposedPanels.flatMap((panel): Draft[] => {
    const own = runs.get(panel.run);
    const part = nearest(partsOf(own), panel.at);
    if (!own) return [];
    const size = panel.size === null ? SIZE_UNKNOWN : `at least ${number(panel.size)} x ${number(panel.size)} mm`;
    return [panelDraft(own, part, size, `access panel that is proposed: ${panel.reason}`, panel.source)];
  });
  return [...found, ...proposed];
}

const SIZE_UNKNOWN = 'of a size that nothing says';

const isProtected = ({ protection: { kind } }: StretchPart): boolean => kind !== 'none' && kind !== 'unknown';

const partsOf = (run: Run | undefined): readonly StretchPart[] => run?.stretches.flatMap(({ parts }) => parts) ?? [];

const panelDraft = (run: Run, part: StretchPart | undefined, size: string, what: string, source: string): Draft => ({
  ...quantitiesOf({ pieces: 1 }),
  place: { penetration: null, run: run.id, storey: part?.storey ?? null, system: run.system },
  material: accessPanelOf(size),
  element: part ? refOf(part) : null,
  ...{ what, formula: 'each', source },
});

function nearest(parts: readonly StretchPart[], at: Vec3): StretchPart | undefined {
  const offOf = ({ from, to }: StretchPart): number => {
    const way = sub(to, from);
    const long = dot(way, way);
    const t = long === 0 ? 0 : Math.max(0, Math.min(1, dot(sub(at, from), way) / long));
    return distance(at, [from[0] + way[0] * t, from[1] + way[1] * t, from[2] + way[2] * t]);
  };
  return parts.reduce<StretchPart | undefined>(
    (best, one) => (!best || offOf(one) < offOf(best) ? one : best),
    undefined,
  );
}
