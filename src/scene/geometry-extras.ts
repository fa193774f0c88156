/**
 * What geometry.glb says beside its triangles: `extras` of its nodes, for the viewer and for any other program. The file is
 * glTF's: metres, Y up; its root node turns and scales what lies under it, so that below it all is the federation's inner frame
 * (millimetres, Z up, `origin` to be added for the world's).
 */
import type { ElementRef, Outcome, Polygon, RuleStatus, Vec3 } from '../model.js';
import type { DrawnKind } from './scene.js';

export const GEOMETRY_FILE = 'geometry.glb';

/** Of the root node. */
export interface RootExtras {
  readonly format: 'ratedrun-geometry';
  readonly version: 1;
  /** mm. */
  readonly origin: Vec3;
  /** Of the report that it belongs to. */
  readonly createdAt: string;
}

/** Groups under the root, by the name of their node. */
export const GEOMETRY_GROUPS = ['elements', 'protection', 'findings', 'proposed'] as const;
export type GeometryGroup = (typeof GEOMETRY_GROUPS)[number];

/** Of a node under `elements`: one element of the models. */
export interface ElementExtras extends ElementRef {
  /** `context`: columns, beams, ceilings and whatever else stands there. */
  readonly kind: DrawnKind | 'context';
  readonly name: string;
  /** GlobalId; null: not said. */
  readonly storey: string | null;
  readonly system: string | null;
  /** The barrier that an opening is in. */
  readonly host: ElementRef | null;
  /** Of a barrier that something passes: how it is drawn flat. */
  readonly face: BarrierFace | null;
}

/** A barrier as a setting-out drawing shows it, seen from side A; millimetres in the plane of the face. */
export interface BarrierFace {
  /** World; the zero of the outlines. */
  readonly origin: Vec3;
  readonly right: Vec3;
  readonly up: Vec3;
  readonly normal: Vec3;
  /** Outlines first, then holes, by their winding. */
  readonly outline: readonly Polygon[];
  /** Modelled openings, also those without any duct. */
  readonly openings: readonly Polygon[];
  /** Other services, where the middle of the barrier cuts them. */
  readonly services: readonly Polygon[];
}

/** Of a node under `protection`: what is to be built. */
export interface ProtectionExtras {
  readonly kind: 'protection';
  /** A material of the take-off. */
  readonly part: 'blanket' | 'board' | 'localBuildUp' | 'boardCollar' | 'angle' | 'sealant' | 'packing' | 'accessPanel';
  readonly run: string | null;
  /** Of what is built at a penetration. */
  readonly penetration: string | null;
  /** The element that it goes round. */
  readonly element: ElementRef | null;
  readonly storey: string | null;
  readonly testedSystem: string;
  readonly status: RuleStatus;
  /** From the inside: 1 is the first. */
  readonly layer: number;
}

/** Of a node under `findings`, which is a place and draws nothing; the node's translation is the place in inner coordinates. */
export interface FindingExtras {
  readonly kind: 'finding';
  /** mm in the world. */
  readonly at: Vec3;
  readonly id: string;
  readonly key: string;
  readonly check: string;
  readonly outcome: Outcome;
  readonly message: string;
  readonly penetration: string | null;
}

/** Of a node under `proposed`: an element or opening as a remedy would have it. */
export interface ProposedExtras extends ElementRef {
  readonly kind: 'proposed';
  /** Id of the finding that the remedy mends. */
  readonly finding: string;
  /** mm in the world, where it is moved only. */
  readonly by: Vec3 | null;
}

export type GeometryExtras = ElementExtras | ProtectionExtras | FindingExtras | ProposedExtras;
