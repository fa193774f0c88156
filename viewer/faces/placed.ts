/** A row of a barrier as it is placed in the page: px, y downwards. */
import type { Box } from '../../src/draw/paper/layout.js';
import type { Outcome, Polygon, Vec2 } from '../../src/model.js';
import type { ReportPenetration } from '../../src/report/schema.js';
import type { DrawnEdge } from './cut-out.js';
import type { FlatPenetration } from './flat.js';

export interface PlacedPenetration {
  readonly penetration: ReportPenetration;
  readonly duct: readonly Polygon[];
  readonly opening: readonly Polygon[];
  /** Round the duct. */
  readonly box: Box;
  /** Whether the filter lets it through. */
  readonly isSeen: boolean;
}

export interface PlacedMark {
  /** Of the one that it stands on; the most serious of a cluster. */
  readonly penetration: ReportPenetration;
  /** All that it stands for. */
  readonly members: readonly FlatPenetration[];
  readonly outcome: Outcome;
  /** Its middle. */
  readonly at: Vec2;
  readonly size: number;
  readonly label: Box;
  /** From the duct to the label. */
  readonly leader: Polygon;
}

export interface PlacedRow {
  readonly width: number;
  readonly height: number;
  readonly drawingHeight: number;
  /** Of the barrier, to be filled by the even-odd rule. */
  readonly solid: readonly Polygon[];
  readonly edges: readonly DrawnEdge[];
  readonly openings: readonly Polygon[];
  readonly openingEdges: readonly DrawnEdge[];
  readonly services: readonly Polygon[];
  /** Where the barrier goes on and is not drawn: lines to be drawn with a zigzag. */
  readonly breaks: readonly DrawnEdge[];
  /** Of the storey and of the structure over a wall. */
  readonly levels: readonly DrawnEdge[];
  readonly penetrations: readonly PlacedPenetration[];
  readonly marks: readonly PlacedMark[];
}
