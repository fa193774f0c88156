/** What is mutated: parts of the demo building that pass under its brief, the cases, the whole demo building, real models. */
import { existsSync, readdirSync, readFileSync, statSync } from 'node:fs';
import { resolve } from 'node:path';
import { CASES, REPRESENTATION_CASES } from '../../fixtures/cases.js';
import { addBoatStore } from '../../fixtures/demo/boat-store.js';
import { Demo } from '../../fixtures/demo/demo.js';
import { addNetStore } from '../../fixtures/demo/net-store.js';
import { addRopeWalk } from '../../fixtures/demo/rope-walk.js';
import { addSmokery } from '../../fixtures/demo/smokery.js';
import { addWinchHouse } from '../../fixtures/demo/winch-house.js';
import { demoBuilding } from '../../fixtures/demo-building.js';
import { once } from '../../src/collect.js';

export interface Building {
  readonly name: string;
  readonly files: readonly { readonly name: string; readonly text: string }[];
  /** Judged under the demonstration brief and held to the oracle; else it is read, and crossings are found, no more. */
  readonly isJudged: boolean;
}

/** How often each kind is taken, out of a hundred. */
export interface Shares {
  readonly parts: number;
  readonly cases: number;
  readonly demo: number;
}

const part = (name: string, add: (demo: Demo) => void): Building => {
  const demo = new Demo({ fileName: 'architecture.ifc' }, { fileName: 'services.ifc' });
  add(demo);
  const files = [
    { name: 'architecture.ifc', text: demo.architecture.toString() },
    { name: 'services.ifc', text: demo.services.toString() },
  ];
  return { name, files, isJudged: true };
};

export const parts = once((): readonly Building[] => [
  part('net store', addNetStore),
  part('smokery', addSmokery),
  part('rope walk', addRopeWalk),
  part('winch house', addWinchHouse),
  part('boat store', addBoatStore),
]);

export const cases = once((): readonly Building[] =>
  [...CASES, ...REPRESENTATION_CASES].map(({ name, files }) => ({ name, files, isJudged: false })),
);

export const wholeDemo = once((): Building => ({ name: 'demo building', files: demoBuilding().files, isJudged: true }));

const MODELS = resolve('..', 'shared', 'models');
/** Larger ones take seconds each and hold nothing that these do not. */
const MOST_BYTES = 700_000;

/** Models made by others, where they lie beside the repository; none else. */
export const realModels = once((): readonly Building[] =>
  !existsSync(MODELS)
    ? []
    : readdirSync(MODELS)
        .filter((name) => name.endsWith('.ifc') && statSync(resolve(MODELS, name)).size < MOST_BYTES)
        .sort()
        .map((name) => ({
          name,
          files: [{ name, text: readFileSync(resolve(MODELS, name), 'latin1') }],
          isJudged: false,
        })),
);
