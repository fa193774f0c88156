/**
 * opening-requests.ifc: provisions for voids as IfcBuildingElementProxy, in the frame of report.json and the length unit
 * of the file that holds the first barrier.
 */
import { add, cross, scale } from '../geometry/vector.js';
import type { Storey, Vec3 } from '../model.js';
import { brief, oneLine } from '../words/text.js';
import { GLOBAL_ID, globalIdOf } from './ifc-global-id.js';
import { type LengthUnit, lengthUnitOf, siUnit } from './ifc-length-unit.js';
import { type OpeningRequest, type OpeningRequests, requestSize } from './opening-requests.js';
import type { Report } from './schema.js';
import { type Argument, DERIVED, enumeration, integer, type Ref, StepText, typed } from './step-text.js';
import { DEMONSTRATION } from './words.js';

export const IFC_SCHEMAS = ['IFC4', 'IFC4X3'] as const;
export type IfcSchema = (typeof IFC_SCHEMAS)[number];

/** Names of the property set and its property for the shape changed between the schemas. */
const SCHEMAS: {
  readonly [S in IfcSchema]: {
    readonly name: string;
    readonly view: string;
    readonly set: string;
    readonly shape: string;
  };
} = {
  IFC4: {
    name: 'IFC4',
    view: 'ViewDefinition [ReferenceView_V1.2]',
    set: 'Pset_BuildingElementProxyProvisionForVoid',
    shape: 'Shape',
  },
  IFC4X3: {
    name: 'IFC4X3_ADD2',
    view: 'ViewDefinition [ReferenceView]',
    set: 'Pset_ProvisionForVoid',
    shape: 'VoidShape',
  },
};

export function writeOpeningRequests({ requests }: OpeningRequests, report: Report, schema: IfcSchema): Uint8Array {
  const step = new StepText();
  const unit = unitOf(report, requests[0]);
  const file = new RequestFile(step, unit.millimetres, SCHEMAS[schema], report.demonstration);
  file.write(requests, unit.write(step), report);
  const note = `Openings asked for, sizes and places as in report.json; length unit ${unit.name}`;
  const text = step.finish({
    schema: SCHEMAS[schema].name,
    descriptions: [SCHEMAS[schema].view, ...(report.demonstration ? [DEMONSTRATION] : []), note],
    fileName: 'opening-requests.ifc',
    time: report.createdAt.replace(/Z$/, ''),
    system: report.tool,
  });
  return new TextEncoder().encode(text);
}

/** Of the file with the barrier; millimetres where its unit is none of these. The file's description says which. */
function unitOf({ models }: Report, first: OpeningRequest | undefined): LengthUnit {
  const name = models.find((m) => m.id === first?.penetration.barrier.model)?.lengthUnit ?? '';
  return lengthUnitOf(name);
}

class RequestFile {
  constructor(
    private readonly step: StepText,
    private readonly millimetres: number,
    private readonly schema: (typeof SCHEMAS)[IfcSchema],
    private readonly demonstration: boolean,
  ) {}

  write(requests: readonly OpeningRequest[], lengthUnit: Ref, report: Report): void {
    const { step } = this;
    const origin = this.axes([0, 0, 0], [0, 0, 1], [1, 0, 0]);
    const model = step.add('IfcGeometricRepresentationContext', null, 'Model', integer(3), 1e-5, origin, null);
    const inherited = [DERIVED, DERIVED, DERIVED, DERIVED];
    const view = enumeration('MODEL_VIEW');
    const body = step.add(
      'IfcGeometricRepresentationSubContext',
      'Body',
      'Model',
      ...inherited,
      model,
      null,
      view,
      null,
    );
    const units = step.add('IfcUnitAssignment', [
      lengthUnit,
      siUnit(step, 'AREAUNIT', 'SQUARE_METRE'),
      siUnit(step, 'VOLUMEUNIT', 'CUBIC_METRE'),
      siUnit(step, 'PLANEANGLEUNIT', 'RADIAN'),
    ]);
    const about = report.models.map((m) => m.projectGlobalId ?? m.file).join('\n');
    const says = this.stamped('Openings that ducts need as modelled; structural engineer to agree each.');
    const head = [globalIdOf(`project\n${about}`), null, 'Opening requests', says];
    const project = step.add('IfcProject', ...head, null, null, null, [model], units);
    const place = step.add('IfcLocalPlacement', null, origin);
    const building = step.add(
      ...(['IfcBuilding', globalIdOf(`building\n${about}`), null, 'Building', null, null, place] as const),
      ...[null, null, enumeration('ELEMENT'), null, null, null],
    );
    this.relate('IfcRelAggregates', `project\n${about}`, project, [building]);
    this.writeStoreys(requests, building, place, body, about);
  }

  private writeStoreys(requests: readonly OpeningRequest[], building: Ref, place: Ref, body: Ref, about: string): void {
    const storeys = new Map<string, { storey: Storey | null; requests: OpeningRequest[] }>();
    for (const request of requests) {
      const { storey } = request.penetration;
      const group = storeys.get(storey?.globalId ?? '') ?? { storey, requests: [] };
      group.requests.push(request);
      storeys.set(storey?.globalId ?? '', group);
    }
    const written: Ref[] = [];
    for (const [id, { storey, requests: own }] of storeys) {
      const host = storey ? this.storey(storey, place) : { ref: building, place };
      if (storey) written.push(host.ref);
      const proxies = own.map((request) => this.proxy(request, host.place, storey?.elevation ?? 0, body));
      this.step.add(
        ...(['IfcRelContainedInSpatialStructure', globalIdOf(`contained\n${id}\n${about}`), null, null, null] as const),
        ...[proxies, host.ref],
      );
    }
    if (written.length > 0) this.relate('IfcRelAggregates', `building\n${about}`, building, written);
  }

  /** It keeps the GlobalId that it has in the file of its barrier: it is the same storey. */
  private storey({ globalId, name, elevation }: Storey, parent: Ref): { ref: Ref; place: Ref } {
    const at = this.axes([0, 0, elevation], [0, 0, 1], [1, 0, 0]);
    const place = this.step.add('IfcLocalPlacement', parent, at);
    const id = GLOBAL_ID.test(globalId) ? globalId : globalIdOf(`storey\n${globalId}`);
    const ref = this.step.add(
      ...(['IfcBuildingStorey', id, null, label(name), null, null, place] as const),
      ...[null, null, enumeration('ELEMENT'), this.length(elevation)],
    );
    return { ref, place };
  }

  private proxy(request: OpeningRequest, storey: Ref, elevation: number, body: Ref): Ref {
    const { step } = this;
    const { penetration: p, centre, along, depth } = request;
    const { right, up, normal } = p.frame;
    const inPlane = ([x, y]: readonly [number, number]): Vec3 => add(scale(right, x), scale(up, y));
    const middle = add(p.position, inPlane(centre));
    const start = add(middle, scale(normal, -depth / 2));
    const z = cross(right, up);
    // The drawing's right and up may look along the normal or against it; the profile has its own z.
    const forward = z[0] * normal[0] + z[1] * normal[1] + z[2] * normal[2] > 0;
    const from = forward ? start : add(middle, scale(normal, depth / 2));
    const place = step.add('IfcLocalPlacement', storey, this.axes(add(from, [0, 0, -elevation]), z, inPlane(along)));
    const solid = step.add(
      'IfcExtrudedAreaSolid',
      this.profile(request),
      null,
      this.direction([0, 0, 1]),
      this.length(depth),
    );
    const shape = step.add('IfcShapeRepresentation', body, 'Body', 'SweptSolid', [solid]);
    const product = step.add('IfcProductDefinitionShape', null, null, [shape]);
    const head = [globalIdOf(`opening request\n${p.key}`), null, label(p.tag), this.describe(request), null];
    const proxy = step.add(
      'IfcBuildingElementProxy',
      ...head,
      place,
      product,
      label(p.tag),
      enumeration('PROVISIONFORVOID'),
    );
    this.properties(request, proxy);
    return proxy;
  }

  private profile({ shape, width, height }: OpeningRequest): Ref {
    const area = enumeration('AREA');
    // May be left out, but then some readers complain.
    const middle = this.step.addShared('IfcCartesianPoint', [0, 0]);
    const at = this.step.addShared('IfcAxis2Placement2D', middle, this.step.addShared('IfcDirection', [1, 0]));
    return shape === 'circular'
      ? this.step.add('IfcCircleProfileDef', area, null, at, this.length(width / 2))
      : this.step.add('IfcRectangleProfileDef', area, null, at, this.length(width), this.length(height));
  }

  private describe(request: OpeningRequest): string {
    const { penetration: p, reason } = request;
    const replaces = p.opening?.globalId ? ` It replaces opening ${p.opening.globalId}.` : '';
    const what = reason === 'missing' ? 'No opening is modelled here.' : 'The gaps of the modelled opening are wrong.';
    return this.stamped(
      `${p.tag}: opening ${requestSize(request)} mm in ${brief(p.barrier.name, 80)} for ${brief(p.duct.system ?? p.duct.name, 80)}, ` +
        `${request.basis}. ${what}${replaces} Key ${p.key}. Structural engineer to agree.`,
    );
  }

  private stamped = (text: string): string => oneLine(this.demonstration ? `${DEMONSTRATION} ${text}` : text);

  private properties(request: OpeningRequest, proxy: Ref): void {
    const { penetration: p, shape, width, height, depth } = request;
    const size = (name: string, mm: number) => this.property(name, typed('IfcPositiveLengthMeasure', this.length(mm)));
    const text = (name: string, value: string) => this.property(name, typed('IfcLabel', label(value)));
    const { system } = p.duct;
    this.propertySet(p.key, this.schema.set, proxy, [
      text(this.schema.shape, shape === 'circular' ? 'Round' : 'Rectangle'),
      ...(shape === 'circular' ? [size('Diameter', width)] : [size('Width', width), size('Height', height)]),
      size('Depth', depth),
      ...(system === null || system === '' ? [] : [text('System', system)]),
    ]);
    this.propertySet(p.key, 'Ratedrun_OpeningRequest', proxy, [
      text('Tag', p.tag),
      text('Key', p.key),
      text('BarrierGlobalId', p.barrier.globalId),
      text('DuctGlobalId', p.duct.globalId),
      ...(p.opening?.globalId ? [text('ReplacesOpeningGlobalId', p.opening.globalId)] : []),
      text('Status', 'Structural engineer to agree'),
    ]);
  }

  private property = (name: string, value: Argument): Ref =>
    this.step.add('IfcPropertySingleValue', name, null, value, null);

  private propertySet(key: string, name: string, proxy: Ref, properties: readonly Ref[]): void {
    const set = this.step.add('IfcPropertySet', globalIdOf(`${name}\n${key}`), null, name, null, properties);
    this.step.add('IfcRelDefinesByProperties', globalIdOf(`${name} of\n${key}`), null, null, null, [proxy], set);
  }

  private relate(entity: string, key: string, whole: Ref, parts: readonly Ref[]): void {
    this.step.add(entity, globalIdOf(`${entity}\n${key}`), null, null, null, whole, parts);
  }

  private length = (mm: number): number => mm / this.millimetres;

  private direction = (d: Vec3): Ref => this.step.addShared('IfcDirection', [...d]);

  private axes(at: Vec3, z: Vec3, x: Vec3): Ref {
    const point = this.step.addShared('IfcCartesianPoint', at.map(this.length));
    return this.step.addShared('IfcAxis2Placement3D', point, this.direction(z), this.direction(x));
  }
}

/** IfcLabel holds at most 255 characters. */
const label = (text: string): string => brief(text, 255);
