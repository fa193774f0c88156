/**
 * The only place that touches web-ifc: its tables of the schemas, its decoding of text, and its tessellation. Where
 * instances stand and what they say is read here from the bytes themselves, since each line that crosses from web-ifc's
 * memory costs several times as much; web-ifc opens a file only where an item has to be drawn.
 */
import * as WebIFC from 'web-ifc';
import type { Mesh } from '../model.js';
import { InputError, type StepBytes } from './container.js';
import { Part21 } from './part21.js';
import type { Value } from './part21-values.js';
import { measureName } from './value.js';

/** One instance of the STEP file with its attributes by name; their values go through `value.ts`. */
export interface Line {
  readonly expressID: number;
  /** Of its attributes, in the order of the file. */
  readonly values: readonly Value[];
  readonly [attribute: string]: unknown;
}

/** A mesh as web-ifc gives it: in the item's own coordinates, file units. */
export type RawMesh = Omit<Mesh, 'kind'>;

const TAPE_SIZE = 4 << 20;
/** Fine enough that a 2 m duct whose profile we can't read ourselves is short by 0.3 mm, and no slower. */
const CIRCLE_SEGMENTS = 128;
const Z_UP = [1, 0, 0, 0, 0, 0, 1, 0, 0, -1, 0, 0, 0, 0, 0, 1];
/** Lines that were read last are kept, by the last bits of their ids: types, materials and property sets are asked for often. */
const KEPT_LINES = 2048;

export class StepFile {
  private readonly kept = new Array<Line | undefined>(KEPT_LINES);
  private readonly entities: Entities;
  private readonly part21: Part21;
  private drawing: number | Error | undefined;

  private constructor(
    private readonly api: WebIFC.IfcAPI,
    private readonly step: StepBytes,
  ) {
    this.entities = entitiesOf(step.schema);
    this.part21 = new Part21(step.bytes, (written) => api.DecodeText(written) as string);
  }

  /**
   * @param wasm where web-ifc's wasm file is; beside its script when left out
   * @throws Error when the bytes can't be followed to their end
   */
  static async open(step: StepBytes, wasm?: string): Promise<StepFile> {
    const api = new WebIFC.IfcAPI();
    await api.Init(wasm === undefined ? undefined : () => wasm, true);
    api.SetLogLevel(WebIFC.LogLevel.LOG_LEVEL_OFF);
    return new StepFile(api, step);
  }

  close(): void {
    if (typeof this.drawing === 'number') this.api.CloseModel(this.drawing);
  }

  /** The instance, or undefined where it is missing or of an entity that the schema does not know. */
  line(id: number): Line | undefined {
    const slot = id & (KEPT_LINES - 1);
    const known = this.kept[slot];
    if (known?.expressID === id) return known;
    const keyword = this.part21.keyword(id);
    const make = keyword === '' ? undefined : this.entities.lineOf(keyword);
    if (!make) return undefined;
    const line = make(id, this.part21.arguments(id)!);
    this.kept[slot] = line;
    return line;
  }

  /** Ids of all instances of an entity, e.g. `IFCWALL`; with `subtypes` of every entity below it too. */
  ids(entity: EntityName, subtypes = false): readonly number[] {
    if (!subtypes) return this.part21.instances(entity);
    return [entity, ...this.entities.below(entity)].flatMap((one) => this.part21.instances(one));
  }

  /** Upper-case entity name of an instance, `''` when there is none. */
  entity(id: number): string {
    return this.part21.keyword(id);
  }

  /** Triangles of one representation item, or of a whole shape representation (booleans applied, openings not). */
  mesh(id: number): RawMesh {
    const model = this.drawn();
    const flat = this.api.GetFlatMesh(model, id, false);
    const positions: number[] = [];
    const triangles: number[] = [];
    for (let g = 0; g < flat.geometries.size(); g++) {
      const placed = flat.geometries.get(g);
      const geometry = this.api.GetGeometry(model, placed.geometryExpressID);
      const vertices = this.api.GetVertexArray(geometry.GetVertexData(), geometry.GetVertexDataSize());
      const indices = this.api.GetIndexArray(geometry.GetIndexData(), geometry.GetIndexDataSize());
      const m = placed.flatTransformation;
      const first = positions.length / 3;
      for (let i = 0; i < vertices.length; i += 6) {
        const [x, y, z] = [vertices[i]!, vertices[i + 1]!, vertices[i + 2]!];
        for (let r = 0; r < 3; r++) positions.push(m[r]! * x + m[4 + r]! * y + m[8 + r]! * z + m[12 + r]!);
      }
      for (const index of indices) triangles.push(first + index);
      geometry.delete();
    }
    // The types leave it out, but without it the vector stays in web-ifc's heap.
    (flat.geometries as unknown as { delete(): void }).delete();
    return { positions: Float64Array.from(positions), triangles: Uint32Array.from(triangles) };
  }

  /** The file in web-ifc. @throws Error when web-ifc can't open it */
  private drawn(): number {
    this.drawing ??= this.opened();
    if (typeof this.drawing !== 'number') throw this.drawing;
    return this.drawing;
  }

  private opened(): number | Error {
    try {
      const model = this.api.OpenModel(this.step.bytes, { TAPE_SIZE, CIRCLE_SEGMENTS, COORDINATE_TO_ORIGIN: false });
      if (model < 0) return new Error('its data can not be parsed');
      this.api.SetGeometryTransformation(model, Z_UP);
      return model;
    } catch (error) {
      return error instanceof Error ? error : new Error(String(error));
    }
  }
}

/** Whether a segment of an IfcIndexedPolyCurve is an arc through three points; a line index may have three points too. */
export const isArcIndex = (x: unknown): boolean => measureName(x) === 'IFCARCINDEX';

/** Entity names that web-ifc exports as type codes. */
export type EntityName = {
  [K in keyof typeof WebIFC]: K extends `IFC${string}` ? ((typeof WebIFC)[K] extends number ? K : never) : never;
}[keyof typeof WebIFC];

type LineMaker = (id: number, values: readonly Value[]) => Line;

/** What a schema says of its entities, from web-ifc's tables; each is looked up once. */
class Entities {
  private readonly makers = new Map<string, LineMaker | undefined>();
  private readonly subtypes: Readonly<Record<number, readonly number[]>>;
  private readonly writers: Readonly<Record<number, (line: unknown) => readonly unknown[]>>;

  constructor(schema: number) {
    this.subtypes = WebIFC.InheritanceDef[schema];
    this.writers = WebIFC.ToRawLineData[schema];
  }

  /** Entities at any depth below one. */
  below(entity: EntityName): string[] {
    // biome-ignore lint/performance/noDynamicNamespaceImportAccess: entity codes are looked up by name, and all are kept.
    return (this.subtypes[WebIFC[entity]] ?? []).flatMap((code) => namesByCode().get(code) ?? []);
  }

  lineOf(keyword: string): LineMaker | undefined {
    if (!this.makers.has(keyword)) {
      const attributes = this.attributesOf(keyword);
      this.makers.set(keyword, attributes && lineMaker(attributes));
    }
    return this.makers.get(keyword);
  }

  /**
   * In the order of the file; undefined where an attribute is derived. web-ifc's writer of an entity takes an object with
   * attributes by name and lists them: of one whose every attribute is its own name, it lists the names.
   */
  private attributesOf(keyword: string): readonly (string | undefined)[] | undefined {
    const code = (WebIFC as unknown as Readonly<Record<string, unknown>>)[keyword];
    const write = typeof code === 'number' ? this.writers[code] : undefined;
    const named = new Proxy({}, { get: (_, name) => nameItself(String(name)) });
    return write?.(named).map((item) => (item as { value?: string } | undefined)?.value);
  }
}

/** Writers hand references on, map lists, and wrap the values of the rest. */
const nameItself = (name: string): object => {
  const own = Object.assign(new WebIFC.Handle(0), { value: name, map: () => own });
  return own;
};

/** Lines of one entity share their getters, so that an attribute costs nothing until it is asked for. */
function lineMaker(attributes: readonly (string | undefined)[]): LineMaker {
  const getters: PropertyDescriptorMap = {};
  for (const [i, name] of attributes.entries())
    if (name !== undefined)
      getters[name] = {
        get(this: Line): Value {
          return i < this.values.length ? this.values[i] : null;
        },
      };
  const prototype = Object.create(null, getters) as object;
  return (expressID, values) => {
    const line = Object.create(prototype) as { expressID: number; values: readonly Value[] };
    line.expressID = expressID;
    line.values = values;
    return line as unknown as Line;
  };
}

const entities = new Map<number, Entities>();

/** @param schema as the header has it; corrections and trial releases go by their base */
function entitiesOf(schema: string): Entities {
  const numberOf = (name: string) => WebIFC.SchemaNames.findIndex((names) => names?.includes(name));
  const number = Math.max(numberOf(schema), numberOf(schema.split('_')[0]!));
  if (number < 0)
    throw new InputError(`is a STEP file of schema ${schema}, which is not read; export it as IFC4 or IFC2X3`);
  const known = entities.get(number) ?? new Entities(number);
  entities.set(number, known);
  return known;
}

let names: ReadonlyMap<number, string> | undefined;

function namesByCode(): ReadonlyMap<number, string> {
  names ??= new Map(
    Object.entries(WebIFC).flatMap(([name, code]) =>
      name.startsWith('IFC') && typeof code === 'number' ? [[code, name] as const] : [],
    ),
  );
  return names;
}
