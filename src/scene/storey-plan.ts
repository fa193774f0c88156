/** A storey as it is seen on plan: plain data for whoever draws it. */
import type { BarrierKind, Construction, Outcome, Polygon, Rating, Vec2 } from '../model.js';

/**
 * Lengths in mm. Coordinates are the federation's inner ones, x and y: add `origin` for the world's. Outlines of areas:
 * outer ones counter-clockwise, holes clockwise.
 */
export interface StoreyPlan {
  /** `L-01`, upwards. */
  readonly id: string;
  /** What the models call it, the commonest name first; empty where they name no storey. */
  readonly names: readonly string[];
  /** World height of the feet of its walls. */
  readonly elevation: number;
  /** World height of the cut. */
  readonly cutAt: number;
  readonly origin: Vec2;
  /** Which way +y points: to the map's grid north, or only to what this project's plans have on top. */
  readonly up: 'mapNorth' | 'planNorth';
  readonly walls: readonly PlanWall[];
  readonly columns: readonly Polygon[];
  /** Where walls are cut through a door, a window or a hole. */
  readonly openings: readonly PlanOpening[];
  /** Openings in the floor. */
  readonly voids: readonly Polygon[];
  readonly ducts: readonly PlanDuct[];
  readonly axes: readonly PlanAxis[];
  readonly compartments: readonly { readonly name: string; readonly at: Vec2 }[];
  readonly penetrations: readonly PlanPenetration[];
}

export interface PlanWall {
  readonly name: string;
  /** Openings that are cut at this height are cut out. */
  readonly outlines: readonly Polygon[];
  readonly rating: Rating;
  readonly construction: Construction;
  /** Known to hold back fire; null: its rating can't be read. */
  readonly rated: boolean | null;
}

export interface PlanOpening {
  readonly isDoor: boolean;
  readonly outlines: readonly Polygon[];
}

export interface PlanDuct {
  /** What it covers on plan. */
  readonly outlines: readonly Polygon[];
  /** Against the height of the cut. */
  readonly lies: 'above' | 'cut' | 'below';
  readonly isUpright: boolean;
  readonly isDamper: boolean;
  /** Of straight pieces that do not stand upright. */
  readonly centreLine: readonly [Vec2, Vec2] | null;
}

export interface PlanAxis {
  readonly tag: string;
  readonly ends: readonly [Vec2, Vec2];
}

export interface PlanPenetration {
  readonly id: string;
  readonly tag: string;
  readonly outcome: Outcome;
  readonly kind: BarrierKind;
  /** In the floor or roof over this storey, since no storey stands on it. */
  readonly isOverhead: boolean;
  readonly at: Vec2;
  /** Unit vector along the barrier on plan; along +y for floors and roofs. */
  readonly along: Vec2;
  /** The duct where it passes a floor or a roof; empty for walls. */
  readonly outlines: readonly Polygon[];
}
