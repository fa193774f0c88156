/** What stands in which column of the register. */

import type { SupportRow } from '../model.js';
import { neededMargin } from '../rules/limit.js';
import { listed, number } from '../words/text.js';
import { limitWords, OUTCOME_WORDS, STATUS_WORDS, valueWords } from '../words/values.js';
import type { AccessRow } from './access-words.js';
import { commentWords, saidOf } from './comments.js';
import { concessionWords } from './concession-words.js';
import { nearestBeside } from './face-words.js';
import type { ReportBarrier, ReportCheck, ReportFinding, ReportPenetration } from './schema.js';
import type { StrategyWords } from './strategy-words.js';
import { nearestSentences, SCOPE_HEADINGS, scopeRow } from './tested-words.js';
import { codeWords, othersWords, sectionWords, sourceWords } from './words.js';
import type { Column, Value } from './workbook.js';

export interface PenetrationRow {
  readonly penetration: ReportPenetration;
  /** By penetration id. */
  readonly tags: ReadonlyMap<string, string>;
  /** File names by model id. */
  readonly files: ReadonlyMap<string, string>;
  /** Of the models. */
  readonly revision: string | null;
  /** Of what failed here. */
  readonly remedies: readonly string[];
}

export interface FindingRow {
  readonly finding: ReportFinding;
  readonly check: ReportCheck | undefined;
  /** The one that the finding is about; undefined when it is about something else. */
  readonly penetration: ReportPenetration | undefined;
  readonly barrier: ReportBarrier | undefined;
  /** All that the finding concerns. */
  readonly penetrations: readonly ReportPenetration[];
  readonly files: ReadonlyMap<string, string>;
}

const LENGTH = '0.0';

function of(
  header: string,
  width: number,
  value: (p: ReportPenetration, row: PenetrationRow) => Value,
  format?: string,
): Column<PenetrationRow> {
  return { header, width, value: (row) => value(row.penetration, row), ...(format === undefined ? {} : { format }) };
}
const length = (header: string, value: (p: ReportPenetration) => number | null) => of(header, 10, value, LENGTH);

/** What people write on site; the drawing's sides, so that built and modelled can be held against each other. */
const BY_HAND: readonly Column<PenetrationRow>[] = [
  ...['top', 'bottom', 'left', 'right'].map((side) => of(`As-built gap ${side} (mm)`, 10, () => null)),
  of('Installer', 18, () => null),
  of('Date', 12, () => null),
  of('Inspector', 18, () => null),
  of('Photo', 18, () => null),
];

export const REGISTER_COLUMNS: readonly Column<PenetrationRow>[] = [
  of('Tag', 9, (p) => p.tag),
  of('Revision', 10, (_, { revision }) => revision),
  of('Id', 9, (p) => p.id),
  of('Outcome', 13, (p) => OUTCOME_WORDS[p.outcome]),
  of('Failed', 8, (p) => p.outcomes.failed),
  of("Can't tell", 10, (p) => p.outcomes.cantTell),
  of('Storey', 14, (p) => p.storey?.name ?? null),
  of('Grid', 18, (p) => p.place.grid),
  of('Room on side A', 22, (p) => p.place.rooms[0]?.name ?? null),
  of('Room on side B', 22, (p) => p.place.rooms[1]?.name ?? null),
  of('Barrier', 28, (p) => p.barrier.name),
  of('Kind', 8, (p) => p.barrier.kind),
  of('Construction', 16, (p) => valueWords(p.barrier.construction)),
  length('Thickness (mm)', (p) => p.barrier.thickness),
  length('Rated leaf (mm)', (p) => p.barrier.leafThickness),
  of('Rating as stated', 18, (p) => p.barrier.rating.text),
  of('Rating', 14, (p) => valueWords(p.barrier.rating.state)),
  of('Integrity (min)', 11, (p) => minutes(p.barrier.rating.integrity)),
  of('Insulation (min)', 11, (p) => minutes(p.barrier.rating.insulation)),
  of('Integrity required (min)', 12, (p) => p.required.integrity),
  of('Insulation required (min)', 12, (p) => p.required.insulation),
  of('Duct', 28, (p) => p.duct.name),
  of('System', 18, (p) => p.duct.system),
  of('Shape', 12, (p) => p.duct.shape),
  length('Duct width (mm)', (p) => p.duct.width),
  length('Duct height (mm)', (p) => p.duct.height),
  length('Duct diameter (mm)', (p) => p.duct.diameter),
  of('Crossing', 12, (p) => valueWords(p.crossing)),
  of('Skew (°)', 9, (p) => p.skew, '0.00'),
  of('Opening', 12, (p) => p.opening?.shape ?? 'none modelled'),
  length('Opening width (mm)', (p) => p.opening?.width ?? null),
  length('Opening height (mm)', (p) => p.opening?.height ?? null),
  length('Gap top (mm)', (p) => p.gaps.top),
  length('Gap bottom (mm)', (p) => p.gaps.bottom),
  length('Gap left (mm)', (p) => p.gaps.left),
  length('Gap right (mm)', (p) => p.gaps.right),
  length('Gap min (mm)', (p) => p.gaps.min),
  length('Gap max (mm)', (p) => p.gaps.max),
  of('Gaps to', 11, (p) => p.gapsTo),
  of('Treatment', 20, (p) => valueWords(p.treatment.kind)),
  of('Tested detail', 44, (p) => p.treatment.chosen?.title ?? null),
  of('Tested details that fit', 44, (p) => p.treatment.feasible.map(({ title }) => title).join('; ') || null),
  of('Nearest, where none fits', 60, (p) => nearestSentences(p.treatment)[0] ?? null),
  of('Dampers', 24, (p) => listed(p.dampers.map((damper) => damper.name || damper.globalId))),
  length('Damper off the middle (mm)', (p) => largest(p.dampers.map(({ offset }) => offset && Math.abs(offset)))),
  length('Damper outside by (mm)', (p) => p.damperOutside?.distance ?? null),
  length('Joint before side A (mm)', (p) => p.faces[0]?.joint?.distance ?? null),
  length('Joint before side B (mm)', (p) => p.faces[1]?.joint?.distance ?? null),
  length('Nearest beside the duct on side A (mm)', (p) => nearestBeside(p.faces[0])),
  length('Nearest beside the duct on side B (mm)', (p) => nearestBeside(p.faces[1])),
  of('Other services in the opening', 20, (p) => othersWords(p.others)),
  of('Neighbours', 24, (p, { tags }) =>
    p.neighbours.map((n) => `${tags.get(n.penetration) ?? n.penetration} at ${number(n.distance)} mm`).join(', '),
  ),
  of('Remedy', 50, (_, { remedies }) => remedies.join(' ')),
  ...BY_HAND,
  length('x (mm)', (p) => p.position[0]),
  length('y (mm)', (p) => p.position[1]),
  length('z (mm)', (p) => p.position[2]),
  of('Duct GlobalId', 26, (p) => p.duct.globalId),
  of('Duct file', 22, (p, { files }) => files.get(p.duct.model) ?? p.duct.model),
  of('Barrier GlobalId', 26, (p) => p.barrier.globalId),
  of('Barrier file', 22, (p, { files }) => files.get(p.barrier.model) ?? p.barrier.model),
  of('Opening GlobalId', 26, (p) => p.opening?.globalId ?? null),
  of('Key', 34, (p) => p.key),
  of('Key carried over by place', 14, (p) => (p.inferredFrom === null ? null : 'yes')),
];

/** Of those that are known. */
function largest(values: readonly (number | null)[]): number | null {
  const known = values.filter((value) => value !== null);
  return known.length === 0 ? null : Math.max(...known);
}

/** A number where there is one, so that the column can be sorted and filtered. */
function minutes(value: number | 'none' | null): Value {
  return value === 'none' ? 'not asked for' : value;
}

export const FINDING_COLUMNS: readonly Column<FindingRow>[] = [
  { header: 'Id', width: 9, value: ({ finding }) => finding.id },
  { header: 'Outcome', width: 13, value: ({ finding }) => OUTCOME_WORDS[finding.outcome] },
  { header: 'Check', width: 34, value: ({ finding, check }) => check?.title ?? finding.check },
  { header: 'About', width: 12, value: ({ finding }) => finding.subject.type },
  { header: 'Tag', width: 16, value: ({ penetrations }) => listed(penetrations.map((p) => p.tag)) },
  { header: 'Storey', width: 14, value: storeyName },
  { header: 'Barrier', width: 28, value: ({ barrier }) => barrier?.name ?? null },
  {
    header: 'Duct',
    width: 28,
    value: ({ penetration }) =>
      penetration
        ? [penetration.duct.system ?? penetration.duct.name, sectionWords(penetration.duct)].join(', ')
        : null,
  },
  { header: 'Side', width: 9, value: ({ finding }) => (finding.side ? valueWords(finding.side) : null) },
  { header: 'Measured', width: 12, format: '0.0#', value: ({ finding }) => finding.measured },
  { header: 'Allowed', width: 18, value: ({ finding }) => finding.limit && limitWords(finding.limit) },
  { header: 'Margin', width: 10, format: '0.0#', value: ({ finding }) => finding.margin },
  {
    header: 'Margin needed',
    width: 10,
    format: '0.0#',
    value: ({ finding: { tolerance } }) => tolerance && neededMargin(tolerance),
  },
  { header: 'Unit', width: 8, value: ({ check }) => check?.unit ?? null },
  { header: 'Message', width: 60, value: ({ finding }) => finding.message },
  { header: 'Remedy', width: 50, value: ({ finding }) => finding.remedy },
  { header: 'Missing', width: 24, value: ({ finding }) => finding.missing.join(', ') },
  {
    header: 'Concession',
    width: 30,
    value: ({ finding: { concession } }) => concession && concessionWords(concession),
  },
  {
    header: 'Comments',
    width: 30,
    value: ({ finding }) => saidOf(finding).map(commentWords).join('; ') || null,
  },
  {
    header: 'Basis',
    width: 40,
    value: ({ check }) => (check ? sourceWords(check.basis) : null),
  },
  { header: 'Code', width: 24, value: ({ check }) => (check ? codeWords(check.basis) : null) },
  { header: 'Basis status', width: 24, value: ({ check }) => (check ? STATUS_WORDS[check.basis.status] : null) },
  {
    header: 'Elements',
    width: 40,
    value: ({ finding, files }) =>
      finding.subject.elements.map((e) => `${files.get(e.model) ?? e.model}: ${e.globalId}`).join(', '),
  },
  { header: 'Key', width: 34, value: ({ finding }) => finding.key },
];

function storeyName({ penetration, barrier }: FindingRow): string | null {
  return (penetration?.storey ?? barrier?.storey)?.name ?? null;
}

const said = <Row>(header: string, width: number, value: (row: Row) => Value): Column<Row> => ({
  header,
  width,
  value,
});
const lines = (items: readonly string[]): string => (items.length > 0 ? items.join('; ') : 'none');

/** A limit of the tested system that a penetration is judged by. */
export interface EvidenceRow {
  readonly penetration: ReportPenetration;
  readonly line: NonNullable<ReportPenetration['treatment']['chosen']>['scope'][number];
}

const EVIDENCE_WIDTHS = [44, 16, 34, 24, 12, 12, 44];
export const EVIDENCE_COLUMNS: readonly Column<EvidenceRow>[] = [
  said('Tag', 9, ({ penetration }) => penetration.tag),
  said('Tested detail', 44, ({ penetration }) => penetration.treatment.chosen?.title ?? null),
  ...SCOPE_HEADINGS.map((header, i) =>
    said(header, EVIDENCE_WIDTHS[i]!, ({ line }: EvidenceRow) => scopeRow(line)[i] ?? null),
  ),
];

export const STRATEGY_COLUMNS: readonly Column<StrategyWords>[] = [
  said('Run', 14, (row) => row.run),
  said('System', 14, (row) => row.system),
  said('Service', 20, (row) => row.service),
  said('From', 26, (row) => row.from),
  said('To', 36, (row) => row.to),
  said('Asked for', 34, (row) => row.required),
  said('Fire', 26, (row) => row.fire),
  said('Because', 60, (row) => lines(row.reasons)),
  said('Said to be there', 44, (row) => lines(row.there)),
  said('Would do, but is not there for that', 34, (row) => lines(row.wouldFit)),
  said('Barriers', 44, (row) => lines(row.crossings)),
  said('Lapses', 60, (row) => lines(row.lapses)),
  said('Contradictions', 60, (row) => lines(row.contradictions)),
];

const sized = <Row>(header: string, width: number, value: (row: Row) => Value): Column<Row> => ({
  ...said(header, width, value),
  format: '0.0#',
});

/** Numbers stand in columns of their own, so that they can be added up and sorted. */
export const SUPPORT_COLUMNS: readonly Column<SupportRow>[] = [
  said('Stretch', 12, (row) => row.stretch),
  said('System', 12, (row) => row.system),
  said('Duct (mm)', 20, (row) => sectionWords(row)),
  sized('Length (mm)', 12, (row) => row.length),
  said('Holds (min)', 10, (row) => row.minutes),
  sized('Sheet (mm)', 10, (row) => row.sheet.thickness),
  said('Sheet from', 12, (row) => row.sheet.from),
  sized('Sheet (kg/m)', 12, (row) => row.sheet.perMetre),
  sized('Insulation (kg/m)', 12, (row) => row.insulation.perMetre),
  sized('Protection (mm)', 12, (row) => row.protection.thickness),
  sized('Protection (kg/m³)', 12, (row) => row.protection.density),
  sized('Protection (kg/m)', 12, (row) => row.protection.perMetre),
  sized('Together (kg/m)', 12, (row) => row.perMetre),
  said('Rods', 8, (row) => row.rods),
  said('Rod', 8, (row) => row.rod),
  said('Bearer', 12, (row) => row.bearer),
  sized('Bearer (mm)', 12, (row) => row.bearerLength),
  sized('Bearer (kg)', 12, (row) => row.bearerMass),
  sized('Spacing, tested (mm)', 14, (row) => row.spacing.tested),
  sized('Spacing by stress (mm)', 14, (row) => row.spacing.byStress),
  sized('Spacing that governs (mm)', 14, (row) => row.spacing.governing),
  sized('Load on a support (N)', 14, (row) => row.load),
  sized('Load on a rod (N)', 14, (row) => row.rodLoad),
  sized('Rod (N/mm²)', 12, (row) => row.rodStress),
  sized('Rod, allowed (N/mm²)', 12, (row) => row.rodStressAllowed),
  said('Rod, allowed from', 14, (row) => row.rodStressFrom),
  sized('Bearer (N/mm²)', 12, (row) => row.bearerStress),
  sized('Bearer, allowed (N/mm²)', 12, (row) => row.bearerStressAllowed),
  sized('First from a barrier (mm)', 14, (row) => row.firstSupport),
  sized('Rod length at most (mm)', 14, (row) => row.rodLengthAtMost),
  sized('Rod grows (mm/m)', 12, (row) => row.growthPerMetre),
  said('Supports needed', 12, (row) => row.needed),
  said('Supports in the models', 12, (row) => row.found),
  said('Tested system', 28, (row) => row.testedSystem),
  said('Status', 30, (row) => (row.testedStatus === null ? null : STATUS_WORDS[row.testedStatus])),
];

export const ACCESS_COLUMNS: readonly Column<AccessRow>[] = [
  { header: 'Run', width: 20, value: (row) => row.run },
  { header: 'Is', width: 10, value: (row) => row.state },
  { header: 'What', width: 24, value: (row) => row.what },
  { header: 'x, y, z (mm)', width: 24, value: (row) => row.at },
  { header: 'Side', width: 8, value: (row) => row.side },
  { header: 'Size (mm)', width: 18, value: (row) => row.size },
  { header: 'Where, why', width: 50, value: (row) => row.why },
  { header: 'Shown by, asked by', width: 50, value: (row) => row.source },
];
