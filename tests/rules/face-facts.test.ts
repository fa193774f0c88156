import { expect, it } from 'vitest';
import type { FaceFacts } from '../../src/model.js';
import { faceFacts } from '../../src/rules/face-facts.js';
import { face, obstacle, wrapped } from './factories.js';

it('says which side of the duct what is near stands on, or that it stands in line with it', () => {
  const facts = (side: FaceFacts['obstacles'][number]['side'], system: object) =>
    faceFacts(
      wrapped({ faces: [face({ obstacles: [obstacle({ side, clear: [[0, 90]] })] }), face()] }),
      system as Parameters<typeof faceFacts>[1],
      undefined,
    )[0]!.facts;
  const asked = { collarDepth: 20, localBuildUp: 300, roomBefore: 150 };
  const beside = (words: string | undefined, room: number) => ({
    ...{ collarRoom: room, buildUpRoom: room, damperRoom: room },
    ...(words && { collarRoomBy: words, buildUpRoomBy: words, damperRoomBy: words }),
  });
  expect(facts('left', asked)).toMatchObject(beside('Pipe 1, left', 90));
  expect(facts(null, asked)).toMatchObject(beside('Pipe 1, in line with it', 90));
});

it('of two faces that are reached alike the one with room is the one built from, where one is enough', () => {
  const system = { facesNeeded: 1, localBuildUp: 300, collarWidth: 100, collarDepth: 20, buildUpThickness: 80 };
  const other = face({ joint: { distance: 299, from: 'ports', to: null } });
  const built = (one: FaceFacts | null, two: FaceFacts | null, asked: object = system) =>
    faceFacts(wrapped({ faces: [one, two] }), asked as Parameters<typeof faceFacts>[1], undefined).map(
      ({ facts }) => facts.needed,
    );
  const near = (distance: number, to: number) =>
    face({ obstacles: [obstacle({ clear: [[0, to]] })], joint: joint(distance) });
  const joint = (distance: number) => ({ distance, from: 'ports', to: null }) as const;
  // Of two that are the same the first.
  expect(built(face(), face())).toEqual([true, false]);
  expect(built(other, face())).toEqual([false, true]);
  // Just enough is enough: joint, collar and build-up each by themselves.
  expect(built(near(300, 100), face())).toEqual([true, false]);
  expect(built(near(300, 99), face())).toEqual([false, true]);
  expect(built(near(300, 79), near(300, 99))).toEqual([false, true]);
  // A face that is not known has no room.
  expect(built(null, face())).toEqual([false, true]);
  expect(built(face(), null)).toEqual([true, false]);
  // Where both are built nobody chooses.
  expect(built(other, face(), { ...system, facesNeeded: 2 })).toEqual([true, true]);
});
