/**
 * Solids of elements as two general libraries see them: web-ifc tessellates the Body representation and places it,
 * manifold-3d makes solids of the triangles and intersects them. Nothing of src/ is used, so the two can judge it.
 */
import Module, { type Manifold, type ManifoldToplevel } from 'manifold-3d';
import { IFCELEMENT, IFCPROJECT, IFCRELAGGREGATES, IfcAPI, LogLevel } from 'web-ifc';

/** Finer than any size in question: a duct of 1.5 m loses 0.05 % of its section. */
const CIRCLE_SEGMENTS = 129;
const Z_UP = [1, 0, 0, 0, 0, 0, 1, 0, 0, -1, 0, 0, 0, 0, 0, 1];
/** Vertices are one within this; the larger where the smaller leaves the surface open. */
const WELDS = [0.01, 0.1, 1];

type Vector = readonly [number, number, number];

/** Triangles in world millimetres, one list for each closed part. */
export interface Shell {
  readonly points: readonly Vector[];
  readonly triangles: readonly (readonly [number, number, number])[];
}

export interface RawElement {
  readonly globalId: string;
  readonly shells: readonly Shell[];
  readonly min: Vector;
  readonly max: Vector;
}

let manifold: ManifoldToplevel | undefined;
let reader: IfcAPI | undefined;

export async function startJudges(): Promise<void> {
  if (!manifold) {
    manifold = await Module();
    manifold.setup();
  }
  if (!reader) {
    reader = new IfcAPI();
    await reader.Init();
    reader.SetLogLevel(LogLevel.LOG_LEVEL_OFF);
  }
}

/** Every product with one of the GlobalIds, by GlobalId; parts of a product that has no body of its own stand for it. */
export function rawElements(bytes: Uint8Array, globalIds: ReadonlySet<string>): Map<string, RawElement> {
  const api = reader!;
  const model = api.OpenModel(bytes, { TAPE_SIZE: 4 << 20, CIRCLE_SEGMENTS });
  try {
    api.SetGeometryTransformation(model, Z_UP);
    const raw = new RawModel(api, model);
    const found = new Map<string, RawElement>();
    for (const [globalId, id] of raw.products()) {
      if (!globalIds.has(globalId) || found.has(globalId)) continue;
      const shells = raw.shells(id);
      if (shells.length > 0) found.set(globalId, { globalId, shells, ...boxOf(shells) });
    }
    return found;
  } finally {
    api.CloseModel(model);
  }
}

function boxOf(shells: readonly Shell[]): Pick<RawElement, 'min' | 'max'> {
  const min = [Infinity, Infinity, Infinity];
  const max = [-Infinity, -Infinity, -Infinity];
  for (const { points } of shells)
    for (const p of points)
      for (const i of [0, 1, 2]) {
        min[i] = Math.min(min[i]!, p[i]!);
        max[i] = Math.max(max[i]!, p[i]!);
      }
  return { min: min as unknown as Vector, max: max as unknown as Vector };
}

interface Ref {
  readonly value: number;
}
interface Line {
  readonly GlobalId?: { readonly value: string };
  readonly Representation?: Ref | null;
  readonly Representations?: readonly Ref[];
  readonly RepresentationIdentifier?: { readonly value: string } | null;
  readonly ObjectPlacement?: Ref | null;
  readonly RelatingObject?: Ref;
  readonly RelatedObjects?: readonly Ref[];
  readonly UnitsInContext?: Ref;
  readonly Units?: readonly Ref[];
  readonly UnitType?: { readonly value: string };
  readonly Prefix?: { readonly value: string } | null;
  readonly ConversionFactor?: Ref;
  readonly ValueComponent?: { readonly value: number };
  readonly UnitComponent?: Ref;
}

class RawModel {
  private readonly parts = new Map<number, number[]>();

  constructor(
    private readonly api: IfcAPI,
    private readonly model: number,
  ) {
    for (const id of this.ids(IFCRELAGGREGATES)) {
      const { RelatingObject: whole, RelatedObjects: parts = [] } = this.line(id);
      if (whole) this.parts.set(whole.value, [...(this.parts.get(whole.value) ?? []), ...parts.map((p) => p.value)]);
    }
  }

  private line = (id: number): Line => this.api.GetLine(this.model, id) as Line;

  private ids(type: number): number[] {
    const vector = this.api.GetLineIDsWithType(this.model, type, true);
    return Array.from({ length: vector.size() }, (_, i) => vector.get(i));
  }

  products(): [string, number][] {
    return this.ids(IFCELEMENT).map((id) => [this.line(id).GlobalId!.value, id]);
  }

  shells(id: number): Shell[] {
    const own = this.ownShells(id);
    return own.length > 0 ? own : (this.parts.get(id) ?? []).flatMap((part) => this.shells(part));
  }

  private ownShells(id: number): Shell[] {
    const { Representation, ObjectPlacement } = this.line(id);
    if (!Representation) return [];
    const shapes = this.line(Representation.value).Representations ?? [];
    const body = shapes.find((s) => this.line(s.value).RepresentationIdentifier?.value === 'Body');
    if (!body) return [];
    const placed = ObjectPlacement ? this.api.GetWorldTransformMatrix(this.model, ObjectPlacement.value) : undefined;
    return this.tessellated(body.value, placed);
  }

  /** The whole representation, item by item, in millimetres. */
  private tessellated(body: number, placed: readonly number[] | undefined): Shell[] {
    const { api, model } = this;
    const mm = this.unit();
    const flat = api.GetFlatMesh(model, body, false);
    const shells: Shell[] = [];
    for (let g = 0; g < flat.geometries.size(); g++) {
      const part = flat.geometries.get(g);
      const geometry = api.GetGeometry(model, part.geometryExpressID);
      const vertices = api.GetVertexArray(geometry.GetVertexData(), geometry.GetVertexDataSize());
      const indices = api.GetIndexArray(geometry.GetIndexData(), geometry.GetIndexDataSize());
      const points: Vector[] = [];
      for (let i = 0; i < vertices.length; i += 6) {
        const local = apply(part.flatTransformation, [vertices[i]!, vertices[i + 1]!, vertices[i + 2]!]);
        const world = placed ? apply(placed, local) : local;
        points.push([world[0] * mm, world[1] * mm, world[2] * mm]);
      }
      const triangles = Array.from({ length: indices.length / 3 }, (_, t) => {
        return [indices[3 * t]!, indices[3 * t + 1]!, indices[3 * t + 2]!] as const;
      });
      shells.push({ points, triangles });
      geometry.delete();
    }
    return shells;
  }

  /** Millimetres per file unit, through any chain of conversion based units. */
  private unit(): number {
    const [project] = this.ids(IFCPROJECT);
    const units = this.line(this.line(project!).UnitsInContext!.value).Units ?? [];
    const length = units.find((unit) => this.line(unit.value).UnitType?.value === 'LENGTHUNIT');
    return length ? this.factorOf(length) : 1000;
  }

  private factorOf(unit: Ref): number {
    const { ConversionFactor, Prefix } = this.line(unit.value);
    if (!ConversionFactor) return Prefix?.value === 'MILLI' ? 1 : 1000;
    const { ValueComponent, UnitComponent } = this.line(ConversionFactor.value);
    return ValueComponent!.value * this.factorOf(UnitComponent!);
  }
}

const apply = (m: readonly number[], [x, y, z]: Vector): Vector =>
  [0, 1, 2].map((r) => m[r]! * x + m[4 + r]! * y + m[8 + r]! * z + m[12 + r]!) as unknown as Vector;

// -------------------------------------------------------------------------------------------------------------- solids

/** A solid about `origin`, single precision being what manifold-3d works in; null where the surface is not closed. */
export function solidOf({ shells }: RawElement, origin: Vector): Manifold | null {
  const parts = shells.map((shell) => closed(shell, origin));
  if (parts.some((part) => part === null)) return null;
  return manifold!.Manifold.union(parts as Manifold[]);
}

/** The least convex solid round each part: fills the air space of a straight duct, and the holes of a plain wall. */
export function hullOf({ shells }: RawElement, origin: Vector): Manifold {
  const hulls = shells.map(({ points }) => manifold!.Manifold.hull(points.map((p) => shifted(p, origin))));
  return manifold!.Manifold.union(hulls);
}

const shifted = (p: Vector, origin: Vector): [number, number, number] => [
  p[0] - origin[0],
  p[1] - origin[1],
  p[2] - origin[2],
];

function closed({ points, triangles }: Shell, origin: Vector): Manifold | null {
  for (const weld of WELDS) {
    const first = new Map<string, number>();
    const kept: number[] = [];
    const index = points.map((p) => {
      const key = p.map((v) => Math.round(v / weld)).join();
      let i = first.get(key);
      if (i === undefined) {
        i = kept.length / 3;
        first.set(key, i);
        kept.push(...shifted(p, origin));
      }
      return i;
    });
    const sound = triangles
      .map((t) => t.map((v) => index[v]!))
      .filter(([a, b, c]) => a !== b && b !== c && c !== a)
      .flat();
    const made = tryMake(kept, sound) ?? tryMake(kept, [...sound].reverse());
    if (made) return made;
  }
  return null;
}

/** Null for surfaces that are open or inside out. */
function tryMake(points: readonly number[], triangles: readonly number[]): Manifold | null {
  const mesh = new manifold!.Mesh({
    numProp: 3,
    vertProperties: Float32Array.from(points),
    triVerts: Uint32Array.from(triangles),
  });
  try {
    const made = new manifold!.Manifold(mesh);
    return made.volume() > 0 ? made : null;
  } catch (error) {
    // Its way to say that the surface is not closed.
    if (error instanceof Error && /manifold/i.test(error.message)) return null;
    throw error;
  }
}
