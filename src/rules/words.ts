import type { Tolerance } from '../model.js';
import type { Code } from '../strategy/index.js';
import { listed } from '../words/text.js';
import { toleranceWords } from '../words/values.js';
import { type Each, factAt } from './fact-schema.js';

/** All sentences of findings that do not come from the check documents. */

export const NOT_KNOWN = 'not known';

/** What can be missing without being a fact that rules could ask for. */
const MISSING_WORDS: { readonly [path: string]: string } = {
  'brief.testedSystem': 'which tested system is chosen',
  'brief.testedDamper': 'which tested damper is chosen',
  'brief.fixing': 'which fixing is chosen',
  'brief.pressure': 'the pressure in the ducts',
  'compartment.enclosure': 'how the compartment is enclosed',
  'brief.flangeHeight': "how far the duct's flanges stand out",
  'brief.room': 'which faces of barriers people get at',
  'face.obstacles': 'what stands before the face',
  'system.detail': 'a tested detail for this barrier, this duct and its layers',
  'brief.system': "what the project brief says of the duct's system",
  'brief.jurisdiction': 'the jurisdiction',
  'brief.edition': 'the edition of the code',
  'code.damperInsulation': 'whether the code asks dampers for insulation',
  'evidence.fireSides': 'from which sides the fire came in the test',
  'room.otherProtection': 'how thick the protection of the other duct is',
  'room.combustible': 'whether it burns',
  'evidence.combined': 'a detail tested with several services in one opening',
  'run.serves': 'which compartment the run serves',
  'run.ends': 'whether ends of the run are closed',
  'run.protection': 'whether the run is protected',
  'support.load': 'what the support carries',
  'run.supports': 'where the supports of the ducts are',
  'run.protection.rating': 'the rating of the protection of the run',
  'evidence.damperInProtection': 'a test of the protection with a damper at the barrier',
  'penetration.damper.size': 'the size of the damper',
  'penetration.fireSide': 'from which side the fire may come',
  'duct.connection': 'whether the ends are connected',
  'brief.accessPanels': 'whether all access panels are modelled',
  'evidence.accessPanels': 'whether this access panel was part of the tested duct',
  'brief.access': 'what the project asks of access openings',
  'penetration.treatment.rating': 'the fire rating of the damper or protection',
};

/** "the fire rating of the barrier"; the bare name for what no words are declared for. */
export function missingWords(missing: readonly string[]): string {
  return listed(
    missing.map((path) => factAt(path)?.says ?? (Object.hasOwn(MISSING_WORDS, path) ? MISSING_WORDS[path]! : path)),
  );
}

const SUBJECT_WORDS: { readonly [E in Each]: string } = {
  barrier: '{barrier.name}',
  penetration: 'Penetration {penetration.tag}',
  gap: 'Penetration {penetration.tag}, {gap.place} gap',
  face: 'Penetration {penetration.tag}, {face.name}',
  neighbour: 'Penetrations {penetration.tag} and {neighbour.tag}',
  facingEnds: 'Duct ends at {barrier.name}',
  leak: '{barrier.name} and {leak.other}',
  run: 'Run {run.name}',
  lapse: 'Run {run.name}',
  support: 'Support of {support.duct}',
  supportSpan: 'Run {run.name}',
  door: '{door.name} in {barrier.name}',
  compartment: '{compartment.name}',
  room: '{room.obstacle} {room.where} {duct.name}',
  accessGap: 'Run {run.name}, {accessGap.from} to {accessGap.to}',
  bend: 'Run {run.name}, {bend.name}',
  accessPanel: '{accessPanel.name}',
  model: 'Models',
};

/** What ends a sentence in its own place must not end it in the middle of another. */
const withoutStop = (text: string): string => text.replace(/\.$/, '');

const notKnown = (several: boolean): string => (several ? 'are not known' : 'is not known');

/** Templates for the outcomes that check documents need not put into words. */
export const GENERIC = {
  passed: (each: Each, title: string, isNumber: boolean) =>
    `${SUBJECT_WORDS[each]}: ${title}: {measured}${isNumber ? ', allowed {limit}' : ''}.`,
  nothingAgainst: (each: Each, title: string) => `${SUBJECT_WORDS[each]}: ${title}: nothing stands against it.`,
  wouldPass: (each: Each, title: string, source: string, isNumber: boolean) =>
    `${SUBJECT_WORDS[each]}: ${title}: {measured} ${isNumber ? 'meets the limit ({limit})' : 'would do'}, but that is not proved by a test (${withoutStop(source)}).`,
  inapplicable: (each: Each, title: string) => `${SUBJECT_WORDS[each]}: ${title}: does not apply here.`,
  undecided: (each: Each, title: string, several: boolean) =>
    `${SUBJECT_WORDS[each]}: ${title}: whether this is asked for cannot be told, since {missing} ${notKnown(several)}.`,
  missing: (each: Each, title: string, several: boolean) =>
    `${SUBJECT_WORDS[each]}: ${title}: {missing} ${notKnown(several)}.`,
  problem: (each: Each, title: string, problem: string) =>
    `${SUBJECT_WORDS[each]}: ${title}: could not be worked out: ${withoutStop(problem)}.`,
  ofCode: (each: Each, title: string, code: Code, several: boolean) =>
    `${SUBJECT_WORDS[each]}: ${title}: whether ${code.jurisdiction}, ${code.edition} holds cannot be told, since {missing} ${notKnown(several)}.`,
  withoutMargin: (each: Each, title: string, isTested: boolean, tolerance: Tolerance) =>
    `${SUBJECT_WORDS[each]}: ${title}: {measured}, inside the ${isTested ? 'tested ' : ''}limit ({limit}) by {by}, but ${toleranceWords(tolerance)}.`,
  moreMargin: ({ site, measuring }: Tolerance, isPossible: boolean) =>
    `${[
      isPossible ? 'Bring it {by} further inside the limit' : 'No value holds both limits; choose another detail',
      ...(site > 0 ? ['build to a smaller tolerance (project brief, siteTolerance)'] : []),
      ...(measuring > 0 ? ['draw the duct as a swept profile, which is measured exactly'] : []),
    ].join(', or ')}.`,
  beyondRows: "the published table has no row for the minutes of the barrier's rating",
  beyondTable: 'the table of limits has no row for a duct of this size',
  contradiction: (atLeast: number, atMost: number) =>
    `the limits contradict: at least ${atLeast} and at most ${atMost}`,
};
