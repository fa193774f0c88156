/** The rows of the strategy table in words, the same for page and workbook. */
import type { StrategyLapse, StrategyRow } from '../model.js';
import { FIRE_WORDS } from '../strategy/words.js';
import { listed, number, oneLine } from '../words/text.js';
import { STATUS_WORDS, valueWords } from '../words/values.js';
import type { Report } from './schema.js';

export interface StrategyWords {
  readonly run: string;
  readonly system: string;
  readonly service: string;
  /** Where it opens, and where it leads. */
  readonly from: string;
  readonly to: string;
  readonly required: string;
  readonly fire: string;
  /** Why it is asked for, a sentence each. */
  readonly reasons: readonly string[];
  readonly there: readonly string[];
  readonly wouldFit: readonly string[];
  readonly crossings: readonly string[];
  readonly lapses: readonly string[];
  readonly contradictions: readonly string[];
}

/** Of the runs that must hold back fire by themselves, and of those of which that is not known. */
export function strategyWords(report: Report): StrategyWords[] {
  const compartments = new Map(report.compartments.map(({ id, name }) => [id, oneLine(name)]));
  const penetrations = new Map(report.penetrations.map((one) => [one.id, one]));
  const findings = new Map(report.findings.map((one) => [one.id, one]));
  const named = (ids: readonly string[]): string => listed(ids.map((id) => compartments.get(id) ?? id));
  return report.strategy
    .filter(({ mustResist }) => mustResist !== false)
    .map((row) => ({
      run: row.part > 1 ? `${row.run}, part ${row.part}` : row.run,
      system: row.system === null ? '' : oneLine(row.system),
      service: row.service === null ? '' : valueWords(row.service),
      from: row.serves.length > 0 ? named(row.serves) : 'not known',
      to: [...(row.passes.length > 0 ? [named(row.passes)] : []), ...(row.reachesOutside ? ['outside'] : [])].join(
        ', ',
      ),
      required: requiredWords(row),
      fire: row.fire === null ? 'not said' : FIRE_WORDS[row.fire],
      reasons: row.reasons.map(({ says, source }) => `${says} (${oneLine(source)})`),
      there: row.there.map(({ kind, evidence, length }) =>
        [
          `${metres(length)} ${THERE_WORDS[kind] ?? valueWords(kind)}`,
          ...(evidence === null ? [] : [oneLine(evidence)]),
        ].join(', '),
      ),
      wouldFit: row.wouldFit.map(({ system, status }) => `${system}, ${STATUS_WORDS[status]}`),
      crossings: row.crossings.map(({ penetration, treatment }) => {
        const one = penetrations.get(penetration);
        return `${one?.tag ?? penetration}: ${oneLine(one?.barrier.name ?? '')}, ${valueWords(treatment)}`;
      }),
      lapses: row.lapses.map((lapse) => lapseWords(lapse, named)),
      contradictions: row.contradictions.map((id) => oneLine(findings.get(id)?.message ?? id)),
    }));
}

const THERE_WORDS: { readonly [kind: string]: string } = {
  none: 'without protection',
  unknown: 'of which it is not known',
};

function requiredWords({ mustResist, required: { integrity, insulation } }: StrategyRow): string {
  if (mustResist === null) return 'not known whether it must resist';
  const words = (minutes: number | null): string => (minutes === null ? 'not known' : `${number(minutes)} min`);
  return `integrity ${words(integrity)}, insulation ${words(insulation)}`;
}

const LAPSE_WORDS: { readonly [K in StrategyLapse['kind']]: string } = {
  bare: 'without protection',
  untold: 'of which it is not known whether it is protected',
  inLine: 'of a fan, silencer or flexible duct that was not tested in line',
};

function lapseWords(
  { kind, length, from, to, compartments, doubtful }: StrategyLapse,
  named: (ids: readonly string[]) => string,
): string {
  const where = compartments.length > 0 ? ` in ${named(compartments)}` : '';
  const doubt = doubtful ? '; whether it is needed there cannot be told' : '';
  return `${metres(length)} ${LAPSE_WORDS[kind]}${where}, from ${point(from)} to ${point(to)}${doubt}`;
}

const metres = (mm: number): string => `${number(mm / 1000)} m`;
/** In metres, as on a plan. */
const point = (p: readonly [number, number, number]): string => `(${p.map((mm) => number(mm / 1000)).join(', ')})`;
