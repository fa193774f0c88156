/** Access panels of ductwork near what has to be reached through them. */
import { refOf } from '../element-refs.js';
import { boxDistance, grown } from '../geometry/box.js';
import { boxIndex } from '../geometry/box-index.js';
import type { AirElement, DamperAccess, ProjectFacts } from '../model.js';
import { ACCESS_LOOK, ACCESS_REACH, JOINT } from '../tolerances.js';
import type { Panel } from './panels.js';
import type { Piece } from './pieces.js';
import { roundLength } from './rounding.js';

export type AccessFinder = (piece: Piece) => DamperAccess;

/** @param facts whether all panels are modelled: only then is one that is not seen not there */
export function accessFinder(
  pieces: readonly Piece[],
  panels: readonly Panel[],
  runOf: ReadonlyMap<AirElement, string>,
  facts: ProjectFacts | undefined,
): AccessFinder {
  const panelsIn = boxIndex(panels);
  const piecesIn = boxIndex(pieces);
  // A panel is seldom joined by ports; it lies on the duct that it opens.
  const isOn = (panel: Panel, run: string | undefined): boolean =>
    run !== undefined && piecesIn(grown(panel.box, JOINT)).some(({ element }) => runOf.get(element) === run);
  return (piece) => {
    const run = runOf.get(piece.element);
    const nearest = panelsIn(grown(piece.box, ACCESS_LOOK))
      .filter((panel) => isOn(panel, run))
      .map((panel) => ({ panel: refOf(panel.element), distance: roundLength(boxDistance(piece.box, panel.box)) }))
      .sort((a, b) => a.distance - b.distance)[0];
    const isNear = nearest !== undefined && nearest.distance <= ACCESS_REACH;
    const withinReach = isNear ? true : facts?.accessPanels?.modelled ? false : null;
    return { panel: nearest?.panel ?? null, distance: nearest?.distance ?? null, withinReach };
  };
}
