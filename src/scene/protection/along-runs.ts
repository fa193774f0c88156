/** Layers along runs: as many, as thick and round what the take-off counts them. */
import { fileUnder } from '../../collect.js';
import { nameOf, refOf } from '../../element-refs.js';
import { cutOff } from '../../geometry/half-space.js';
import { add, dot, lerp, negate, scale, sub } from '../../geometry/vector.js';
import type { AirElement, Body, Federation, Vec3 } from '../../model.js';
import type { Report, ReportPenetration } from '../../report/schema.js';
import type { ProtectionExtras } from '../geometry-extras.js';
import type { GeometryNode } from '../geometry-nodes.js';
import { type Triangles, triangulate } from '../triangulate.js';
import { stackOn } from './at-penetration.js';
import { fittingShell, fittingSurface } from './fitting-shell.js';
import { type EndPlane, type LayerRound, straightSheet, straightShell } from './straight-shell.js';

type Run = Report['runs'][number];
type Stretch = Run['stretches'][number];
type Part = Stretch['parts'][number];

export type ProtectionNode = GeometryNode<ProtectionExtras>;

/** A layer that is counted on a piece, once however many cuts it is made of. */
interface Layer {
  readonly number: number;
  readonly thickness: number;
  readonly bare: LayerRound['bare'];
  readonly about: Pick<ProtectionExtras, 'part' | 'testedSystem' | 'status'>;
}

export function layersAlongRuns(federation: Federation, report: Report): ProtectionNode[] {
  const layers = layersIn(report);
  const air = new Map(federation.airElements.map((one) => [nameOf(one), one]));
  const penetrations = new Map(report.penetrations.map((one) => [one.id, one]));
  const inner = (at: Vec3): Vec3 => sub(at, federation.origin);
  return report.runs.flatMap((run) =>
    run.stretches.flatMap((stretch) =>
      stretch.parts.flatMap((part, i): ProtectionNode[] => {
        const own = layers.get(placeName(run.id, part));
        const element = air.get(nameOf(part));
        if (!own || !element) return [];
        const piece: PieceHere = {
          ...{ part, element, from: inner(part.from), to: inner(part.to) },
          joints: run.joints
            .filter(({ elements }) => elements.some((one) => nameOf(one) === nameOf(part)))
            .map(({ at }) => inner(at)),
          cuts: stretch.ends
            .filter((end) => end.part === i)
            .flatMap(({ penetration }) => penetrations.get(penetration) ?? [])
            .map((p) => cutAt(p, inner(p.position), part, inner)),
        };
        const shells = shellsOf(piece, own);
        return own.flatMap(({ about, number }, n): ProtectionNode[] => {
          const shape = shells[n];
          if (!shape) return [];
          const place = { run: run.id, penetration: null, element: refOf(part), storey: part.storey };
          const extras = { kind: 'protection', ...about, ...place, layer: number } as const;
          return [{ name: `${about.part} ${number} on ${part.name}`, extras, shape, surface: about.part }];
        });
      }),
    ),
  );
}

const placeName = (run: string, element: Part | { readonly model: string; readonly globalId: string }): string =>
  `${run} ${nameOf(element)}`;

/** By run and piece, the first layer first. */
function layersIn({ takeoff }: Report): ReadonlyMap<string, readonly Layer[]> {
  const materials = new Map(takeoff?.materials.map((one) => [one.id, one]));
  const layers = new Map<string, Layer[]>();
  for (const { run, element, layer, material } of takeoff?.items ?? []) {
    if (run === null || element === null || !layer) continue;
    const { kind, testedSystem, status } = materials.get(material)!;
    if ((kind !== 'blanket' && kind !== 'board') || testedSystem === null || status === null) continue;
    const name = placeName(run, element);
    if (layers.get(name)?.some(({ number }) => number === layer.number)) continue;
    fileUnder(layers, name, { ...layer, about: { part: kind, testedSystem, status } });
  }
  return layers;
}

interface PieceHere {
  readonly part: Part;
  readonly element: AirElement;
  readonly from: Vec3;
  readonly to: Vec3;
  readonly joints: readonly Vec3[];
  readonly cuts: readonly BarrierCut[];
}

/** Where a barrier ends the layers of a piece: at its face, or in its middle where the piece goes on behind it. */
interface BarrierCut {
  readonly at: Vec3;
  /** Away from the piece. */
  readonly normal: Vec3;
  /** Which end of it lies in the barrier. */
  readonly end: 'from' | 'to';
}

/** Where no detail is chosen nobody knows that it stops; the take-off counts it through, too. */
function cutAt(p: ReportPenetration, position: Vec3, part: Part, inner: (at: Vec3) => Vec3): BarrierCut {
  const { normal } = p.frame;
  const [from, to] = [inner(part.from), inner(part.to)];
  const isBehind = dot(sub(lerp(from, to, 0.5), position), normal) < 0;
  const way = isBehind ? normal : negate(normal);
  const stops = p.treatment.chosen?.gapDatum === 'stopsAtFace';
  const back = stops ? (p.barrier.thickness ?? 0) / 2 + stackOn(p, isBehind ? -1 : 1) : 0;
  const off = (at: Vec3): number => Math.abs(dot(sub(at, position), normal));
  return { at: add(position, scale(way, -back)), normal: way, end: off(from) <= off(to) ? 'from' : 'to' };
}

/** Of each layer; null where the section or the surface is not known. */
function shellsOf(piece: PieceHere, layers: readonly Layer[]): (Triangles | null)[] {
  const { part, element, from, to } = piece;
  const base = part.measures?.insulation?.thickness ?? 0;
  const round = ({ number, thickness, bare }: Layer): LayerRound => ({
    ...{ inner: base + (number - 1) * thickness, outer: base + number * thickness, bare },
  });
  if (part.measures?.section) {
    const sheet = straightSheet(element, from, to);
    const ends = [endOf(piece, 'from'), endOf(piece, 'to')] as const;
    return layers.map((layer) => (sheet ? straightShell(sheet, ends, round(layer)) : null));
  }
  const surface = fittingSurface(element, piece.joints);
  return layers.map((layer) => {
    if (!surface) return null;
    const { inner, outer } = round(layer);
    const whole: Body | undefined = fittingShell(surface, inner, outer);
    const left = piece.cuts.reduce<Body | undefined>((body, { at, normal }) => body && cutOff(body, at, normal), whole);
    return left ? triangulate([left]) : null;
  });
}

/** Square to the piece where it is joined. */
function endOf({ from, to, cuts }: PieceHere, end: BarrierCut['end']): EndPlane {
  return cuts.find((cut) => cut.end === end) ?? { at: end === 'from' ? from : to, normal: sub(to, from) };
}
