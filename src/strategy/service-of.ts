/** What a system is for, by the words in its names. */
import type { Service } from '../model.js';
import { rowsFor } from '../words/names.js';
import type { ServiceChange, ServiceRow, SystemOfDuct } from './types.js';

export interface ServiceFound {
  readonly service: Service;
  /** The name that shows it. */
  readonly name: string;
  readonly row: ServiceRow | null;
}

/** `several`: its names show more than one service, so none is known. */
export function serviceOf(
  { system, systemNames }: Pick<SystemOfDuct, 'system' | 'systemNames'>,
  rows: readonly ServiceRow[],
  changes: readonly ServiceChange[],
): ServiceFound | 'none' | 'several' {
  const isOff = (service: Service) => changes.some((one) => one.service === service && one.byWords === false);
  const found = [system, ...systemNames].flatMap((name): ServiceFound[] =>
    name === null
      ? []
      : [
          ...rowsFor(name, ownRows(changes)).map(({ service }) => ({ service, name, row: null })),
          ...rowsFor(name, rows).map((row) => ({ service: row.service, name, row })),
        ],
  );
  const left = found.filter(({ service }) => !isOff(service));
  const services = new Set(left.map(({ service }) => service));
  if (services.size > 1) return 'several';
  return left[0] ?? 'none';
}

const OWN_ROWS = new WeakMap<readonly ServiceChange[], readonly { service: Service; words: readonly string[] }[]>();

/** The brief's own words. */
function ownRows(changes: readonly ServiceChange[]) {
  const known = OWN_ROWS.get(changes) ?? changes.map(({ service, words = [] }) => ({ service, words }));
  OWN_ROWS.set(changes, known);
  return known;
}
