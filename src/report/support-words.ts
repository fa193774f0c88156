/** The rows of the support schedule in words, the same for page and workbook. */
import type { SupportMass, SupportRow } from '../model.js';
import { number, oneLine } from '../words/text.js';
import { STATUS_WORDS } from '../words/values.js';
import type { Report } from './schema.js';
import { sectionWords } from './words.js';

export interface SupportWords {
  readonly where: string;
  readonly section: string;
  readonly length: string;
  readonly time: string;
  /** Mass of one metre, part by part and together, with where each is from. */
  readonly masses: readonly string[];
  readonly support: string;
  /** Greatest spacing: tested, by stress, and the one that governs. */
  readonly spacing: readonly string[];
  readonly load: readonly string[];
  readonly first: string;
  readonly rodLength: readonly string[];
  readonly count: string;
  readonly basis: string;
}

/** What whoever installs by the schedule has to know about it. */
export const SUPPORT_CAUTIONS: readonly string[] = [
  'Arithmetic on what the models and the brief say, not a design: the tested system’s own documents and licensed engineers decide.',
  'Loads are those of straight ductwork at the governing spacing, with protection on four sides, without flanges, fittings, branches, people or wind. Anchors, and what they are fixed in, are not part of it.',
  'Values from published tables and from memory prove nothing; only what a test of this system says does. For a time that no test covers nothing is allowed.',
  'Upright ducts stand on floors and are not in this schedule.',
];

const UNKNOWN = 'not known';
const amount = (value: number | null, unit: string): string => (value === null ? UNKNOWN : `${number(value)} ${unit}`);

const FROM: { readonly [F in NonNullable<SupportMass['from']>]: string } = {
  model: 'the model',
  brief: 'the brief',
  system: 'the tested system',
  published: 'a published table, unverified',
};

export const supportWords = (report: Report): SupportWords[] => report.supports.map(rowWords);

function rowWords(row: SupportRow): SupportWords {
  const { spacing } = row;
  const by = spacing.governing === null ? null : spacing.governing === spacing.tested ? 'tested' : 'by stress';
  return {
    where: [oneLine(row.stretch), ...(row.system === null ? [] : [oneLine(row.system)])].join(', '),
    section: sectionWords(row),
    length: amount(row.length / 1000, 'm'),
    time: amount(row.minutes, 'min'),
    masses: [
      massWords('sheet', row.sheet),
      ...(row.insulation.perMetre === 0 ? [] : [massWords('insulation', row.insulation)]),
      massWords('protection', row.protection),
      `together ${amount(row.perMetre, 'kg/m')}`,
      `bearer ${amount(row.bearerMass, 'kg')}`,
    ],
    support: `${row.rods} × ${row.rod ?? 'rod not known'}, ${row.bearer === null ? 'bearer not known' : oneLine(row.bearer)}${row.bearerLength === null ? '' : ` of ${number(row.bearerLength)} mm`}`,
    spacing: [
      `tested ${amount(spacing.tested, 'mm')}`,
      `by stress ${amount(spacing.byStress, 'mm')}`,
      `governing ${amount(spacing.governing, 'mm')}${by === null ? '' : ` (${by})`}`,
    ],
    load: [
      `support ${amount(row.load, 'N')}`,
      `rod ${amount(row.rodLoad, 'N')}, ${amount(row.rodStress, 'N/mm²')}, allowed ${amount(row.rodStressAllowed, 'N/mm²')}${row.rodStressFrom === null ? '' : ` (${FROM[row.rodStressFrom]})`}`,
      `bearer ${amount(row.bearerStress, 'N/mm²')}, allowed ${amount(row.bearerStressAllowed, 'N/mm²')}`,
    ],
    first: amount(row.firstSupport, 'mm'),
    rodLength: [
      `at most ${amount(row.rodLengthAtMost, 'mm')}`,
      `grows ${row.growthPerMetre === null ? UNKNOWN : `${number(row.growthPerMetre)} mm/m`}`,
    ],
    count: `${row.needed === null ? UNKNOWN : number(row.needed)} needed, ${number(row.found)} in the models`,
    basis:
      row.testedSystem === null || row.testedStatus === null
        ? 'no tested system'
        : `${oneLine(row.testedSystem)}, ${STATUS_WORDS[row.testedStatus]}`,
  };
}

function massWords(what: string, { thickness, perMetre, from }: SupportMass): string {
  const origin = from === null ? '' : ` (${FROM[from]})`;
  return `${what} ${thickness === null ? '' : `${number(thickness)} mm, `}${amount(perMetre, 'kg/m')}${origin}`;
}
