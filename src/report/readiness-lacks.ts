/** What is missing: in the elements, in the files together, and what could not be read. */
import { filesApart } from '../find/apart.js';
import { doorsOf } from '../find/doors.js';
import type { AirElement, Barrier, DoorFacts, Federation } from '../model.js';
import { brief, counted, number } from '../words/text.js';
import {
  ACCESS_QUESTIONS,
  AIR_QUESTIONS,
  BARRIER_QUESTIONS,
  CONTRADICTIONS,
  DAMPER_QUESTIONS,
  DOOR_QUESTIONS,
  FIRE_DAMPER_QUESTIONS,
  type Question,
  SEGMENT_QUESTIONS,
  SYSTEM_QUESTIONS,
} from './readiness-questions.js';
import type { Lack } from './readiness-schema.js';

/** Enough to find the kind of element in the authoring program; the whole list is in the models. */
const EXAMPLES = 3;

type Element = AirElement | Barrier | DoorFacts;

export function findLacks(federation: Federation): Lack[] {
  const { airElements, barriers, models } = federation;
  const segments = airElements.filter((e) => e.kind === 'segment' || e.kind === 'flexible');
  // IFC2X3 has no place for the type of a system, so there it is no lack.
  const withTypes = new Set(models.filter((m) => !m.schema.startsWith('IFC2X')).map((m) => m.id));
  const inTypedSystems = airElements.filter((e) => e.system !== undefined && withTypes.has(e.model));
  const dampers = airElements.filter((e) => e.kind === 'damper');
  const fireDampers = dampers.filter((e) => e.damper?.purpose === 'fire' || e.damper?.purpose === 'fireSmoke');
  return [
    ...nothingAtAll(federation),
    ...apartOrTwice(federation),
    ...contradictions(federation),
    ...ask(barriers, ['barrier', 'barriers'], BARRIER_QUESTIONS),
    ...ask(doorsOf(federation), ['door or window in a rated wall', 'doors and windows in rated walls'], DOOR_QUESTIONS),
    ...ask(segments, ['duct segment', 'duct segments'], SEGMENT_QUESTIONS),
    ...ask(airElements, ['piece of ductwork', 'pieces of ductwork'], AIR_QUESTIONS),
    ...ask(inTypedSystems, ['piece of ductwork in a system', 'pieces of ductwork in systems'], SYSTEM_QUESTIONS),
    ...ask(dampers, ['damper', 'dampers'], DAMPER_QUESTIONS),
    ...ask(fireDampers, ['fire damper', 'fire dampers'], FIRE_DAMPER_QUESTIONS),
    ...(airElements.some((e) => e.isAccessPanel)
      ? []
      : ask(fireDampers, ['fire damper', 'fire dampers'], ACCESS_QUESTIONS)),
    ...unread(models),
  ];
}

function ask<T extends Element>(
  elements: readonly T[],
  [one, many]: readonly [string, string],
  questions: readonly Question<T>[],
): Lack[] {
  return questions.flatMap(({ code, lacks: [has, have], mend, is }) => {
    const found = elements.filter(is);
    if (found.length === 0) return [];
    return {
      code,
      count: found.length,
      of: elements.length,
      what: `${found.length} of ${counted(elements.length, one, many)} ${found.length === 1 ? has : have}.`,
      mend,
      examples: found.slice(0, EXAMPLES).map(({ model, globalId, name }) => ({ model, globalId, name })),
    };
  });
}

/** A lack of the files as such, not of some of their elements. */
const onTheWhole = (code: string, what: string, mend: string): Lack => ({
  code,
  count: 0,
  of: 0,
  what,
  mend,
  examples: [],
});

function nothingAtAll({ airElements, barriers }: Federation): Lack[] {
  const lacks: Lack[] = [];
  if (airElements.length === 0) {
    lacks.push(
      onTheWhole(
        'no-ductwork',
        'No ductwork was found.',
        'Add the file with the ventilation; export ducts as IfcDuctSegment, IfcDuctFitting and IfcDamper (IFC2X3: flow elements with an IfcDuctSegmentType, IfcDuctFittingType or IfcDamperType).',
      ),
    );
  }
  if (barriers.length === 0) {
    lacks.push(
      onTheWhole(
        'no-barriers',
        'No walls, floors or roofs were found.',
        'Add the architectural file of the same building; export walls, slabs and roofs as IfcWall, IfcSlab and IfcRoof with a body.',
      ),
    );
  } else if (barriers.every((barrier) => barrier.openings.length === 0)) {
    lacks.push(
      onTheWhole(
        'no-openings',
        'No opening elements were found in any wall, floor or roof.',
        'Model the hole for each duct as IfcOpeningElement that voids its wall or slab through IfcRelVoidsElement; a hole that is part of the body has to be measured instead.',
      ),
    );
  }
  return lacks;
}

const metres = (mm: number): string => `${number(mm / 1000)} m`;

/** What only shows when the files are seen together. */
function apartOrTwice(federation: Federation): Lack[] {
  const { models } = federation;
  const nameOf = (id: string) => brief(models.find((m) => m.id === id)?.file ?? id, 60);
  const twice = models.filter((m, i) => models.findIndex((other) => other.sha256 === m.sha256) < i);
  return [
    ...filesApart(federation).map(({ model, from, distance, offset }) =>
      onTheWhole(
        'files-apart',
        `${nameOf(model)} lies ${metres(distance)} apart from the nearest other file, ${nameOf(from)}; from middle to middle ${metres(offset[0])} along x, ${metres(offset[1])} along y, ${metres(offset[2])} along z.`,
        'Export all files from the same origin, or each with its right IfcMapConversion; leave out files of other buildings.',
      ),
    ),
    ...twice.map((m) =>
      onTheWhole(
        'file-twice',
        `${brief(m.file, 60)} (${m.id}) has the same content as a file before it.`,
        'Give each file once.',
      ),
    ),
  ];
}

/** Faults that reading the files together found: a lack only in that somebody has to mend them. */
function contradictions({ models, airElements, barriers }: Federation): Lack[] {
  return CONTRADICTIONS.flatMap(({ code, lacks: [has, have], noun, mend }) => {
    const found = models.flatMap(({ id, problems }) =>
      problems.filter((p) => p.code === code).map(({ globalId }) => ({ model: id, globalId })),
    );
    if (found.length === 0) return [];
    const nameOf = (globalId: string) => [...airElements, ...barriers].find((e) => e.globalId === globalId)?.name ?? '';
    return {
      code,
      count: found.length,
      of: found.length,
      what: `${counted(found.length, noun)} ${found.length === 1 ? has : have}.`,
      mend,
      examples: found
        .flatMap(({ model, globalId }) => (globalId === null ? [] : [{ model, globalId, name: nameOf(globalId) }]))
        .slice(0, EXAMPLES),
    };
  });
}

function unread(models: Federation['models']): Lack[] {
  const skipped = models.reduce((sum, m) => sum + m.counts.skipped, 0);
  const unclassified = models.reduce((sum, m) => sum + m.counts.unclassified, 0);
  const read = models.reduce((sum, { counts: c }) => {
    return sum + c.ducts + c.fittings + c.dampers + c.silencers + c.terminals + c.barriers;
  }, 0);
  const lacks: Lack[] = [];
  if (skipped > 0) {
    lacks.push({
      code: 'not-read',
      count: skipped,
      of: read + skipped,
      what: `${skipped} of ${counted(read + skipped, 'piece of ductwork or barrier', 'pieces of ductwork and barriers')} could not be read, so will not be checked.`,
      mend: 'See the reasons under each model; export the element again with a Body representation of solids or closed faces.',
      examples: [],
    });
  }
  if (unclassified > 0) {
    lacks.push({
      code: 'not-classified',
      count: unclassified,
      of: unclassified,
      what: `${counted(unclassified, 'flow element')} may or may not be ductwork, so will not be checked.`,
      mend: 'Export ducts as IfcDuctSegment, IfcDuctFitting or IfcDamper, or give the flow element a type of that trade (IfcDuctSegmentType, IfcDuctFittingType, IfcDamperType).',
      examples: [],
    });
  }
  return lacks;
}
