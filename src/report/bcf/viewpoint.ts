/** A viewpoint file: who looks from where at which elements. Metres, Z up. */
import type { Camera, CutPlane } from '../../draw/camera.js';
import { ASPECT, HORIZONTAL_VIEW, VERTICAL_VIEW } from '../../draw/camera.js';
import type { Vec3 } from '../../model.js';
import { isGlobalId } from '../global-id.js';
import { element, writeXml, type XmlElement } from '../xml.js';
import type { BcfVersion } from './topic.js';

export interface Viewpoint {
  readonly guid: string;
  /** World, mm. */
  readonly camera: Camera;
  readonly planes: readonly CutPlane[];
  /** GlobalIds. */
  readonly selected: readonly string[];
  /** All that is to be seen. */
  readonly visible: readonly string[];
  readonly coloured: { readonly argb: string; readonly components: readonly string[] };
}

/** More than the standard advises to list. */
const MOST_COMPONENTS = 1000;

export function writeViewpoint(viewpoint: Viewpoint, version: BcfVersion): string {
  const { guid, camera, planes } = viewpoint;
  const isNew = version === '3.0';
  return writeXml(
    element(
      'VisualizationInfo',
      { Guid: guid },
      componentsElement(viewpoint, isNew),
      element(
        'PerspectiveCamera',
        {},
        point('CameraViewPoint', camera.eye),
        direction('CameraDirection', camera.direction),
        direction('CameraUpVector', camera.up),
        // 2.1 means the angle across the picture, 3.0 the angle up it.
        element('FieldOfView', {}, digits(isNew ? VERTICAL_VIEW : HORIZONTAL_VIEW)),
        ...(isNew ? [element('AspectRatio', {}, digits(ASPECT))] : []),
      ),
      element(
        'ClippingPlanes',
        {},
        ...planes.map((plane) =>
          element('ClippingPlane', {}, point('Location', plane.at), direction('Direction', plane.direction)),
        ),
      ),
    ),
  );
}

function componentsElement({ selected, visible, coloured }: Viewpoint, isNew: boolean): XmlElement {
  const hints = element('ViewSetupHints', {
    SpacesVisible: 'false',
    SpaceBoundariesVisible: 'false',
    OpeningsVisible: 'false',
  });
  const [selection, exceptions, colours] = [selected, visible, coloured.components].map(components);
  const colour = element(
    'Color',
    { Color: coloured.argb },
    ...(isNew ? [element('Components', {}, ...colours!)] : colours!),
  );
  const visibility = element(
    'Visibility',
    // Where nothing that is to be seen can be named, everything is shown.
    { DefaultVisibility: String(exceptions!.length === 0) },
    ...(isNew ? [hints] : []),
    ...(exceptions!.length === 0 ? [] : [element('Exceptions', {}, ...exceptions!)]),
  );
  return element(
    'Components',
    {},
    ...(isNew ? [] : [hints]),
    ...(selection!.length === 0 ? [] : [element('Selection', {}, ...selection!)]),
    visibility,
    ...(colours!.length === 0 ? [] : [element('Coloring', {}, colour)]),
  );
}

/** What has no proper GlobalId can't be named. */
const components = (globalIds: readonly string[]): XmlElement[] =>
  [...new Set(globalIds)]
    .filter(isGlobalId)
    .slice(0, MOST_COMPONENTS)
    .map((globalId) => element('Component', { IfcGuid: globalId }));

const point = (name: string, [x, y, z]: Vec3): XmlElement => axes(name, [x / 1000, y / 1000, z / 1000]);
const direction = (name: string, d: Vec3): XmlElement => axes(name, d);
const axes = (name: string, values: readonly number[]): XmlElement =>
  element(name, {}, ...['X', 'Y', 'Z'].map((axis, i) => element(axis, {}, digits(values[i]!))));

/** Micrometres, and as fine in directions; never an exponent. */
const digits = (value: number): string => value.toFixed(6).replace(/^-(0\.0+)$/, '$1');
