/** What somebody wants to see otherwise, as assumptions that `ratedrun check --assume` takes too. */
import { parse } from 'yaml';
import type { Assumption } from '../../src/index.js';
import type { ReportPenetration } from '../../src/report/schema.js';
import type { Choosable } from '../../src/review/choosable.js';
import type { BriefChoices } from '../../src/rules/index.js';
import { oneLine } from '../../src/words/text.js';

export const SCOPES = ['penetration', 'run', 'all'] as const;
export type Scope = (typeof SCOPES)[number];

/** Penetrations that a scope settles the tested system for; those of a run without the others of its system. */
export function penetrationsIn(
  scope: Scope,
  p: ReportPenetration,
  all: readonly ReportPenetration[],
): readonly ReportPenetration[] {
  if (scope === 'all') return all;
  return scope === 'run' && p.duct.run !== null ? all.filter(({ duct }) => duct.run === p.duct.run) : [p];
}

/**
 * A tested system for some penetrations, with the fixing and the detail of it that fit best; or for all, so that nothing else
 * that the brief settles about them holds.
 *
 * @param pinned tags; null: everywhere
 */
export function testedSystemAssumptions(
  testedSystem: string,
  pinned: readonly string[] | null,
  choices: Pick<BriefChoices, 'pinned' | 'systems'>,
): Assumption[] {
  if (pinned) {
    const others = choices.pinned.filter(({ penetration }) => !pinned.includes(penetration));
    return [{ name: 'pinned', value: [...others, ...pinned.map((penetration) => ({ penetration, testedSystem }))] }];
  }
  const systems = choices.systems.map(({ testedSystem: _, fixing: __, detail: ___, ...rest }) => rest);
  return [
    { name: 'testedSystems', value: [testedSystem] },
    ...(systems.length > 0 ? [{ name: 'systems', value: systems }] : []),
    ...(choices.pinned.length > 0 ? [{ name: 'pinned', value: [] }] : []),
  ];
}

export interface CommonChoice {
  /** As assumptions name it. */
  readonly name: string;
  readonly says: string;
  readonly unit: 'mm' | 'min' | 'Pa' | null;
  /** What there is to choose from; null: any value. */
  readonly values: readonly (string | boolean)[] | null;
  /** undefined: the brief says nothing. */
  readonly now: unknown;
}

/** Those that people ask for in meetings. @param system of the duct at hand, where the brief says something of it by name */
export function commonChoices(choices: BriefChoices, system: string | null): CommonChoice[] {
  const { room, pressure } = choices;
  const any = (name: string, says: string, unit: CommonChoice['unit'], now: unknown): CommonChoice => ({
    ...{ name, says, unit, now, values: null },
  });
  return [
    ...choicesOfSystem(choices, system),
    any('siteTolerance', 'Site tolerance', 'mm', choices.siteTolerance),
    any('room.working', 'Working room beside protection', 'mm', room?.working),
    any('room.hands', 'Room for hands before a face', 'mm', room?.hands),
    { ...any('room.shaftsEntered', 'People build in shafts', null, room?.shaftsEntered), values: [true, false] },
    any('flangeHeight', 'Height of flanges', 'mm', choices.flangeHeight),
    any('headMovement', 'Movement of the structure above', 'mm', choices.headMovement),
    any('movement', 'Movement between ducts and barriers', 'mm', choices.movement),
    any('pressure.over', 'Overpressure in ducts', 'Pa', pressure?.over),
    any('pressure.under', 'Underpressure in ducts', 'Pa', pressure?.under),
    any('jurisdiction', 'Jurisdiction', null, choices.jurisdiction),
    any('edition', 'Code and edition', null, choices.edition.length > 0 ? choices.edition : undefined),
  ];
}

function choicesOfSystem({ systems }: BriefChoices, system: string | null): CommonChoice[] {
  if (system === null || system.includes('"')) return [];
  const named = systems.filter((one) => one.system?.toLowerCase() === system.toLowerCase());
  const [entry] = named;
  // Two entries of one name: only their places tell them apart.
  if (!entry || named.length > 1) return [];
  const at = `systems."${system}"`;
  const of = oneLine(system);
  return [
    { name: `${at}.dampers`, says: `Dampers in ${of}`, unit: null, values: ['allowed', 'never'], now: entry.dampers },
    { name: `${at}.integrity`, says: `Integrity of ${of}`, unit: 'min', values: null, now: entry.integrity },
    { name: `${at}.insulation`, says: `Insulation of ${of}`, unit: 'min', values: null, now: entry.insulation },
  ];
}

/** One clear line of what can't be taken. */
export class ChoiceError extends Error {}

/** @param text YAML, as `NAME=VALUE` has it; nothing at all leaves the choice out @throws ChoiceError */
export function choiceAssumption(name: string, text: string): Assumption {
  if (name.trim() === '') throw new ChoiceError('Say which choice, by its name in the brief, e.g. siteTolerance.');
  try {
    return { name: name.trim(), value: text.trim() === '' ? null : (parse(text) as unknown) };
  } catch {
    throw new ChoiceError(`"${oneLine(text)}" can't be read; write a number, a word, or a list as [a, b].`);
  }
}

/** All that is tried together: what is tried anew replaces what was tried of the same name; whole lists go before their parts. */
export function together(before: readonly Assumption[], added: readonly Assumption[]): Assumption[] {
  const names = new Set(added.map(({ name }) => name));
  const isWhole = ({ name }: Assumption): boolean => !name.includes('.');
  const all = [...before.filter(({ name }) => !names.has(name)), ...added];
  return [...all.filter(isWhole), ...all.filter((one) => !isWhole(one))];
}

/** What a trial already says of lists that are tried whole, else what the brief says. */
export function standing(
  { choices }: Choosable,
  tried: readonly Assumption[],
): Pick<BriefChoices, 'pinned' | 'systems'> {
  const value = <K extends 'pinned' | 'systems'>(key: K): BriefChoices[K] =>
    (tried.find(({ name }) => name === key)?.value as BriefChoices[K] | undefined) ?? choices[key];
  return { pinned: value('pinned'), systems: value('systems') };
}
