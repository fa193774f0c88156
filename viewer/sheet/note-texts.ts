/** The numbered notes of a sheet as texts: what was measured, what is allowed, on what basis, what mends it, what it takes. */
import { isOpen } from '../../src/attention.js';
import { QUANTITY_OF } from '../../src/quantify/takeoff.js';
import { toSettle, unlistedWords } from '../../src/report/hold-points.js';
import type { Report, ReportFinding, ReportPenetration } from '../../src/report/schema.js';
import { materialsById } from '../../src/report/takeoff-rows.js';
import { kindWords, MEASURE_WORDS, quantityWords } from '../../src/report/takeoff-words.js';
import { chosenWords, detailWords, nearestSentences, ownSourceWords } from '../../src/report/tested-words.js';
import { basisWords } from '../../src/report/words.js';
import { missingWords } from '../../src/rules/words.js';
import { capital, oneLine } from '../../src/words/text.js';
import { toleranceWords } from '../../src/words/values.js';
import type { OpenReport } from '../state/state.js';
import { WORDS } from '../words.js';

const { sheet } = WORDS;

/** `Can't tell: needs the fire rating of the barrier.`; empty where nothing is missing. */
export const needsWords = (finding: ReportFinding): string =>
  isOpen(finding) && finding.missing.length > 0 ? sheet.needs(missingWords(finding.missing)) : '';

/** What the check stands on, and where its limits come from. */
export function basisTexts({ building: { lookup } }: OpenReport, finding: ReportFinding): string[] {
  const check = lookup.checks.get(finding.check);
  if (!check) return [sheet.noBasis];
  const { tolerance } = finding;
  const needed =
    tolerance && (tolerance.site > 0 || tolerance.measuring > 0) ? [capital(toleranceWords(tolerance))] : [];
  // Sources end their own sentences.
  const basis = basisWords(check.basis).replaceAll('.,', ',');
  return [`${check.title}: ${basis}.`, ...needed.map((words) => `${words}.`)];
}

export interface DetailTexts {
  readonly lead: string;
  readonly list: readonly string[];
}

/** What it is judged by; then what would fit, or what comes nearest. */
export function detailTexts({ treatment }: ReportPenetration): DetailTexts[] {
  const { feasible } = treatment;
  const nearest = nearestSentences(treatment);
  return [
    { lead: `${chosenWords(treatment)} ${ownSourceWords(treatment)}`.trim(), list: [] },
    ...(feasible.length > 0 ? [{ lead: sheet.fit, list: feasible.map(detailWords) }] : []),
    ...(nearest.length > 0 ? [{ lead: sheet.nearest, list: nearest }] : []),
  ];
}

export interface MaterialRow {
  readonly kind: string;
  readonly name: string;
  readonly amount: string;
}

export interface MaterialTexts {
  readonly rows: readonly MaterialRow[];
  /** What could not be counted, and why. */
  readonly uncounted: readonly string[];
}

/** All that is built in at one place. @param at id of a penetration or a run; null: nothing was quantified */
export function materialTexts({ takeoff }: Report, by: 'penetration' | 'run', at: string): MaterialTexts | null {
  if (!takeoff) return null;
  const materials = materialsById(takeoff);
  const rows = takeoff.totals
    .filter((total) => total.by === by && total.id === at)
    .map((total): MaterialRow => {
      const { kind, name, measure } = materials.get(total.material)!;
      const quantity = QUANTITY_OF[measure];
      const words = quantityWords(total, quantity);
      return {
        kind: kindWords(kind),
        name: oneLine(name),
        amount:
          total[quantity] === null
            ? words
            : `${words} ${words === '1' && measure === 'pieces' ? 'piece' : MEASURE_WORDS[measure]}`,
      };
    });
  const uncounted = takeoff.uncounted
    .filter((one) => one[by] === at)
    .map(({ material, what, because }) => `${capital(kindWords(material))}, ${what}: ${because}.`);
  return { rows, uncounted };
}

/** `43 checks passed; 62 inapplicable.`, and why nobody may build by that where no finding says so. */
export function checkedWords({ building: { lookup } }: OpenReport, p: ReportPenetration): string {
  const { passed, wouldPass, ...rest } = p.outcomes;
  const others = WORDS.counts({ ...rest, cantTell: rest.cantTell - wouldPass, passed: 0 });
  const checked = sheet.checked(passed, [
    ...(wouldPass > 0 ? [sheet.wouldPass(wouldPass)] : []),
    ...(others === '' ? [] : [others]),
  ]);
  return [checked, unlistedWords(p, toSettle(p, lookup)) ?? ''].join(' ').trim();
}
