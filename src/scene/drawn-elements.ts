/** The elements of the models as nodes of geometry.glb. */
import { nameOf, refOf } from '../element-refs.js';
import type { Body, ElementRef, Federation, Storey } from '../model.js';
import type { Report } from '../report/schema.js';
import { barrierFaces } from './barrier-faces.js';
import type { ElementExtras } from './geometry-extras.js';
import type { GeometryNode } from './geometry-nodes.js';
import { sceneOf } from './scene.js';
import { triangulate } from './triangulate.js';

type Drawn = GeometryNode<ElementExtras>;
type Facts = ElementRef & { readonly name: string; readonly storey: Storey | undefined };

export function elementNodes(federation: Federation, report: Pick<Report, 'penetrations'>): Drawn[] {
  const { airElements, barriers, otherServices, columns, obstacles = [] } = federation;
  const faces = barrierFaces(federation, report);
  const openings = barriers.flatMap((barrier) => barrier.openings);
  const facts = new Map<string, Facts>([...openings, ...otherServices, ...barriers].map((one) => [nameOf(one), one]));
  const air = new Map(airElements.map((one) => [nameOf(one), one]));
  const drawn = sceneOf(federation).elements.map(({ model, globalId, kind, host, positions, triangles }): Drawn => {
    const ref = { model, globalId };
    const duct = kind === 'duct' || kind === 'damper' ? air.get(nameOf(ref)) : undefined;
    const system = duct?.system ?? null;
    const face = kind === 'barrier' ? (faces.get(nameOf(ref)) ?? null) : null;
    const about = extrasOf(duct ?? facts.get(nameOf(ref)) ?? { ...ref, name: '', storey: undefined });
    return nodeOf({ ...about, kind, host, system, face }, { positions, triangles });
  });
  const context = [...columns, ...obstacles]
    .filter(({ bodies }) => bodies.length > 0)
    .map((one: Facts & { readonly bodies: readonly Body[] }): Drawn => {
      const extras = { ...extrasOf(one), kind: 'context', host: null, system: null, face: null } as const;
      return nodeOf(extras, triangulate(one.bodies));
    });
  return [...drawn, ...context];
}

const extrasOf = (one: Facts): Pick<ElementExtras, 'model' | 'globalId' | 'name' | 'storey'> => ({
  ...refOf(one),
  name: one.name,
  storey: one.storey?.globalId ?? null,
});

const nodeOf = (extras: ElementExtras, shape: Drawn['shape']): Drawn => ({
  ...{ name: extras.name, extras, shape, surface: extras.kind },
});
