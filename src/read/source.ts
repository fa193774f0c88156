/** One opened file with everything that reading its elements needs. */
import { once } from '../collect.js';
import { type ParsedRating, parseRating, type RatingContext } from '../fire-rating/index.js';
import type { Body, ConstructionWords, Problem, ProjectFacts, Storey } from '../model.js';
import { readBodies } from './body.js';
import { InputError } from './container.js';
import type { CurveContext } from './curves.js';
import { type ReadLayers, readMaterial } from './materials.js';
import { BrokenPlacement, Placements } from './placement.js';
import { Properties } from './properties.js';
import { type Relations, readRelations } from './relations.js';
import { type DrawingLayer, readDrawingLayers, readMaterialRatings } from './scans.js';
import type { Line, StepFile } from './step-file.js';
import type { Stoppers } from './stoppers.js';
import { readUnits, type Units } from './units.js';
import { UnreadableGeometry } from './unreadable.js';
import { num, ref, text } from './value.js';

/** What many elements share is worked out for the first of them, by its key. */
function forEach<K, T>(make: (key: K) => T): (key: K) => T {
  const made = new Map<K, T>();
  return (key) => {
    let known = made.get(key);
    if (known === undefined) {
      known = make(key);
      made.set(key, known);
    }
    return known;
  };
}

export interface Source extends CurveContext {
  readonly units: Units;
  readonly relations: Relations;
  readonly properties: Properties;
  readonly problems: Problem[];
  /** Material → the fire rating that its own properties state. */
  readonly materialRatings: () => ReadonlyMap<number, string>;
  readonly drawingLayers: () => readonly DrawingLayer[];
  /** Layers of a material, of any kind that IFC has. */
  readonly layers: (material: number) => ReadLayers;
  readonly storey: (id: number) => Storey | undefined;
  /** What a text says of a rating. */
  readonly rating: (text: string | undefined, context: RatingContext) => ParsedRating;
  /** What the project's brief says of where its models keep their facts. */
  readonly facts: ProjectFacts | undefined;
  /** What words say about constructions: the brief's own first, then the tables'. */
  readonly constructions: readonly ConstructionWords[];
  /** Elements that stop their reader. */
  readonly stoppers: Stoppers;
  /** To be told which element's body is read, and 0 when it is. */
  readonly onElement: (id: number) => void;
}

/** What reading goes by beside the file itself: plain data, so that it can be sent to a worker. */
export interface Guidance {
  /** From the project's brief. */
  readonly facts?: ProjectFacts | undefined;
  /** Rows of the construction tables; without any, only the brief's own words tell what a barrier is built of. */
  readonly constructions?: readonly ConstructionWords[] | undefined;
}

export interface SourceOptions extends Guidance {
  readonly stoppers?: Stoppers;
  readonly onElement?: (id: number) => void;
}

/** @throws InputError when the file's units make no sense: nothing could be measured then. */
export function openSource(file: StepFile, options: SourceOptions = {}): Source {
  const { facts, constructions = [], stoppers = new Map<number, string>(), onElement = () => {} } = options;
  const units = readUnits(file);
  if (!(units.length > 0))
    throw new InputError(
      `can not be measured: its length unit ${units.lengthName} can not be read; set a length unit and export it again`,
    );
  const mm = units.length;
  const relations = readRelations(file);
  const placements = new Placements(file, mm);
  return {
    file,
    units,
    mm,
    angle: units.angle > 0 ? units.angle : 1,
    placements,
    profiles: new Map(),
    relations,
    properties: new Properties(file, relations, mm),
    problems: [],
    materialRatings: once(() => readMaterialRatings(file)),
    drawingLayers: once(() => readDrawingLayers(file)),
    layers: forEach((id) => readMaterial(file, mm, id)),
    storey: forEach((id) => readStorey(file.line(id), placements, mm)),
    rating: eachTextOnce(),
    facts,
    constructions: [...(facts?.constructions ?? []), ...constructions],
    stoppers,
    onElement,
  };
}

function eachTextOnce(): Source['rating'] {
  const inContext = forEach((context: string) => {
    const { text, ...rest } = JSON.parse(context) as RatingContext & { readonly text?: string };
    return parseRating(text, rest);
  });
  return (text, context) => inContext(JSON.stringify({ ...context, text }));
}

/** What every element has, in the file's own coordinates. */
export interface ReadElement {
  readonly globalId: string;
  readonly name: string;
  readonly entity: string;
  readonly storey: Storey | undefined;
}

export function readElement(source: Source, id: number, line: Line): ReadElement {
  return {
    globalId: text(line.GlobalId) ?? '',
    name: text(line.Name) ?? '',
    entity: source.file.entity(id),
    storey: storeyOf(source, id),
  };
}

/** The bodies of a product, or undefined with a problem noted where they can't be used. */
export function tryBodies(source: Source, line: Line, what: string): Body[] | undefined {
  const { expressID: id } = line;
  try {
    const stopper = source.stoppers.get(id);
    if (stopper !== undefined) throw new UnreadableGeometry(`it stopped its reader (${stopper})`);
    source.onElement(id);
    const bodies = readBodies(source, line);
    source.onElement(0);
    return bodies;
  } catch (error) {
    // A broken placement or item makes this element unreadable, not the file; anything else must surface.
    if (!(error instanceof UnreadableGeometry) && !(error instanceof BrokenPlacement)) throw error;
    source.onElement(0);
    const code = error instanceof UnreadableGeometry ? error.code : 'unreadable-geometry';
    noteProblem(source, line, code, `was not read: ${error.message}.`, what);
    return undefined;
  }
}

export const noteNoBody = (source: Source, line: Line, what: string): void =>
  noteProblem(source, line, 'no-body', 'was not read: it has no Body representation.', what);

/** @param says goes on after what the element is and its name */
export function noteProblem(source: Source, line: Line, code: string, says: string, what: string): void {
  const label = text(line.Name) ? `"${text(line.Name)}"` : `#${line.expressID}`;
  source.problems.push({ code, globalId: text(line.GlobalId) ?? null, message: `${what} ${label} ${says}` });
}

/** The storey that holds the element, directly or through the wholes and spaces it is part of. */
function storeyOf({ file, relations, storey }: Source, id: number): Storey | undefined {
  let at: number | undefined = id;
  for (let step = 0; at !== undefined && step < 20; step++) {
    if (file.entity(at) === 'IFCBUILDINGSTOREY') return storey(at);
    at = relations.containerOf.get(at) ?? relations.wholeOf.get(at);
  }
  return undefined;
}

function readStorey(line: Line | undefined, placements: Placements, mm: number): Storey | undefined {
  const elevation = num(line?.Elevation);
  const height =
    elevation === undefined ? placements.objectIfWhole(ref(line?.ObjectPlacement))?.origin[2] : elevation * mm;
  if (height === undefined) return undefined;
  return {
    globalId: text(line?.GlobalId) ?? '',
    name: text(line?.LongName) && !text(line?.Name) ? text(line?.LongName)! : (text(line?.Name) ?? ''),
    elevation: height,
  };
}
