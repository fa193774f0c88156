/** Gaps with their dimensions; those that failed with their limit, in the colour and with the mark of what failed. */
import type { Polygon, Side, Vec2 } from '../../model.js';
import type { ReportFinding, ReportPenetration } from '../../report/schema.js';
import { brief, number } from '../../words/text.js';
import { limitWords } from '../../words/values.js';
import { drawDimension } from './dimension.js';
import type { GapLine } from './gap-lines.js';
import type { Label } from './label.js';
import type { Sheet } from './layout.js';
import { INK, OUTCOME_COLOURS } from './palette.js';
import { closedPath, element } from './svg.js';
import type { View } from './view.js';

export type GapKey = Side | GapLine['which'];
export const keyOf = ({ side, which }: GapLine): GapKey => side ?? which;

/** Failed findings on this penetration's own gaps, by the line that shows them. */
export function gapFailures(
  penetration: ReportPenetration,
  lines: readonly GapLine[],
  findings: readonly ReportFinding[],
): ReadonlyMap<GapKey, ReportFinding> {
  const failed = findings.filter(
    (f) => f.outcome === 'failed' && f.check.startsWith('gap-') && f.subject.id === penetration.id,
  );
  const failures = new Map<GapKey, ReportFinding>();
  for (const gap of lines) {
    const own = failed.find((f) => f.side === gap.side && f.measured === gap.value);
    if (own) failures.set(keyOf(gap), own);
  }
  return failures;
}

export function gapLabel(gap: GapLine, failure: ReportFinding | undefined, of: Facing): Label {
  const value = number(gap.value).replace('-', '\u2212');
  const facing = gap.side && of.penetration.gaps.facing[gap.side];
  const words = { side: '', least: 'least ', widest: 'widest ', even: '' }[gap.which];
  const text = `${words}${value}${gap.which === 'even' ? ' all round' : ''}${facing ? ` to ${facingWords(facing, of)}` : ''}`;
  if (!failure) return { lines: [{ text, lettering: 'normal' }] };
  const colour = OUTCOME_COLOURS.failed;
  const limit = failure.limit
    ? [{ text: `allowed ${limitWords(failure.limit)}`, lettering: 'small', colour } as const]
    : [];
  return { mark: 'failed', lines: [{ text, lettering: 'large', bold: true, colour }, ...limit] };
}

function facingWords(facing: string, { penetration, others }: Facing): string {
  const other = others.get(facing);
  if (other) return brief(other.tag, 12);
  const kind = penetration.others.find(({ globalId }) => globalId === facing)?.kind;
  return kind === undefined || kind === 'other' ? 'another service' : `a ${kind}`;
}

export function drawGap(gap: GapLine, label: Label, view: View, sheet: Sheet): string {
  const [from, to] = [view.at(gap.from), view.at(gap.to)];
  const colour = label.mark ? OUTCOME_COLOURS[label.mark] : INK;
  const side = gap.edge ? Math.hypot(gap.edge[0][0] - gap.edge[1][0], gap.edge[0][1] - gap.edge[1][1]) : 0;
  return drawDimension(from, to, label, colour, sheet, side / view.scale);
}

export const failedPattern = (id: string): string =>
  element(
    'pattern',
    { id: `failed-${id}`, width: 1, height: 1, patternUnits: 'userSpaceOnUse', patternTransform: 'rotate(-45)' },
    element('path', { d: 'M0 0V1M0 0H1', stroke: OUTCOME_COLOURS.failed, 'stroke-width': 0.25 }),
  );

export function failedRegion({ edge, from, to }: GapLine, view: View, id: string): string {
  const by: Vec2 = [to[0] - from[0], to[1] - from[1]];
  const [a, b] = edge!;
  const region: Polygon = [a, b, [b[0] + by[0], b[1] + by[1]], [a[0] + by[0], a[1] + by[1]]];
  return element('path', { d: closedPath([view.outline(region)]), fill: `url(#failed-${id})` });
}

/** Whom a gap may face. */
interface Facing {
  readonly penetration: ReportPenetration;
  readonly others: ReadonlyMap<string, ReportPenetration>;
}
