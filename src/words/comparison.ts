/** The words in which two reports are compared. */
import { listed, number } from './text.js';
import { OUTCOME_WORDS, valueWords } from './values.js';

interface Compared {
  readonly tool: string;
  readonly brief: { readonly sha256: string } | null;
  readonly rules: readonly { readonly id: string; readonly version: string; readonly status: string }[];
}

/**
 * What else differs between two reports: then outcomes may differ although nothing was built otherwise.
 *
 * @param listsDiffer one report lists all findings, the other those that need attention
 */
export function differenceNotes(before: Compared, after: Compared, listsDiffer: boolean): string[] {
  const rulesOf = ({ rules }: Compared) =>
    rules.map(({ id, version, status }) => `${id} ${version} (${status})`).sort();
  const [was, is] = [rulesOf(before), rulesOf(after)];
  return [
    ...(before.tool === after.tool ? [] : [`Made with ${before.tool} before and ${after.tool} now.`]),
    ...(was.join() === is.join() ? [] : [`Other rules: ${listed(was)} before, ${listed(is)} now.`]),
    ...(before.brief?.sha256 === after.brief?.sha256 ? [] : ['Another project brief, or another version of it.']),
    ...(listsDiffer
      ? [
          "One report lists all findings, the other those that need attention: can't-tells that only one lists are left out.",
        ]
      : []),
  ];
}

const FIELD_WORDS: { readonly [field: string]: readonly [name: string, unit: string] } = {
  crossing: ['crossing', ''],
  'duct.shape': ['duct', ''],
  'duct.width': ['duct width', ' mm'],
  'duct.height': ['duct height', ' mm'],
  'duct.diameter': ['duct diameter', ' mm'],
  'barrier.thickness': ['barrier thickness', ' mm'],
  'barrier.leafThickness': ['thickness of the rated leaf', ' mm'],
  'barrier.construction': ['construction', ''],
  'barrier.rating.state': ['rating', ''],
  'barrier.rating.text': ['rating text', ''],
  'barrier.rating.integrity': ['integrity asked for', ' min'],
  'barrier.rating.insulation': ['insulation asked for', ' min'],
  opening: ['opening', ''],
  'opening.width': ['opening width', ' mm'],
  'opening.height': ['opening height', ' mm'],
  'gaps.top': ['top gap', ' mm'],
  'gaps.bottom': ['bottom gap', ' mm'],
  'gaps.left': ['left gap', ' mm'],
  'gaps.right': ['right gap', ' mm'],
  'gaps.min': ['smallest gap', ' mm'],
  'gaps.max': ['largest gap', ' mm'],
  'treatment.kind': ['treatment', ''],
  'treatment.layers': ['layers', ''],
  'treatment.integrity': ['integrity of the treatment', ' min'],
  'treatment.insulation': ['insulation of the treatment', ' min'],
};

interface Changed {
  readonly field: string;
  readonly before: number | string | boolean | null;
  readonly after: number | string | boolean | null;
}

/** `duct width 600 to 500 mm`. */
export function changeWords({ field, before, after }: Changed): string {
  const [name, unit] = FIELD_WORDS[field] ?? [field, ''];
  const word = (value: Changed['before']) =>
    value === null ? 'not known' : typeof value === 'number' ? number(value) : valueWords(value);
  return `${name} ${word(before)} to ${word(after)}${typeof after === 'number' ? unit : ''}`;
}

/** Headings of what became of findings, in the order in which a meeting wants them. */
export const FINDING_HEADINGS = {
  new: 'New findings',
  worse: 'Worse',
  changed: 'Changed, neither better nor worse',
  better: 'Better',
  nowPasses: 'Now passes',
  noLongerListed: 'No longer listed; whether it passed can not be told from these reports',
  absent: 'Gone with the place that they were about',
} as const;

export const PENETRATION_HEADINGS = {
  new: 'New penetrations',
  absent: 'Absent penetrations',
  changed: 'Changed penetrations',
  moved: 'Moved penetrations',
} as const;

/** What a result that is only counted may be. */
export const possibleWords = (outcomes: readonly (keyof typeof OUTCOME_WORDS)[]): string =>
  outcomes.length === 0
    ? 'nothing is said of it any more'
    : `may be ${listed(
        outcomes.map((outcome) => OUTCOME_WORDS[outcome].toLowerCase()),
        'or',
      )}`;
