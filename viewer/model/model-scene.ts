/** All that is drawn of a report: elements, protection, rims, marks, what is cut and what is proposed. */
import {
  BufferAttribute,
  BufferGeometry,
  DoubleSide,
  Mesh,
  MeshBasicMaterial,
  Plane,
  Scene,
  Vector2,
  Vector3,
} from 'three';
import type { ReportFinding, ReportPenetration } from '../../src/report/schema.js';
import type { OpenReport, Side } from '../state/state.js';
import { batchGroups, batchOf } from './batch.js';
import { BuildingParts, ORDER } from './building-parts.js';
import { type Colours, over } from './colours.js';
import type { Elements } from './elements.js';
import { filled } from './filled.js';
import type { Geometry } from './geometry.js';
import { MarkSigns } from './mark-signs.js';
import { OpeningMask } from './opening-mask.js';
import { ductOnFace, onFace, placeOf } from './place.js';
import { ProtectionParts } from './protection-parts.js';
import { allRims, rimLines, signsOf } from './rims.js';
import { keptLines, sectionLines, sectionOf } from './section-lines.js';
import { sharpLines } from './sharp-lines.js';
import type { Cut } from './standpoint.js';
import { WideLines } from './wide-lines.js';

export interface Shown {
  readonly penetration: ReportPenetration | undefined;
  readonly side: Side;
  readonly cut: Cut | null;
  /** Two bytes for each element, see `look.ts`. */
  readonly states: Uint8Array;
  /** Numbers of the elements that may be cut by the plane: those near. */
  readonly near: readonly number[];
  readonly protection: boolean;
  readonly isHere: (storey: string | null) => boolean;
  /** The finding whose change is drawn; undefined: as modelled. */
  readonly proposal: ReportFinding | undefined;
  /** Where penetrations are marked; the report's own where all storeys are shown. */
  readonly penetrations: readonly ReportPenetration[];
}

export class ModelScene {
  readonly scene = new Scene();
  readonly building: BuildingParts;
  private readonly protection: ProtectionParts;
  private readonly marks: MarkSigns;
  private readonly plane = new Plane(new Vector3(0, 0, 1), FAR);
  private readonly openings = new OpeningMask([this.plane]);
  private readonly rims = new WideLines({ width: 1.25 }, ORDER.rims, [this.plane]);
  private readonly ownRim = new WideLines({ width: 2.25, over: true }, ORDER.rims);
  private readonly section = new WideLines({ width: 1.75, over: true }, ORDER.lines);
  private readonly proposed = new WideLines({ width: 2, dashed: true, over: true }, ORDER.rims);
  private readonly caps = new Mesh(new BufferGeometry(), new MeshBasicMaterial({ side: DoubleSide }));
  private shown: Shown | undefined;
  private colours: Colours;

  constructor(
    private readonly elements: Elements,
    private readonly geometry: Geometry,
    colours: Colours,
  ) {
    this.building = new BuildingParts(elements.nodes.length);
    this.protection = new ProtectionParts(geometry.protection, this.building.shared);
    this.marks = new MarkSigns(this.building.shared);
    this.caps.renderOrder = ORDER.solid;
    this.caps.visible = false;
    const wide = this.wide.map(({ object }) => object);
    this.scene.add(
      this.building.group,
      this.protection.group,
      this.caps,
      this.openings.object,
      ...wide,
      this.marks.object,
    );
    this.colours = colours;
    this.setColours(colours);
  }

  /** Makes the meshes of the elements piece by piece, so that the page goes on. @param isWanted false ends it */
  async build(isWanted: () => boolean): Promise<void> {
    let since = performance.now();
    for (const group of batchGroups(this.elements)) {
      this.building.add(batchOf(group, this.elements.nodes));
      if (performance.now() - since < SLICE) continue;
      await new Promise((done) => setTimeout(done));
      since = performance.now();
      if (!isWanted()) return;
    }
    this.building.setColours(this.colours);
  }

  private get wide(): readonly WideLines[] {
    return [this.rims, this.section, this.ownRim, this.proposed];
  }

  show(shown: Shown): void {
    const before = this.shown;
    this.shown = shown;
    this.building.setStates(shown.states);
    this.building.setCut(shown.cut);
    this.protection.setCut(shown.cut);
    this.protection.show(shown.protection, shown.isHere);
    if (shown.cut) {
      const { at, outwards } = shown.cut;
      // The plane keeps what it points to.
      this.plane.setFromNormalAndCoplanarPoint(new Vector3(...outwards).negate(), new Vector3(...at));
    } else this.plane.set(new Vector3(0, 0, 1), FAR);
    const drawn = shown.near.filter((id) => shown.states[2 * id] !== 0);
    this.section.set(shown.cut ? sectionOf(this.elements, drawn, shown.cut) : []);
    this.setPenetration(shown);
    this.setProposal(shown);
    if (before?.penetrations !== shown.penetrations) this.markAll(shown.penetrations);
  }

  setColours(colours: Colours): void {
    this.colours = colours;
    this.building.setColours(colours);
    this.protection.setColours(colours);
    this.marks.setColours(colours);
    this.section.setColour(colours.ink);
    this.proposed.setColour(colours.ink);
    this.caps.material.color.setRGB(...over(colours.secondary, 0.35, colours.page));
    if (this.shown) {
      this.setPenetration(this.shown);
      this.markAll(this.shown.penetrations);
    }
  }

  /** @param millimetres of one pixel at the target */
  setScale(width: number, height: number, millimetres: number): void {
    for (const lines of this.wide) lines.setScale(new Vector2(width, height), millimetres);
    this.marks.setPixels(width, height);
    this.building.setScale(millimetres);
  }

  dispose(): void {
    this.building.dispose();
    this.protection.dispose();
    this.marks.dispose();
    this.openings.dispose();
    for (const lines of this.wide) lines.dispose();
    this.caps.geometry.dispose();
    this.caps.material.dispose();
    this.scene.clear();
  }

  private markAll(penetrations: OpenReport['report']['penetrations']): void {
    const { lines, colours } = allRims(penetrations, this.geometry.origin, this.colours);
    this.openings.set(penetrations, this.geometry.origin);
    this.rims.set(lines, colours);
    this.marks.set(signsOf(penetrations, this.geometry.origin), this.colours);
  }

  /** The rim in the colour of its outcome; where the duct is cut at the face, its section is filled. */
  private setPenetration({ penetration, side, cut }: Shown): void {
    this.ownRim.set(penetration ? rimLines(penetration, this.geometry.origin, side) : []);
    if (penetration) this.ownRim.setColour(this.colours.outcomes[penetration.outcome]);
    this.caps.geometry.dispose();
    const corners = penetration && cut ? capOf(penetration, this.geometry, side, cut) : [];
    this.caps.geometry = new BufferGeometry().setAttribute(
      'position',
      new BufferAttribute(Float32Array.from(corners), 3),
    );
    this.caps.visible = corners.length > 0;
  }

  /** What is proposed: its edges, and its section where everything is cut. */
  private setProposal({ proposal, cut }: Shown): void {
    const lines: number[] = [];
    for (const { extras, positions, triangles } of this.geometry.proposed) {
      if (!proposal || extras.finding !== proposal.id) continue;
      for (const end of sharpLines(positions, triangles)) {
        const p = 3 * end;
        lines.push(positions[p]!, positions[p + 1]!, positions[p + 2]!);
      }
      if (cut) sectionLines({ positions, triangles }, cut, lines);
    }
    this.proposed.set(keptLines(lines, cut));
  }
}
/** ms. */
const SLICE = 30;
/** mm; a plane that cuts nothing. */
const FAR = 1e9;

function capOf(p: ReportPenetration, { origin }: Geometry, side: Side, { outwards }: Cut): number[] {
  const place = placeOf(p, origin);
  const along = place.frame.z;
  const isAtFace = Math.abs(outwards[0] * along[0] + outwards[1] * along[1] + outwards[2] * along[2]) > 0.99;
  if (!isAtFace) return [];
  return filled(ductOnFace(place, side), (q) => onFace(place, side, q, CAP));
}
/** Between the face and where it is cut, mm. */
const CAP = 0.5;
