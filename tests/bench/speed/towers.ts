/** The generated towers, in a folder of their own under the temporary one: written once for each version of the generator. */
import { createHash } from 'node:crypto';
import { closeSync, existsSync, mkdirSync, openSync, renameSync, writeSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { PLATES } from '../../../fixtures/tower/plate.js';
import { type TowerSpec, tower, towerParts } from '../../../fixtures/tower.js';
import { once } from '../../../src/collect.js';

/** What tells generators apart: one storey of each kind, and one with all its furniture. */
const version = once(() => {
  const hash = createHash('sha256');
  for (const part of towerParts({ storeys: PLATES.length })) hash.update(part);
  return hash
    .update(tower({ storeys: 1, furnished: true }))
    .digest('hex')
    .slice(0, 16);
});

/** Path of the file. */
export function towerFile(spec: TowerSpec): string {
  const folder = join(tmpdir(), 'ratedrun-towers', version());
  const path = join(folder, `tower-${spec.storeys}${spec.furnished ? '-furnished' : ''}.ifc`);
  if (existsSync(path)) return path;
  mkdirSync(folder, { recursive: true });
  const begun = `${path}.${process.pid}`;
  const file = openSync(begun, 'w');
  for (const part of towerParts(spec)) writeSync(file, part);
  closeSync(file);
  renameSync(begun, path);
  return path;
}
