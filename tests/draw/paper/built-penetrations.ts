/** Penetrations of a report with what is built at them, for drawings: by the shipped demonstration documents (invented). */
import type { Penetration } from '../../../src/model.js';
import type { ReportPenetration } from '../../../src/report/schema.js';
import { builtAs } from '../../../src/rules/built-parts.js';
import { sheetSize } from '../../../src/rules/facts.js';
import { aPenetration, aReport } from '../../report/factories.js';
import { rules } from '../../shipped-rules.js';

type Chosen = NonNullable<ReportPenetration['treatment']['chosen']>;

export interface BuiltBy {
  readonly system: string;
  readonly detail: string;
  readonly layers: number;
}

/** What a report has of one penetration that is built by a shipped detail. @param changes of what the detail gives */
export function built(
  penetration: Partial<Penetration>,
  by: BuiltBy | null,
  changes: Partial<Chosen> = {},
): ReportPenetration {
  const [one] = aReport({ penetrations: [aPenetration(1, penetration)] }).penetrations;
  if (!by) return one!;
  return { ...one!, treatment: { ...one!.treatment, chosen: { ...chosenBy(by, one!), ...changes } } };
}

function chosenBy({ system: id, detail: detailId, layers }: BuiltBy, { duct }: ReportPenetration): Chosen {
  const system = rules.systems.find((one) => one.id === id)!;
  const detail = system.details.find((one) => one.id === detailId)!;
  return {
    ...builtAs(system, detail, sheetSize(duct)),
    ...{ title: `${system.name}: ${detail.name}`, source: system.source, system: id, detail: detailId },
    ...{ status: 'demonstration', fixing: null, layers, material: null, tightest: null, by: 'brief', scope: [] },
  };
}
