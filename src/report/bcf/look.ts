/** The viewpoint and the snapshot of a topic, where there is a place to look at. */
import { movedCamera, movedPlane } from '../../draw/camera.js';
import { hexCode, OUTCOME_COLOURS } from '../../draw/palette.js';
import { elementsOf, type Place, placeOf, placeOn, seenAt } from '../../draw/place.js';
import { drawSnapshot } from '../../draw/snapshot.js';
import { standpointFor } from '../../draw/standpoint.js';
import type { Vec3 } from '../../model.js';
import type { Scene } from '../../scene/scene.js';
import { relate } from '../penetration-outcome.js';
import type { Report, ReportPenetration } from '../schema.js';
import { DEMONSTRATION_LABEL, isTopic, type OwnTopic } from './own-topics.js';
import { partGuid } from './topic-guid.js';
import type { Viewpoint } from './viewpoint.js';

export interface Look {
  readonly viewpoint: Viewpoint;
  /** PNG. */
  readonly snapshot: Uint8Array;
}

/** As far from such a place as this, along each axis, elements may be seen there or stand in the way, mm. */
export const IN_SIGHT = 5000;

/** World positions of all that topics are about: what a scene has to hold. */
export function placesOf(report: Report): Vec3[] {
  const concerned = relate(report.penetrations);
  return report.findings
    .filter(isTopic)
    .flatMap((finding) => [concerned(finding)[0]?.position ?? null, finding.at])
    .filter((position) => position !== null);
}

/** Draws each picture once: findings of one penetration that are seen from the same side share it. */
export function looksAt(report: Report, scene: Scene): (topic: OwnTopic) => Look | undefined {
  const drawn = new Map<string, Uint8Array>();
  return (topic) => {
    const place = placeFor(topic, scene);
    if (!place) return undefined;
    const [finding] = topic.findings;
    const side = topic.subject.kind === 'finding' ? finding!.side : null;
    const standpoint = standpointFor(place, scene, side);
    const tag = ownPenetration(topic)?.tag ?? '';
    const key = JSON.stringify([tag, place.frame.origin, place.rim, standpoint]);
    const snapshot =
      drawn.get(key) ??
      drawSnapshot(place, standpoint, scene, {
        tag,
        outcome: finding!.outcome,
        stamp: report.demonstration ? DEMONSTRATION_LABEL : null,
      });
    drawn.set(key, snapshot);
    const { camera, planes } = standpoint;
    return { snapshot, viewpoint: viewpointOf(topic, place, scene, { camera, planes }) };
  };
}

/** A finding on a barrier that names its own spot is looked at there, whatever else passes the barrier. */
function placeFor(topic: OwnTopic, scene: Scene): Place | undefined {
  const [finding] = topic.findings;
  const own = ownPenetration(topic);
  const spot = own || finding!.at === null ? undefined : placeOn(finding!.subject.elements, finding!.at, scene);
  const there = own ?? topic.penetrations[0];
  return spot ?? (there && placeOf(there, scene));
}

const ownPenetration = ({ findings, penetrations }: OwnTopic): ReportPenetration | undefined =>
  findings[0]!.subject.type === 'penetration' ? penetrations[0] : undefined;

function viewpointOf(
  { topic, findings, penetrations }: OwnTopic,
  place: Place,
  scene: Scene,
  { camera, planes }: Pick<Viewpoint, 'camera' | 'planes'>,
): Viewpoint {
  const ids = (elements: readonly { readonly globalId: string }[]) => elements.map((element) => element.globalId);
  const ducts = ids(place.ducts);
  // A finding on two ducts names both.
  const beside = penetrations.length === 2 ? penetrations.flatMap((p) => ids(p.elements)) : [];
  return {
    guid: partGuid(topic.guid, 'viewpoint'),
    camera: movedCamera(camera, scene.origin),
    planes: planes.map((plane) => movedPlane(plane, scene.origin)),
    selected: [...ducts, ...beside, ...ids(place.barriers), ...(place.opening ? ids([place.opening]) : [])],
    visible: ids([...elementsOf(place.ducts, scene), ...seenAt(place, scene).filter((e) => e.kind !== 'opening')]),
    coloured: { argb: `FF${hexCode(OUTCOME_COLOURS[findings[0]!.outcome])}`, components: ducts },
  };
}
