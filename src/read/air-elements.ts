/** Ductwork and the other services that may share its openings. */
import type { AirElement, Body, OtherService, Port } from '../model.js';
import { accessEvidence } from './access-panels.js';
import { type Classified, classify, predefinedType, readSystem } from './classify.js';
import { readCombustible } from './combustible.js';
import { readDamper } from './dampers.js';
import { readDuctFacts } from './duct-facts.js';
import { isFlexible, readWall } from './duct-layers.js';
import { ductMaterial, readLayers } from './materials.js';
import { noteNoBody, readElement, type Source, tryBodies } from './source.js';
import type { Line } from './step-file.js';
import { isSupport } from './supports.js';
import { ref, text } from './value.js';

export interface ReadServices {
  readonly air: AirElement[];
  readonly others: OtherService[];
  readonly skipped: number;
  readonly unclassified: number;
  /** Everything that was taken for ductwork, and for another service, read or not. */
  readonly airIds: ReadonlySet<number>;
  readonly serviceIds: ReadonlySet<number>;
}

const WHAT: Readonly<Record<AirElement['kind'], string>> = {
  segment: 'Duct segment',
  fitting: 'Duct fitting',
  damper: 'Damper',
  silencer: 'Silencer',
  flexible: 'Flexible duct',
  fan: 'Fan',
  terminal: 'Air terminal',
  equipment: 'Air equipment',
};

export function readServices(source: Source, model: string): ReadServices {
  const { file } = source;
  const air: AirElement[] = [];
  const others: OtherService[] = [];
  const airIds = new Set<number>();
  const serviceIds = new Set<number>();
  let skipped = 0;
  let unclassified = 0;
  for (const id of file.ids('IFCDISTRIBUTIONELEMENT', true)) {
    const line = file.line(id);
    if (!line) continue;
    // Some programs write hangers as fittings; they are no ductwork, and take no room in openings.
    if (isSupport(source, id)) continue;
    const found = classify(source, id, line);
    if (found.is === 'unclassified') {
      unclassified++;
      source.problems.push({
        code: 'unclassified-flow-element',
        globalId: text(line.GlobalId) ?? null,
        message: `${file.entity(id)} "${text(line.Name) ?? ''}" has no type, system, property set or name that shows whether it is ductwork; it was not checked.`,
      });
    }
    if (found.is === 'service' || found.is === 'unclassified') {
      serviceIds.add(id);
      // Whatever it is, it takes up room in an opening.
      const kind = found.is === 'service' ? found.kind : 'other';
      const bodies = tryBodies(source, line, 'Other service') ?? [];
      if (bodies.length > 0)
        others.push({
          ...readElement(source, id, line),
          model,
          bodies,
          kind,
          combustible: readCombustible(source, id),
        });
    } else if (found.is === 'air') {
      airIds.add(id);
      const element = readAirElement(source, id, line, model, found);
      if (element) air.push(element);
      else skipped++;
    }
  }
  return { air, others, skipped, unclassified, airIds, serviceIds };
}

function readAirElement(
  source: Source,
  id: number,
  line: Line,
  model: string,
  found: Extract<Classified, { is: 'air' }>,
): AirElement | undefined {
  const own = tryBodies(source, line, WHAT[found.kind]);
  if (!own) return undefined;
  const bodies = own.length > 0 ? own : partBodies(source, id);
  if (!bodies) return undefined;
  if (bodies.length === 0) {
    noteNoBody(source, line, WHAT[found.kind]);
    return undefined;
  }
  const system = readSystem(source, id);
  const panel = accessEvidence(source, id, line);
  const { globalId, name, entity, storey } = readElement(source, id, line);
  // Spelled out: a building has thousands of these, and what is spread into an object costs many times as much.
  return {
    globalId,
    name,
    entity,
    storey,
    model,
    bodies,
    kind:
      found.kind === 'segment' && isFlexible(source, id, line, predefinedType(source, id, line))
        ? 'flexible'
        : found.kind,
    evidence: found.evidence,
    ports: readPorts(source, id),
    system: system?.name,
    systemType: system?.type,
    systemNames: system?.names,
    ...readDuctFacts(source, id, system?.id),
    material: ductMaterial(readLayers(source, id).layers, source.facts?.ductMaterials),
    wall: readWall(source, id, line),
    coverings: coveringNames(source, id),
    stated: statedSizes(source, id),
    damper: found.kind === 'damper' ? readDamper(source, id, line) : undefined,
    ...(panel !== undefined && { isAccessPanel: true, accessEvidence: panel }),
  };
}

/** Of a duct that is an assembly; undefined where a part can't be used, since the rest would show half a duct. */
function partBodies(source: Source, whole: number): Body[] | undefined {
  const { file, relations } = source;
  const bodies: Body[] = [];
  for (const part of relations.partsOf.get(whole) ?? []) {
    const line = file.line(part);
    // Parts that are ductwork are elements of their own, coverings are insulation.
    if (!line || file.entity(part) === 'IFCCOVERING' || classify(source, part, line).is !== 'nothing') continue;
    const own = tryBodies(source, line, 'Part of a duct');
    if (!own) return undefined;
    bodies.push(...own);
  }
  return bodies;
}

/** Of what is wrapped round a duct, and of its types. */
function coveringNames({ file, relations }: Source, id: number): string[] {
  return (relations.coveringsOf.get(id) ?? []).flatMap((covering) => {
    const [line, type] = [file.line(covering), file.line(relations.typeOf.get(covering) ?? 0)];
    return [line?.Name, line?.ObjectType, type?.Name].map(text).filter((name) => name !== undefined);
  });
}

const FLOWS: Readonly<Record<string, Port['flow']>> = { SOURCE: 'out', SINK: 'in' };

function readPorts({ file, relations, placements }: Source, id: number): Port[] {
  return (relations.portsOf.get(id) ?? []).flatMap((port) => {
    const line = file.line(port);
    const placement = ref(line?.ObjectPlacement);
    const placed = placement === undefined ? undefined : placements.objectIfWhole(placement);
    if (!line || !placed) return []; // a port without a place tells nothing of the axis
    const other = file.line(relations.linkedPort.get(port) ?? 0);
    return [
      {
        globalId: text(line.GlobalId) ?? '',
        at: placed.origin,
        connectedTo: text(other?.GlobalId),
        flow: FLOWS[text(line.FlowDirection) ?? ''],
      },
    ];
  });
}

const SIZE_SETS = /Duct|Damper/;

function statedSizes({ properties }: Source, id: number): AirElement['stated'] {
  const first =
    properties.length(id, SIZE_SETS, 'NominalDiameterOrWidth') ?? properties.length(id, SIZE_SETS, 'NominalDiameter');
  const height = properties.length(id, SIZE_SETS, 'NominalHeight');
  // IFC4X3 renamed Shape to CrossSectionShape.
  const shape =
    text(properties.find(id, SIZE_SETS, 'Shape')?.value) ??
    text(properties.find(id, SIZE_SETS, 'CrossSectionShape')?.value);
  if (first === undefined) return height === undefined ? {} : { height };
  if (shape === 'ROUND') return { diameter: first };
  return height === undefined ? (shape === 'RECTANGULAR' ? { width: first } : {}) : { width: first, height };
}
