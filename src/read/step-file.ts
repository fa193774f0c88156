/**
 * The only place that touches web-ifc. It gives lines with loosely typed attributes, ids by entity and tessellated
 * items; everything else (units, placements, relations, booleans with openings) is ours.
 */
import * as WebIFC from 'web-ifc';
import type { Mesh } from '../model.js';

/** One instance of the STEP file with its attributes by name; their values go through `value.ts`. */
export interface Line {
  readonly expressID: number;
  readonly type: number;
  readonly [attribute: string]: unknown;
}

/** A mesh as web-ifc gives it: in the item's own coordinates, file units. */
export type RawMesh = Omit<Mesh, 'kind'>;

const TAPE_SIZE = 4 << 20;
/** Fine enough that a 2 m duct whose profile we can't read ourselves is short by 0.3 mm, and no slower. */
const CIRCLE_SEGMENTS = 128;
const Z_UP = [1, 0, 0, 0, 0, 0, 1, 0, 0, -1, 0, 0, 0, 0, 0, 1];

export class StepFile {
  private constructor(
    private readonly api: WebIFC.IfcAPI,
    private readonly model: number,
  ) {}

  /**
   * @param wasm where web-ifc's wasm file is; beside its script when left out
   * @throws Error when web-ifc can't open the bytes
   */
  static async open(bytes: Uint8Array, wasm?: string): Promise<StepFile> {
    const api = new WebIFC.IfcAPI();
    await api.Init(wasm === undefined ? undefined : () => wasm, true);
    api.SetLogLevel(WebIFC.LogLevel.LOG_LEVEL_OFF);
    const model = api.OpenModel(bytes, { TAPE_SIZE, CIRCLE_SEGMENTS, COORDINATE_TO_ORIGIN: false });
    if (model < 0) throw new Error('its data can not be parsed');
    api.SetGeometryTransformation(model, Z_UP);
    return new StepFile(api, model);
  }

  close(): void {
    this.api.CloseModel(this.model);
  }

  /** The instance, or undefined where it is missing or of an entity that the schema does not know. */
  line(id: number): Line | undefined {
    if (this.api.GetLineType(this.model, id) === 0) return undefined;
    try {
      return (this.api.GetLine(this.model, id) as Line | null | undefined) ?? undefined;
    } catch (error) {
      // web-ifc throws a TypeError for entity names outside the schema: the instance can't be read, which callers count.
      if (error instanceof TypeError) return undefined;
      throw error;
    }
  }

  /** Ids of all instances of an entity, e.g. `IFCWALL`; with `subtypes` of every entity below it too. */
  ids(entity: EntityName, subtypes = false): number[] {
    // biome-ignore lint/performance/noDynamicNamespaceImportAccess: entity codes are looked up by name, and all are kept.
    const vector = this.api.GetLineIDsWithType(this.model, WebIFC[entity], subtypes);
    return Array.from({ length: vector.size() }, (_, i) => vector.get(i));
  }

  /** Upper-case entity name of an instance, `''` when there is none. */
  entity(id: number): string {
    const type = this.api.GetLineType(this.model, id);
    return type === 0 ? '' : (this.api.GetNameFromTypeCode(type) ?? '').toUpperCase();
  }

  /** Triangles of one representation item, or of a whole shape representation (booleans applied, openings not). */
  mesh(id: number): RawMesh {
    const flat = this.api.GetFlatMesh(this.model, id, false);
    const positions: number[] = [];
    const triangles: number[] = [];
    for (let g = 0; g < flat.geometries.size(); g++) {
      const placed = flat.geometries.get(g);
      const geometry = this.api.GetGeometry(this.model, placed.geometryExpressID);
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
}

/** Whether a segment of an IfcIndexedPolyCurve is an arc through three points; a line index may have three points too. */
export const isArcIndex = (x: unknown): boolean =>
  x instanceof WebIFC.IFC4.IfcArcIndex || x instanceof WebIFC.IFC4X3.IfcArcIndex;

/** Entity names that web-ifc exports as type codes. */
export type EntityName = {
  [K in keyof typeof WebIFC]: K extends `IFC${string}` ? ((typeof WebIFC)[K] extends number ? K : never) : never;
}[keyof typeof WebIFC];
