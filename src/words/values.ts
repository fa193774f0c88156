/** How values are called wherever people read them: in messages, summaries, registers, drawings. */
import type { Limit, Outcome, RuleStatus, Tolerance, Unit } from '../model.js';
import { listed, number, oneLine } from './text.js';

export const OUTCOME_WORDS: { readonly [O in Outcome]: string } = {
  passed: 'Passed',
  failed: 'Failed',
  cantTell: "Can't tell",
  inapplicable: 'Inapplicable',
  untested: 'Untested',
};

export const STATUS_WORDS: { readonly [S in RuleStatus]: string } = {
  tested: 'tested',
  unverified: 'unverified (proves nothing)',
  demonstration: 'demonstration (invented, proves nothing)',
};

/** Words of the data that are no words of a language, or mean something else there. All others stand for themselves. */
const VALUE_WORDS: { readonly [value: string]: string } = {
  endsInside: 'ends inside',
  flexible: 'flexible duct',
  fireResistingDuct: 'fire-resisting duct',
  fireSmoke: 'fire and smoke',
  both: 'damper and protection',
  durationOnly: 'duration only',
  notRequired: 'none required',
  touching: 'inferred where pieces touch',
  flangeTable: 'as is usual, not from this project',
  nowhere: 'neither in the brief nor in a table',
  unstated: 'not stated',
  steelStud: 'steel studs',
  timberStud: 'timber studs',
  shaftWall: 'shaft wall',
  aeratedConcrete: 'aerated concrete',
  hollowCore: 'hollow-core slab',
  ribbedDeck: 'ribbed deck',
  massTimber: 'mass timber',
  sandwichPanel: 'sandwich panels',
  kitchenExhaust: 'kitchen exhaust',
  smokeExhaust: 'smoke exhaust',
  stairPressurisation: 'stair pressurisation',
  carParkExhaust: 'car-park exhaust',
  applianceVentilation: 'ventilation of appliances',
  insideAndOutside: 'inside and outside',
  localBuildUp: 'local build-up',
  boardCollar: 'board collar',
  accessPanel: 'access panel',
};

const UNIT_WORDS: { readonly [U in Unit]: string } = { mm: ' mm', deg: '°', min: ' min' };

/** `30.5 mm`, `yes`, `damper and protection`, `pipe, cable`. */
export function valueWords(value: number | string | boolean | readonly string[], unit?: Unit): string {
  if (typeof value === 'number') return `${number(value)}${unit ? UNIT_WORDS[unit] : ''}`;
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  if (typeof value === 'string') return Object.hasOwn(VALUE_WORDS, value) ? VALUE_WORDS[value]! : oneLine(value);
  return value.map((one) => valueWords(one)).join(', ');
}

/** `10 to 50 mm`, `at most 5 mm`, `allowed`. */
export function limitWords({ atLeast, atMost, equals, among }: Limit, unit?: Unit): string {
  if (atLeast !== undefined && atMost !== undefined) return `${number(atLeast)} to ${valueWords(atMost, unit)}`;
  if (atLeast !== undefined) return `at least ${valueWords(atLeast, unit)}`;
  if (atMost !== undefined) return `at most ${valueWords(atMost, unit)}`;
  if (equals !== undefined) return valueWords(equals, unit);
  return listed(
    (among ?? []).map((value) => valueWords(value, unit)),
    'or',
  );
}

/** `the site tolerance is 5 mm and the section is measured from a mesh to 0.8 mm`. */
export const toleranceWords = ({ site, measuring }: Tolerance): string =>
  listed([
    ...(site > 0 ? [`the site tolerance is ${valueWords(site, 'mm')}`] : []),
    ...(measuring > 0 ? [`the section is measured from a mesh to ${valueWords(measuring, 'mm')}`] : []),
  ]);
