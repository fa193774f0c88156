/** What a system is for, by the words in its names. */
import { onceForEach } from '../collect.js';
import type { Service } from '../model.js';
import { rowsFor } from '../words/names.js';
import type { ServiceChange, ServiceRow, SystemOfDuct } from './types.js';

export interface ServiceFound {
  readonly service: Service;
  /** The name that shows it. */
  readonly name: string;
  /** null: the brief's own words show it. */
  readonly row: ServiceRow | null;
}

/** The brief's own words first, then the table; of several rows that fit any of the names the first. */
export function serviceOf(
  { system, systemNames }: Pick<SystemOfDuct, 'system' | 'systemNames'>,
  rows: readonly ServiceRow[],
  changes: readonly ServiceChange[],
): ServiceFound | undefined {
  const names = system === null ? systemNames : [system, ...systemNames];
  const isOff = (service: Service) => changes.some((one) => one.service === service && one.byWords === false);
  const own = names.flatMap((name) =>
    rowsFor(name, ownRows(changes)).map(({ service }) => ({ service, name, row: null })),
  );
  const fitting = names.flatMap((name) => rowsFor(name, rows).map((row) => ({ service: row.service, name, row })));
  const inOrder = fitting.sort((a, b) => rows.indexOf(a.row) - rows.indexOf(b.row));
  return [...own, ...inOrder].find(({ service }) => !isOff(service));
}

/** Kept, since the table is asked for every duct. */
const ownRows = onceForEach((changes: readonly ServiceChange[]) =>
  changes.map(({ service, words = [] }) => ({ service, words })),
);
