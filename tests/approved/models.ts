/** Models that together hold most of what is found and judged: buildings, cases in closed form, ducts as chance has it. */

import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { CASES, REPRESENTATION_CASES } from '../../fixtures/cases.js';
import { demoBuilding } from '../../fixtures/demo-building.js';
import { tower } from '../../fixtures/tower.js';
import { findPenetrations } from '../../src/find/find-penetrations.js';
import type { Crossings, Federation } from '../../src/model.js';
import { readFederation } from '../../src/read/read-federation.js';
import { constructionRows, largestSeparation, loadBrief, type ProjectBrief } from '../../src/rules/index.js';
import { drawPairs } from '../find/draw-pairs.js';
import { anyFile, anyPair } from '../find/pairs.js';
import { demoBrief, rules } from '../shipped-rules.js';

export interface ApprovedModel {
  readonly name: string;
  readonly files: () => readonly { readonly name: string; readonly text: string }[];
  readonly brief: ProjectBrief;
  /** More than a case of one thing. */
  readonly building: boolean;
}

const SEED = 20261127;
const DRAWN = 8;
const PAIRS = 12;
const STOREYS = 4;

const TOWER_BRIEF = 'fixtures/tower/brief.yaml';
const towerBrief = loadBrief({ file: TOWER_BRIEF, text: readFileSync(TOWER_BRIEF, 'utf8') }, rules);

function drawn(i: number): ApprovedModel {
  const name = `drawn ${i}`;
  const files = () => {
    const [frame] = fc.sample(anyFile, { seed: SEED + i, numRuns: 1 });
    const { bytes } = drawPairs(fc.sample(anyPair, { seed: SEED + i, numRuns: PAIRS }), frame!);
    return [{ name: 'pairs.ifc', text: new TextDecoder().decode(bytes) }];
  };
  return { name, files, brief: demoBrief, building: false };
}

export const MODELS: readonly ApprovedModel[] = [
  { name: 'demo', files: () => demoBuilding().files, brief: demoBrief, building: true },
  {
    name: 'tower',
    files: () => [{ name: 'tower.ifc', text: tower({ storeys: STOREYS }) }],
    brief: towerBrief,
    building: true,
  },
  ...[...CASES, ...REPRESENTATION_CASES].map(({ name, files }) => ({
    name,
    files: () => files,
    brief: demoBrief,
    building: false,
  })),
  ...Array.from({ length: DRAWN }, (_, i) => drawn(i)),
];

export const read = ({ files, brief }: ApprovedModel): Promise<Federation> =>
  readFederation(
    files().map(({ name, text }) => ({ name, bytes: new TextEncoder().encode(text) })),
    { facts: brief.facts, constructions: constructionRows(rules) },
  );

export const find = (federation: Federation, { brief }: ApprovedModel): Crossings =>
  findPenetrations(federation, { separation: largestSeparation(rules), facts: brief.facts });
