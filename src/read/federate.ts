/** Several files as one building: one frame for all, one origin near the building, every element moved into it. */
import { type Affine, applyPoint, compose, translation, WORLD } from '../geometry/frame.js';
import { movedBody } from '../geometry/mesh.js';
import { forEachVertex } from '../geometry/section.js';
import { negate, sub, unit } from '../geometry/vector.js';
import type { Body, Federation, LayerStart, ModelInfo, Problem, Vec3 } from '../model.js';
import type { MapConversion } from './georeference.js';
import type { FileModel } from './read-file.js';
import { withoutRepeats } from './repeats.js';

export interface FederatedFile {
  readonly id: string;
  readonly file: string;
  readonly sha256: string;
  readonly model: FileModel;
}

/** The origin is a whole multiple of this, so that adding it back is exact. */
const ORIGIN_STEP = 1000;

export function federate(files: readonly FederatedFile[]): Federation {
  const frame = conversionsDiffer(files.map((f) => f.model.mapConversion)) ? 'map' : 'engineering';
  const placed = files.map((f) => ({ ...f, at: placementOf(f.model, frame) }));
  const origin = leastCorner(placed);
  const parts = placed.map(({ model, at, id, file, sha256 }) => {
    const toInner = compose(translation(negate(origin)), at);
    const moved = (bodies: readonly Body[]) => bodies.map((body) => movedBody(body, toInner));
    const move = <T extends { readonly bodies: readonly Body[] }>(element: T): T => ({
      ...element,
      bodies: moved(element.bodies),
    });
    return {
      info: modelInfo(id, file, sha256, model, frameProblems(model, frame, files)),
      airElements: model.airElements.map((e) => ({
        ...e,
        bodies: moved(e.bodies),
        ports: e.ports.map((p) => ({ ...p, at: applyPoint(toInner, p.at) })),
      })),
      otherServices: model.otherServices.map(move),
      columns: model.columns.map(move),
      obstacles: model.obstacles.map(move),
      supports: model.supports.map(move),
      barriers: model.barriers.map((b) => ({
        ...b,
        bodies: moved(b.bodies),
        openings: b.openings.map(move),
        layersFrom: b.layersFrom && movedStart(b.layersFrom, toInner),
      })),
      grids: model.grids.map((grid) => ({
        ...grid,
        families: grid.families.map((family) =>
          family.map(({ tag, ends: [from, to] }) => ({
            tag,
            ends: [applyPoint(toInner, from), applyPoint(toInner, to)] as const,
          })),
        ),
      })),
      spaces: model.spaces.map(move),
      zones: model.zones.map(move),
      accessCovers: model.accessCovers.map(move),
    };
  });
  const models = parts.map((m) => m.info);
  const { problems, ...once } = withoutRepeats(
    {
      airElements: parts.flatMap((m) => m.airElements),
      otherServices: parts.flatMap((m) => m.otherServices),
      barriers: parts.flatMap((m) => m.barriers),
      obstacles: parts.flatMap((m) => m.obstacles),
    },
    models,
  );
  return {
    origin,
    frame,
    models: models.map((m) => ({ ...m, problems: [...m.problems, ...(problems.get(m.id) ?? [])] })),
    ...once,
    columns: parts.flatMap((m) => m.columns),
    supports: parts.flatMap((m) => m.supports),
    grids: parts.flatMap((m) => m.grids),
    spaces: parts.flatMap((m) => m.spaces),
    zones: parts.flatMap((m) => m.zones),
    accessCovers: parts.flatMap((m) => m.accessCovers),
  };
}

/** Files without a map conversion say nothing of the map, so they can't disagree. */
function conversionsDiffer(conversions: readonly (MapConversion | undefined)[]): boolean {
  const [first, ...others] = conversions.filter((c) => c !== undefined);
  if (!first) return false;
  return others.some(
    (c) =>
      c.offset.some((v, i) => Math.abs(v - first.offset[i]!) > 0.1) ||
      Math.abs(c.rotation - first.rotation) > 1e-9 ||
      Math.abs(c.scale - first.scale) > 1e-9,
  );
}

function placementOf(model: FileModel, frame: Federation['frame']): Affine {
  const conversion = frame === 'map' ? model.mapConversion : undefined;
  return conversion ? compose(mapAffine(conversion), model.worldCoordinateSystem) : model.worldCoordinateSystem;
}

function mapAffine({ offset, rotation, scale }: MapConversion): Affine {
  const [c, s] = [Math.cos(rotation) * scale, Math.sin(rotation) * scale];
  return { origin: offset, x: [c, s, 0], y: [-s, c, 0], z: [0, 0, scale] };
}

/** Of the barriers, so that it does not move with the services; of what there is where there are none. */
function leastCorner(files: readonly (FederatedFile & { readonly at: Affine })[]): Vec3 {
  for (const pick of ['barriers', 'airElements'] as const) {
    const least = [Infinity, Infinity, Infinity];
    for (const { model, at } of files)
      for (const element of model[pick])
        for (const body of element.bodies)
          forEachVertex(body, (vertex) => {
            const p = applyPoint(at, vertex);
            for (const i of [0, 1, 2] as const) least[i] = Math.min(least[i]!, p[i]);
          });
    if (least.every(Number.isFinite))
      return least.map((v) => Math.floor(v / ORIGIN_STEP) * ORIGIN_STEP) as unknown as Vec3;
  }
  return WORLD.origin;
}

const movedStart = ({ at, direction }: LayerStart, map: Affine): LayerStart => ({
  at: applyPoint(map, at),
  direction: unit(sub(applyPoint(map, direction), map.origin)),
});

/** What makes map coordinates doubtful; nothing is said of them where they are not used. */
function frameProblems(model: FileModel, frame: Federation['frame'], files: readonly FederatedFile[]): Problem[] {
  if (frame !== 'map') return [];
  const { mapConversion } = model;
  if (!mapConversion)
    return [
      {
        code: 'no-map-conversion',
        globalId: null,
        message:
          'Other files have map conversions that differ, this one has none: its own coordinates were taken for map coordinates.',
      },
    ];
  const first = files.find((f) => f.model.mapConversion?.crs !== undefined);
  const [own, other] = [mapConversion.crs, first?.model.mapConversion?.crs];
  if (first === undefined || own === undefined || own === other) return [];
  return [
    {
      code: 'map-differs',
      globalId: null,
      message: `Its map coordinates are those of ${own}, those of ${first.file} of ${other}: they were taken for one, so the files may lie apart.`,
    },
  ];
}

function modelInfo(id: string, file: string, sha256: string, model: FileModel, found: readonly Problem[]): ModelInfo {
  return {
    id,
    file,
    schema: model.schema,
    sha256,
    projectGlobalId: model.projectGlobalId,
    lengthUnit: model.lengthUnit,
    application: model.application,
    writtenAt: model.writtenAt,
    counts: model.counts,
    problems: [...model.problems, ...found],
  };
}
