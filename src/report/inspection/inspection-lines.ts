/** What is inspected at one penetration, hold point by hold point, and what is accepted: from the scope lines and the parts. */
import { capital, number } from '../../words/text.js';
import { limitWords, valueWords } from '../../words/values.js';
import { amountWords, type PartRow } from '../cards/parts.js';
import { HOLD_LINE, type HoldStep, STEP_OF, stepState } from '../hold-points.js';
import type { Report, ReportPenetration } from '../schema.js';

/** Where nobody says it: a blank for whoever knows. */
export const NOT_STATED = 'not stated';

export interface InspectionLine {
  readonly step: HoldStep;
  readonly what: string;
  readonly accept: string;
  readonly modelled: string;
}

type ScopeLine = NonNullable<ReportPenetration['treatment']['chosen']>['scope'][number];

/** Limits of tested systems by the hold point at which somebody can see them. */
const SCOPE_AT: { readonly [S in 'openingReady' | 'closedUp']: readonly string[] } = {
  openingReady: [
    ...['construction', 'thickness', 'openingWidth', 'openingHeight', 'narrowestGap', 'widestGap'],
    ...['edgeDistance', 'separation', 'skew'],
  ],
  closedUp: ['protection', 'integrity', 'insulation'],
};
/** Looked at even where no tested system says a limit. */
const ALWAYS: readonly (readonly [string, string])[] = [
  ['narrowestGap', 'the narrowest gap round the duct'],
  ['widestGap', 'the widest gap round the duct'],
];

export function inspectionLines(
  p: ReportPenetration,
  parts: readonly PartRow[],
  report: Pick<Report, 'supports' | 'access'>,
): InspectionLine[] {
  return HOLD_LINE.flatMap((step) => linesAt(step, p, parts, report));
}

function linesAt(
  step: HoldStep,
  p: ReportPenetration,
  parts: readonly PartRow[],
  report: Pick<Report, 'supports' | 'access'>,
): InspectionLine[] {
  const line = (what: string, accept: string, modelled: string): InspectionLine => ({ step, what, accept, modelled });
  if (step.id === 'openingReady') return openingLines(p).map((row) => line(...row));
  if (step.id === 'closedUp') return closingLines(p, report).map((row) => line(...row));
  if (stepState(p, step) === 'notOfDetail') return [line(step.look, 'not part of this detail', '')];
  const built = parts.filter(({ material }) => STEP_OF[material.kind] === step.id);
  if (built.length === 0) return [line(step.look, NOT_STATED, '')];
  return built.map((row) => line(`${capital(row.item.what)}: ${row.material.name}`, amountWords(row), ''));
}

type Words = [what: string, accept: string, modelled: string];

function openingLines(p: ReportPenetration): Words[] {
  const scope = scopeOf(p, 'openingReady');
  const missing = ALWAYS.filter(([name]) => !scope.some((line) => line.name === name));
  const { min, max } = p.gaps;
  return [
    ...scope.map(scopeWords),
    ...missing.map(
      ([name, what]): Words => [
        capital(what),
        NOT_STATED,
        lengthWords(name === 'narrowestGap' ? min : max, 'not measured'),
      ],
    ),
  ];
}

function closingLines(p: ReportPenetration, { supports, access }: Pick<Report, 'supports' | 'access'>): Words[] {
  const { chosen, layers } = p.treatment;
  const along = supports.filter(({ run }) => run === p.duct.run);
  const first = [...new Set(along.flatMap(({ firstSupport }) => firstSupport ?? []))];
  const panels = access.flatMap((one) => one.panels).filter(({ barrier }) => barrier?.penetration === p.id);
  return [
    ['Layers along the duct', chosen?.layers == null ? NOT_STATED : number(chosen.layers), layersThere(layers)],
    ...scopeOf(p, 'closedUp').map(scopeWords),
    [
      'First support from the barrier',
      first.length === 0 ? NOT_STATED : `at most ${first.map(number).join(' or ')} mm`,
      '',
    ],
    [
      'Access panel near the barrier',
      NOT_STATED,
      panels
        .map(({ name, barrier }) => `${name || 'without a name'}, ${lengthWords(barrier!.distance, '')}`)
        .join('; '),
    ],
  ];
}

const layersThere = (layers: number | null): string => (layers === null ? 'not known' : number(layers));

function scopeOf({ treatment: { chosen } }: ReportPenetration, at: keyof typeof SCOPE_AT): ScopeLine[] {
  return SCOPE_AT[at].flatMap((name) => (chosen?.scope ?? []).filter((line) => line.name === name));
}

const scopeWords = ({ what, limit, measured, unit }: ScopeLine): Words => [
  capital(what),
  limit === null ? NOT_STATED : limitWords(limit, unit ?? undefined),
  measured === null ? 'not known' : valueWords(measured, unit ?? undefined),
];

const lengthWords = (mm: number | null, unknown: string): string => (mm === null ? unknown : valueWords(mm, 'mm'));
