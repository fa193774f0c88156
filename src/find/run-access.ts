/** How runs are reached from outside: which panels lie on them, and how far it is along the ducts between these. */
import { compareTexts, fileUnder } from '../collect.js';
import { refOf } from '../element-refs.js';
import { boxDistance, grown } from '../geometry/box.js';
import { boxIndex } from '../geometry/box-index.js';
import { extent } from '../geometry/section.js';
import { add, cross, dot, length, lineAngle, scale, sub, unit, Z } from '../geometry/vector.js';
import type { AccessPanel, AccessStop, Federation, ProjectFacts, RunAccess, Side, Vec3 } from '../model.js';
import { JOINT, STEEP } from '../tolerances.js';
import { gapsOf, reachedFrom } from './access-gaps.js';
import { type PlacedPanel, type WalkNode, walkOf } from './access-walk.js';
import { world } from './describe.js';
import { type LeafStack, piecesOf } from './leaves.js';
import type { Panel } from './panels.js';
import type { Piece } from './pieces.js';
import { roundAngle, roundLength } from './rounding.js';
import type { JoinedPieces, Runs } from './runs.js';
import { sectionDirections } from './straight.js';
import { endsRun } from './stretches.js';

export interface AccessSurroundings {
  readonly federation: Federation;
  readonly panels: readonly Panel[];
  readonly facts: ProjectFacts | undefined;
  readonly crossed: readonly { readonly id: string; readonly stack: LeafStack }[];
}

interface PanelOn {
  readonly panel: Panel;
  readonly on: Piece;
  readonly middle: Vec3;
}

export function runAccess(
  pieces: readonly Piece[],
  { runs, runOf, jointsOf }: Runs,
  around: AccessSurroundings,
): RunAccess[] {
  const ductsIn = boxIndex(pieces.filter((piece) => !piece.element.isAccessPanel && !endsRun(piece)));
  const byRun = new Map<string, PanelOn[]>();
  for (const panel of around.panels) {
    const on = ductsIn(grown(panel.box, JOINT))
      .map((duct) => ({ duct, distance: boxDistance(panel.box, duct.box) }))
      .sort((a, b) => Number(!a.duct.straight) - Number(!b.duct.straight) || a.distance - b.distance)[0]?.duct;
    const run = on && runOf.get(on.element);
    if (!on || run === undefined) continue;
    const middle = scale(add(panel.box.min, panel.box.max), 0.5);
    fileUnder(byRun, run, { panel, on, middle });
  }
  return runs.map((run) => describe(run, byRun.get(run.id) ?? [], { ...around, jointsOf }));
}

type Around = Omit<AccessSurroundings, 'panels'> & Pick<Runs, 'jointsOf'>;

function describe(run: JoinedPieces, panels: readonly PanelOn[], around: Around): RunAccess {
  const { federation, facts } = around;
  const named = run.pieces
    .map(({ element }) => element)
    .find(({ system }) => system !== undefined && system === run.system);
  const placed = panels.map((one): PlacedPanel => {
    const { panel, on, middle } = one;
    const at = footOf(on, middle);
    return { on, at, stop: { ...refOf(panel.element), kind: 'panel', name: panel.element.name, at } };
  });
  const walk = walkOf(run, placed);
  const printed = (stop: AccessStop): AccessStop => ({ ...stop, at: world(federation, stop.at) });
  const isPanel = (node: WalkNode): boolean => node.stop?.kind === 'panel';
  const start = [...walk.nodes].filter(({ stop }) => stop !== null).sort(byStop)[0];
  const chainage = start ? reachedFrom([start]) : undefined;
  const fromStops = reachedFrom(walk.nodes.filter(({ stop }) => stop !== null));
  const nodeOf = new Map(
    walk.nodes.flatMap((node) => (node.stop && isPanel(node) ? [[node.stop, node] as const] : [])),
  );
  return {
    run: run.id,
    systemType: named?.systemType ?? null,
    systemNames: named?.systemNames ?? [],
    complete: facts?.accessPanels?.modelled === true ? true : null,
    panels: panels
      .map((one, i) => {
        const way = chainage?.get(nodeOf.get(placed[i]!.stop)!)?.length;
        return { ...describePanel(one, around), chainage: way === undefined ? null : roundLength(way) };
      })
      .sort((a, b) => (a.chainage ?? 0) - (b.chainage ?? 0) || compareTexts(a.globalId, b.globalId)),
    gaps: gapsOf(walk)
      .map(({ length: way, level, path }) => {
        const first = path[0]!.node;
        const last = path.at(-1)!.node;
        const forward = byStop(first, last) <= 0 ? path : turned(path);
        let total = 0;
        return {
          from: printed(forward[0]!.node.stop!),
          to: printed(forward.at(-1)!.node.stop!),
          length: roundLength(way),
          level: roundLength(level),
          path: forward.map(({ node, way: next }) => {
            const here = { at: world(federation, node.at), chainage: roundLength(total), free: next?.isFree ?? false };
            total += next?.length ?? 0;
            return here;
          }),
        };
      })
      .sort((a, b) => compareTexts(keyOf(a.from), keyOf(b.from)) || compareTexts(keyOf(a.to), keyOf(b.to))),
    bends: walk.bends
      .map(({ node, piece, angle }) => {
        const reached = fromStops.get(node);
        return {
          ...refOf(piece.element),
          name: piece.element.name,
          at: world(federation, node.at),
          angle: roundAngle(angle),
          toAccess: reached ? roundLength(reached.length) : null,
          nearest: reached ? printed(reached.from.stop!) : null,
        };
      })
      .sort((a, b) => compareTexts(a.globalId, b.globalId)),
  };
}

/** The other way round: each node with the way that led to it. */
function turned(path: ReturnType<typeof gapsOf>[number]['path']) {
  const back = [...path].reverse();
  return back.map(({ node }, i) => {
    const way = back[i + 1]?.way;
    return { node, way: way ? { ...way, to: back[i + 1]!.node } : null };
  });
}

const keyOf = ({ globalId, model }: AccessStop): string => `${globalId} ${model}`;
const byStop = (a: WalkNode, b: WalkNode): number =>
  compareTexts(keyOf(a.stop!), keyOf(b.stop!)) || a.at[0] - b.at[0] || a.at[1] - b.at[1] || a.at[2] - b.at[2];

/** Its foot on the axis; the place itself where there is no axis. */
function footOf({ straight }: Piece, at: Vec3): Vec3 {
  if (!straight) return at;
  const [from] = straight.axis;
  return add(from, scale(straight.direction, dot(sub(at, from), straight.direction)));
}

function describePanel({ panel, on, middle }: PanelOn, around: Around): Omit<AccessPanel, 'chainage'> {
  const { element } = panel;
  return {
    ...refOf(element),
    name: element.name,
    evidence: element.accessEvidence ?? 'name',
    duct: refOf(on.element),
    at: world(around.federation, middle),
    ...lieOf(panel, on, middle),
    barrier: nearestBarrier(panel, on, around),
  };
}

/** On which side of the duct it lies, and how large it is there. */
function lieOf(
  panel: Panel,
  { straight }: Piece,
  middle: Vec3,
): Pick<AccessPanel, 'side' | 'width' | 'height' | 'toEdge'> {
  if (!straight) return { side: null, width: null, height: null, toEdge: null };
  const { direction, fit } = straight;
  const spot = sub(middle, footOf({ straight } as Piece, middle));
  if (length(spot) <= JOINT) return { side: null, width: null, height: null, toEdge: null };
  // Of a flat side its own normal; of a round duct the way from the axis to the panel.
  const faces = fit.shape === 'rectangular' ? sectionDirections(straight).flatMap((d) => [d, scale(d, -1)]) : [];
  const half = (d: Vec3): number => {
    const [low, high] = extent(straight.bodies, straight.axis[0], d);
    return (high - low) / 2;
  };
  const out = [...faces].sort((a, b) => dot(spot, b) / half(b) - dot(spot, a) / half(a))[0] ?? unit(spot);
  const across = unit(cross(direction, out));
  const size = (d: Vec3): readonly [number, number] => extent(panel.bodies, middle, d);
  const [along, over] = [size(direction), size(across)];
  const duct = extent(straight.bodies, middle, across);
  return {
    side: lineAngle(direction, Z) < STEEP ? null : sideOf(out, direction),
    width: roundLength(along[1] - along[0]),
    height: roundLength(over[1] - over[0]),
    toEdge: faces.length > 0 ? roundLength(Math.min(over[0] - duct[0], duct[1] - over[1])) : null,
  };
}

function sideOf(out: Vec3, direction: Vec3): Side {
  if (lineAngle(out, Z) < 45) return out[2] > 0 ? 'top' : 'bottom';
  return dot(out, cross(Z, direction)) > 0 ? 'left' : 'right';
}

/** Of the barriers that this piece passes, or one that is joined with it: others stand elsewhere along the run. */
function nearestBarrier(panel: Panel, on: Piece, { crossed, jointsOf }: Around): AccessPanel['barrier'] {
  const near = new Set([on, ...(jointsOf.get(on.element) ?? []).flatMap(({ pieces }) => pieces)].map((p) => p.element));
  return (
    crossed
      .filter(({ stack }) => piecesOf(stack).some(({ element }) => near.has(element)))
      .map(({ id, stack: { plate } }) => {
        const [low, high] = extent(panel.bodies, plate.frame.origin, plate.frame.z);
        return { penetration: id, distance: roundLength(Math.max(low, -high) - plate.thickness / 2) };
      })
      .sort((a, b) => a.distance - b.distance || compareTexts(a.penetration, b.penetration))[0] ?? null
  );
}
