/** One file: bytes in, everything this program needs of it out, as plain data in the file's own coordinates. */
import type { Affine } from '../geometry/frame.js';
import type {
  AccessCover,
  AirElement,
  Barrier,
  Column,
  Grid,
  ModelCounts,
  Obstacle,
  OtherService,
  Problem,
  Space,
  Support,
  Zone,
} from '../model.js';
import { readAccessCovers } from './access-panels.js';
import { readServices } from './air-elements.js';
import { readBarriers } from './barriers.js';
import { readColumns } from './columns.js';
import { InputError, type StepBytes } from './container.js';
import { distinctOpenings } from './distinct-openings.js';
import { type MapConversion, readMapConversion, readWorldCoordinateSystem } from './georeference.js';
import { readObstacles } from './obstacles.js';
import { BrokenPlacement } from './placement.js';
import { readGrids, readSpaces } from './places.js';
import { type Guidance, openSource, type SourceOptions } from './source.js';
import { StepFile } from './step-file.js';
import { isOfMachine, ReaderStopped, type Stoppers } from './stoppers.js';
import { readSupports } from './supports.js';
import { text } from './value.js';
import { readZones } from './zones.js';

export interface FileModel {
  readonly schema: string;
  readonly lengthUnit: string;
  readonly projectGlobalId: string | null;
  readonly application: string | null;
  readonly writtenAt: string | null;
  readonly worldCoordinateSystem: Affine;
  readonly mapConversion: MapConversion | undefined;
  readonly counts: ModelCounts;
  readonly problems: readonly Problem[];
  readonly airElements: readonly AirElement[];
  readonly otherServices: readonly OtherService[];
  readonly barriers: readonly Barrier[];
  readonly columns: readonly Column[];
  readonly obstacles: readonly Obstacle[];
  readonly supports: readonly Support[];
  readonly grids: readonly Grid[];
  readonly spaces: readonly Space[];
  readonly zones: readonly Zone[];
  readonly accessCovers: readonly AccessCover[];
}

export interface ReadFileOptions extends Guidance {
  /** Where web-ifc's wasm file is, as a path or URL; beside its script when left out. */
  readonly wasm?: string;
  /** Elements whose bodies are not to be read; left out: none. */
  readonly stoppers?: Stoppers;
  /** Told of every element before its body is read, by its express id, and of 0 after it. */
  readonly onElement?: (id: number) => void;
}

/**
 * @param modelId that the federation gives this file, e.g. `m1`
 * @throws InputError when the file as a whole can't be read; ReaderStopped when an element, or the file, breaks web-ifc
 */
export async function readFile(step: StepBytes, modelId: string, options: ReadFileOptions = {}): Promise<FileModel> {
  const file = await openStep(step, options.wasm);
  let at = 0;
  const onElement = (id: number): void => {
    at = id;
    options.onElement?.(id);
  };
  try {
    const model = readOpened(file, step, modelId, { ...options, onElement });
    file.close();
    return model;
  } catch (error) {
    if (isOfMachine(error)) throw new ReaderStopped(error.message, at);
    file.close();
    throw error;
  }
}

function readOpened(file: StepFile, step: StepBytes, model: string, options: SourceOptions): FileModel {
  const source = openSource(file, options);
  const project = file.line(file.ids('IFCPROJECT')[0] ?? 0);
  if (!project) throw new InputError('has no IfcProject; export the whole model');
  const application = file.line(file.ids('IFCAPPLICATION')[0] ?? 0);
  const { barriers, skipped: skippedBarriers, ofBarriers, taken } = readBarriers(source, model);
  const { air, others, skipped, unclassified, airIds, serviceIds } = readServices(source, model);
  const kinds = air.map((element) => element.kind);
  const count = (...counted: AirElement['kind'][]) => kinds.filter((kind) => counted.includes(kind)).length;
  return {
    schema: step.schema,
    lengthUnit: source.units.lengthName,
    projectGlobalId: text(project.GlobalId) ?? null,
    application: text(application?.ApplicationFullName) ?? null,
    writtenAt: step.writtenAt,
    worldCoordinateSystem: placedOrRefused(() => readWorldCoordinateSystem(source)),
    mapConversion: readMapConversion(source),
    counts: {
      ducts: count('segment', 'flexible'),
      fittings: count('fitting'),
      dampers: count('damper'),
      silencers: count('silencer'),
      terminals: count('terminal'),
      barriers: barriers.length,
      barriersOfParts: ofBarriers,
      openings: distinctOpenings(barriers).length,
      otherServices: others.length,
      skipped: skipped + skippedBarriers,
      unclassified,
    },
    problems: source.problems,
    airElements: air,
    otherServices: others,
    barriers,
    columns: readColumns(source, model),
    obstacles: readObstacles(source, model, { barriers: taken, ductwork: airIds, services: serviceIds }),
    supports: readSupports(source, model),
    grids: readGrids(source, model),
    spaces: readSpaces(source, model),
    zones: readZones(source, model),
    accessCovers: readAccessCovers(source, model),
  };
}

/** A file whose own origin can't be followed can't be laid over any other. */
function placedOrRefused<T>(read: () => T): T {
  try {
    return read();
  } catch (error) {
    if (!(error instanceof BrokenPlacement)) throw error;
    throw new InputError(`can not be placed: ${error.message}; mend its world coordinate system and export it again`);
  }
}

async function openStep(step: StepBytes, wasm?: string): Promise<StepFile> {
  try {
    return await StepFile.open(step, wasm);
  } catch (error) {
    if (isOfMachine(error)) throw new ReaderStopped(error.message, 0);
    throw new InputError(
      `can not be opened: ${error instanceof Error ? error.message : String(error)}; export it again`,
    );
  }
}
