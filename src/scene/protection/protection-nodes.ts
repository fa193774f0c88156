/** Protection as it will be built: layers along the runs, and what the chosen details build at penetrations. */
import { dot, sub } from '../../geometry/vector.js';
import type { Federation, Polygon, Vec2 } from '../../model.js';
import type { Report, ReportPenetration } from '../../report/schema.js';
import { layersAlongRuns, type ProtectionNode } from './along-runs.js';
import { builtAtPenetration, type Opened } from './at-penetration.js';

export function protectionNodes(federation: Federation, report: Report): ProtectionNode[] {
  const byId = new Map(report.penetrations.map((one) => [one.id, one]));
  const together = new Map(report.openings.flatMap((one) => one.penetrations.map((id) => [id, one.penetrations])));
  return [
    ...layersAlongRuns(federation, report),
    ...report.penetrations.flatMap((p) => {
      const others = (together.get(p.id) ?? []).flatMap((id) => (id === p.id ? [] : (byId.get(id) ?? [])));
      return builtAtPenetration(p, federation.origin, openedFor(p, others));
    }),
  ];
}

/** What fills an opening that several pass is drawn once, with the first of them that has a detail. */
const openedFor = (p: ReportPenetration, others: readonly ReportPenetration[]): Opened => ({
  beside: others.flatMap((other) => outlinesFrom(p, other)),
  isFilled: others.some((other) => other.id < p.id && other.treatment.chosen !== null),
});

function outlinesFrom({ position, frame }: ReportPenetration, other: ReportPenetration): Polygon[] {
  const by = sub(other.position, position);
  const [x, y] = [dot(by, frame.right), dot(by, frame.up)];
  return other.outlines.duct.map((outline) => outline.map(([u, v]): Vec2 => [u + x, v + y]));
}
