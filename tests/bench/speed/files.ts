/** What is timed: the demo, models of others where they are, towers. */
import { existsSync, readdirSync, statSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { ModelBuilder } from '../../../fixtures/model-builder.js';
import { writeDemo } from '../../../fixtures/write-demo.js';
import { packageRoot } from '../../../src/platform/package-root.js';
import { towerFile } from './towers.js';

export type Kind = 'demo' | 'real' | 'generated';

export interface BenchFile {
  readonly name: string;
  readonly kind: Kind;
  /** Of a tower. */
  readonly storeys?: number;
  /** Written or found when it is its turn. */
  readonly paths: () => readonly string[];
  readonly brief?: string;
}

const MODELS = resolve(packageRoot, '..', 'shared', 'models');
const brief = (folder: string): string => join(packageRoot, 'fixtures', folder, 'brief.yaml');
/** Storeys of 2.8 MB with all their furniture: 500 MB. */
const LARGE = 180;

const towerOf = (storeys: number): BenchFile => ({
  ...{ name: `tower-${storeys}`, kind: 'generated', storeys, brief: brief('tower') },
  paths: () => [towerFile({ storeys })],
});

/** @param folder for what is written anew @param say what is left out */
export function benchFiles(folder: string, say: (line: string) => void): BenchFile[] {
  if (!existsSync(MODELS)) say('Models of others are left out: ../shared/models is not there.');
  const real = existsSync(MODELS) ? readdirSync(MODELS).filter((name) => name.endsWith('.ifc')) : [];
  return [
    { name: 'demo', kind: 'demo', paths: () => writeDemo(join(folder, 'demo')), brief: brief('demo') },
    ...real.sort().map((name): BenchFile => ({ name, kind: 'real', paths: () => [join(MODELS, name)] })),
    ...[4, 16, 32, 128, 256].map(towerOf),
  ];
}

export const largeFile: BenchFile = {
  ...{ name: `tower-${LARGE}-furnished`, kind: 'generated', brief: brief('tower') },
  paths: () => [towerFile({ storeys: LARGE, furnished: true })],
};

export function emptyFile(folder: string): string {
  const path = join(folder, 'empty.ifc');
  writeFileSync(path, new ModelBuilder({ fileName: 'empty.ifc' }).toString());
  return path;
}

export const megabytes = (paths: readonly string[]): number =>
  paths.reduce((sum, path) => sum + statSync(path).size, 0) / 1e6;
