/** Which duct runs must resist fire, for how long and from which side, and why. */
import type { Service } from '../model.js';
import { oneLine } from '../words/text.js';
import { valueWords } from '../words/values.js';
import { entryFor, isCode, selectorWords } from './entry-for.js';
import { serviceOf } from './service-of.js';
import type {
  Asked,
  Reason,
  RunDemand,
  ServiceChange,
  ServiceDefault,
  ServiceRow,
  StrategyChoices,
  SystemOfDuct,
} from './types.js';
import { DAMPERS_WORDS, FIRE_WORDS, RESISTS_WORDS } from './words.js';

const NO_CHOICES: StrategyChoices = { edition: [], systems: [], services: [] };
const DEFAULT_BRIEF = 'the default brief';
const BRIEF = 'the project brief';

/**
 * What the brief's entry for the system says comes first, then what the brief says of the service, then the defaults of
 * the service (those of a code only where the brief names that code), then the default brief: dampers or protection.
 *
 * @param services the rows of the service tables
 */
export function demandOf(
  duct: SystemOfDuct,
  choices: StrategyChoices = NO_CHOICES,
  services: readonly ServiceRow[] = [],
): RunDemand {
  const reasons: Reason[] = [systemReason(duct)];
  const found = entryFor(duct, choices.systems);
  if (choices.systems.length > 0 && found.is !== 'entry') {
    const says =
      found.is === 'none'
        ? 'the brief lists systems, and none of its entries picks this one'
        : `whether entry ${found.number} of the brief picks it cannot be told: ${found.missing} is not known`;
    return { ...NOTHING_KNOWN, reasons: [...reasons, { says, source: BRIEF, status: 'brief' }] };
  }
  const entry = found.is === 'entry' ? found.entry : undefined;
  if (found.is === 'entry')
    reasons.push({
      says: `entry ${found.number} of the brief's systems (${selectorWords(found.entry)}) holds for it`,
      source: BRIEF,
      status: 'brief',
    });
  const { service, serviceState, reason } = serviceFor(duct, entry?.service, choices, services);
  reasons.push(...reason);
  const sources: Sources = {
    entry,
    change: choices.services.find((one) => one.service === service),
    defaults: defaultsFor(service, choices, services),
  };
  const [dampers, resists, fire] = [askedOf('dampers', sources), askedOf('resists', sources), askedOf('fire', sources)];
  const least = { integrity: leastOf('integrity', sources, duct), insulation: leastOf('insulation', sources, duct) };
  return {
    service,
    serviceState,
    resists: resists?.value ?? 'whereUndampered',
    dampers: dampers?.value ?? 'allowed',
    fire: fire?.value ?? null,
    integrity: least.integrity.value,
    insulation: least.insulation.value,
    reasons: [
      ...reasons,
      said(DAMPERS_WORDS[dampers?.value ?? 'allowed'], dampers),
      said(RESISTS_WORDS[resists?.value ?? 'whereUndampered'], resists),
      ...(fire ? [said(FIRE_WORDS[fire.value], fire)] : []),
      ...least.integrity.reasons,
      ...least.insulation.reasons,
    ],
  };
}

const NOTHING_KNOWN = {
  service: null,
  serviceState: 'unknown',
  resists: null,
  dampers: null,
  integrity: null,
  insulation: null,
  fire: null,
} as const;

function systemReason({ system, systemNames, systemType }: SystemOfDuct): Reason {
  const more = [...systemNames, ...(systemType === null ? [] : [`type ${systemType}`])].map(oneLine).join(', ');
  const says =
    system === null ? 'it belongs to no system' : `it belongs to system ${oneLine(system)}${more && ` (${more})`}`;
  return { says, source: 'the model', status: 'model' };
}

function serviceFor(
  duct: SystemOfDuct,
  named: Service | undefined,
  { services: changes }: StrategyChoices,
  rows: readonly ServiceRow[],
): Pick<RunDemand, 'service' | 'serviceState'> & { reason: readonly Reason[] } {
  if (named !== undefined) {
    const says = `its service is ${valueWords(named)}`;
    return { service: named, serviceState: 'named', reason: [{ says, source: BRIEF, status: 'brief' }] };
  }
  const found = serviceOf(duct, rows, changes);
  if (!found) {
    // A system that says neither what it is called nor what it is for may be any of them.
    const isTold = duct.system !== null && duct.systemType !== null;
    return { service: null, serviceState: isTold ? 'noneOfThem' : 'unknown', reason: [] };
  }
  const { service, name, row } = found;
  const says = `its name "${oneLine(name)}" shows that its service is ${valueWords(service)}`;
  const from = row ? { source: row.source, status: row.status } : { source: BRIEF, status: 'brief' as const };
  return { service, serviceState: 'named', reason: [{ says, ...from }] };
}

interface Sources {
  readonly entry: Asked | undefined;
  readonly change: ServiceChange | undefined;
  readonly defaults: readonly ServiceDefault[];
}

/** Those of the code that the brief names come before those that hold anywhere; what a code does not say is not taken from another. */
function defaultsFor(
  service: Service | null,
  { jurisdiction, edition }: StrategyChoices,
  rows: readonly ServiceRow[],
): ServiceDefault[] {
  const own = rows.filter((row) => row.service === service).flatMap(({ defaults }) => defaults);
  const ofCode = own.filter(({ code }) => code !== null && isCode(code, { jurisdiction, edition }) === true);
  return [...ofCode, ...own.filter(({ code }) => code === null)];
}

type Key = keyof Asked;
interface Said<T> extends Pick<Reason, 'source' | 'status'> {
  readonly value: T;
}

/** undefined: nobody says. */
function askedOf<K extends Key>(key: K, { entry, change, defaults }: Sources): Said<NonNullable<Asked[K]>> | undefined {
  type Value = NonNullable<Asked[K]>;
  const byEntry = entry?.[key];
  if (byEntry !== undefined) return { value: byEntry as Value, source: BRIEF, status: 'brief' };
  const byChange = change?.[key];
  if (byChange === 'noDefault') return undefined;
  if (byChange !== undefined) return { value: byChange as Value, source: BRIEF, status: 'brief' };
  const byDefault = defaults.find((one) => one[key] !== undefined);
  return byDefault && { value: byDefault[key] as Value, source: byDefault.source, status: byDefault.status };
}

const said = (says: string, by: Pick<Reason, 'source' | 'status'> | undefined): Reason => ({
  says,
  source: by?.source ?? DEFAULT_BRIEF,
  status: by?.status ?? 'brief',
});

/** The greater of what the brief or the service asks and what the duct states that it must reach. */
function leastOf(
  criterion: 'integrity' | 'insulation',
  sources: Sources,
  { ratings: { required } }: SystemOfDuct,
): { readonly value: number | null; readonly reasons: readonly Reason[] } {
  const asked = askedOf(criterion, sources);
  const byStrategy: Reason[] =
    asked && asked.value > 0 ? [said(`at least ${asked.value} minutes of ${criterion}`, asked)] : [];
  if (!required || required.state === 'unstated') return { value: asked?.value ?? 0, reasons: byStrategy };
  const stated = required[criterion] ?? required.duration;
  const says = `it states that it must reach "${oneLine(required.text ?? '')}"`;
  const byModel: Reason = { says, source: 'the model', status: 'model' };
  const reasons = [...byStrategy, ...(criterion === 'integrity' ? [byModel] : [])];
  if (stated === null) return { value: null, reasons };
  return { value: Math.max(asked?.value ?? 0, stated === 'none' ? 0 : stated), reasons };
}
