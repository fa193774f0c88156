/** Everything that can stand in the way of ductwork and of what is put round it, in one index of boxes. */
import { refOf } from '../element-refs.js';
import { type Box, boxOf } from '../geometry/box.js';
import { boxIndex } from '../geometry/box-index.js';
import type {
  AirElementKind,
  BarrierKind,
  Body,
  Construction,
  ElementRef,
  Federation,
  Obstacle,
  OtherService,
} from '../model.js';
import type { Piece } from './pieces.js';

/** Something that takes up room. */
export interface Standing {
  readonly ref: ElementRef;
  readonly name: string;
  readonly what: 'barrier' | 'column' | 'obstacle' | 'service' | 'duct';
  readonly kind: BarrierKind | 'column' | Obstacle['kind'] | OtherService['kind'] | AirElementKind;
  readonly bodies: readonly Body[];
  readonly box: Box;
  /** Undefined: nothing tells. */
  readonly combustible: boolean | undefined;
  /** Of a barrier. */
  readonly construction?: Construction;
  /** Of ductwork: the piece itself. */
  readonly piece?: Piece;
}

export type StandingIn = (box: Box) => Standing[];

/**
 * @param pieces ductwork as it was made ready for measuring
 * @returns everything whose box meets the one that is asked for, in the order: barriers, columns, obstacles, other services,
 *   ductwork. Answers take the time of the index, not of the list.
 */
export function obstacleIndex(federation: Federation, pieces: readonly Piece[]): StandingIn {
  const { barriers, columns, otherServices, obstacles = [] } = federation;
  const standing = (what: Standing['what'], elements: readonly (Omit<Obstacle, 'kind'> & Pick<Standing, 'kind'>)[]) =>
    elements.map(
      (element): Standing => ({
        ref: refOf(element),
        name: element.name,
        what,
        kind: element.kind,
        bodies: element.bodies,
        box: boxOf(element.bodies),
        combustible: element.combustible,
      }),
    );
  return boxIndex([
    ...standing('barrier', barriers).map((one, i) => ({ ...one, construction: barriers[i]!.construction })),
    ...standing('column', columns),
    ...standing('obstacle', obstacles),
    ...standing('service', otherServices),
    ...pieces.map(
      (piece): Standing => ({
        ref: refOf(piece.element),
        name: piece.element.name,
        what: 'duct',
        kind: piece.element.kind,
        bodies: piece.bodies,
        box: piece.box,
        combustible: undefined,
        piece,
      }),
    ),
  ]);
}
