/** What models hold and lack for this job, counted from the federation alone: no rules are applied. */
import { compareTexts } from '../collect.js';
import type { AirElement, Barrier, Federation, ModelInfo, OtherService, Rating, Storey } from '../model.js';
import { AIR_ELEMENT_KINDS, CONSTRUCTIONS } from '../model.js';
import { distinctOpenings } from '../read/distinct-openings.js';
import { findLacks } from './readiness-lacks.js';
import { namesMaterial } from './readiness-questions.js';
import type { Holdings, Readiness } from './readiness-schema.js';
import { readingWords } from './words.js';

export { type Readiness, readinessSchema } from './readiness-schema.js';
export { writeReadiness } from './write-readiness.js';

export function buildReadiness(federation: Federation): Readiness {
  return {
    format: 'ratedrun-readiness',
    version: 1,
    frame: federation.frame,
    models: federation.models.map((model) => ({
      id: model.id,
      file: model.file,
      schema: model.schema,
      lengthUnit: model.lengthUnit,
      application: model.application,
      sha256: model.sha256,
      skipped: model.counts.skipped,
      unclassified: model.counts.unclassified,
      problems: problemsByCode(model),
      holds: holdings(partOf(federation, model.id)),
    })),
    together: holdings(federation),
    lacks: findLacks(federation),
  };
}

type Parts = Pick<Federation, 'airElements' | 'barriers' | 'otherServices'>;

function partOf({ airElements, barriers, otherServices }: Federation, model: string): Parts {
  const own = <T extends { readonly model: string }>(list: readonly T[]) => list.filter((e) => e.model === model);
  return { airElements: own(airElements), barriers: own(barriers), otherServices: own(otherServices) };
}

function problemsByCode({ problems }: ModelInfo): Readiness['models'][number]['problems'] {
  return [...groupBy(problems, (p) => p.code)].map(([code, [first, ...others]]) => ({
    code,
    count: 1 + others.length,
    first: { globalId: first.globalId, message: first.message },
  }));
}

function holdings({ airElements, barriers, otherServices }: Parts): Holdings {
  const openings = distinctOpenings(barriers);
  return {
    air: airHoldings(airElements),
    dampers: damperHoldings(airElements),
    barriers: barrierHoldings(barriers),
    openings: {
      total: openings.length,
      filled: countOf(openings, (o) => o.filledBy.length > 0),
      hosts: countOf(barriers, (b) => b.openings.length > 0),
    },
    otherServices: {
      total: otherServices.length,
      byKind: tally(['pipe', 'cable', 'other'], otherServices, (s: OtherService) => s.kind),
    },
    storeys: storeysOf([...airElements, ...barriers]),
  };
}

function airHoldings(elements: readonly AirElement[]): Holdings['air'] {
  const segments = elements.filter((e) => e.kind === 'segment' || e.kind === 'flexible');
  const ports = elements.flatMap((e) => e.ports);
  return {
    total: elements.length,
    byKind: tally(AIR_ELEMENT_KINDS, elements, (e) => e.kind),
    sections: { profile: countOf(segments, hasProfile), mesh: countOf(segments, (e) => !hasProfile(e)) },
    withSystem: countOf(elements, (e) => e.system !== undefined),
    systems: systemsOf(elements),
    withPorts: countOf(elements, (e) => e.ports.length > 0),
    ports: { total: ports.length, connected: countOf(ports, (p) => p.connectedTo !== undefined) },
    materialKnown: countOf(elements, (e) => e.material !== 'unknown'),
    sizeStated: countOf(segments, (e) => Object.keys(e.stated).length > 0),
    withoutStorey: countOf(elements, (e) => e.storey === undefined),
  };
}

const hasProfile = ({ bodies }: AirElement): boolean => bodies.some((body) => body.kind === 'prism');

function systemsOf(elements: readonly AirElement[]): Holdings['air']['systems'] {
  const named = elements.filter((e) => e.system !== undefined);
  return [...groupBy(named, (e) => JSON.stringify([e.system, e.systemType ?? null]))]
    .map(([, group]) => ({
      name: group[0].system ?? '',
      type: group[0].systemType ?? null,
      elements: group.length,
    }))
    .sort((a, b) => b.elements - a.elements || compareTexts(a.name, b.name));
}

function damperHoldings(elements: readonly AirElement[]): Holdings['dampers'] {
  const dampers = elements.map((e) => e.damper).filter((damper) => damper !== undefined);
  const holdFire = dampers.filter(({ purpose }) => purpose === 'fire' || purpose === 'fireSmoke');
  return {
    total: dampers.length,
    byPurpose: tally(['fire', 'fireSmoke', 'smoke', 'control', 'unknown'], dampers, (d) => d.purpose),
    ratings: ratingsOf(holdFire.map((d) => d.rating)),
  };
}

function barrierHoldings(barriers: readonly Barrier[]): Holdings['barriers'] {
  return {
    total: barriers.length,
    byKind: tally(['wall', 'floor', 'roof'], barriers, (b) => b.kind),
    byRatingState: tally(
      ['stated', 'durationOnly', 'notRequired', 'unstated', 'unreadable'],
      barriers,
      (b) => b.rating.state,
    ),
    ratings: ratingsOf(barriers.map((b) => b.rating)),
    byConstruction: tally(CONSTRUCTIONS, barriers, (b) => b.construction),
    withLayers: countOf(barriers, (b) => namesMaterial(b.layers)),
    withThicknesses: countOf(
      barriers,
      (b) => namesMaterial(b.layers) && b.layers.every(({ thickness }) => thickness !== undefined),
    ),
    withoutStorey: countOf(barriers, (b) => b.storey === undefined),
  };
}

/** Each distinct text once, with how it was read: the same text may be read differently where something else is known. */
function ratingsOf(ratings: readonly Rating[]): Holdings['barriers']['ratings'] {
  return [...groupBy(ratings, (r) => JSON.stringify([r.text, r.state, r.from, readingWords(r)]))]
    .map(([, [first, ...others]]) => ({
      text: first.text,
      state: first.state,
      from: first.from,
      read: readingWords(first),
      elements: 1 + others.length,
    }))
    .sort(
      (a, b) => b.elements - a.elements || compareTexts(a.text ?? '', b.text ?? '') || compareTexts(a.read, b.read),
    );
}

function storeysOf(elements: readonly { readonly model: string; readonly storey: Storey | undefined }[]) {
  const storeys = elements.flatMap(({ model, storey }) => (storey ? [{ model, storey }] : []));
  return [...groupBy(storeys, ({ storey }) => JSON.stringify([storey.name, storey.elevation]))]
    .map(([, [{ storey }]]) => ({ name: storey.name, elevation: storey.elevation }))
    .sort((a, b) => a.elevation - b.elevation || compareTexts(a.name, b.name));
}

// ----------------------------------------------------------------------------------------------------------- counting

const countOf = <T>(list: readonly T[], is: (item: T) => boolean): number => list.filter(is).length;

function groupBy<T>(list: readonly T[], keyOf: (item: T) => string): Map<string, [T, ...T[]]> {
  const groups = new Map<string, [T, ...T[]]>();
  for (const item of list) {
    const group = groups.get(keyOf(item));
    if (group) group.push(item);
    else groups.set(keyOf(item), [item]);
  }
  return groups;
}

function tally<K extends string, T>(keys: readonly K[], list: readonly T[], keyOf: (item: T) => K): Record<K, number> {
  const counts = Object.fromEntries(keys.map((key) => [key, 0])) as Record<K, number>;
  for (const item of list) counts[keyOf(item)]++;
  return counts;
}
