/** Which elements files say are joined: by ports of one file that name each other, in whichever direction. */
import { expect, it } from 'vitest';
import { PortLinks } from '../../src/find/port-links.js';
import type { AirElement } from '../../src/model.js';
import { aDuct } from './elements.js';

const withPorts = (globalId: string, ports: Readonly<Record<string, string | undefined>>, model = 'm1'): AirElement =>
  aDuct({
    ...{ model, globalId },
    ports: Object.entries(ports).map(([port, connectedTo]) => ({ globalId: port, at: [0, 0, 0], connectedTo })),
  });

it.each<[string, readonly AirElement[], boolean]>([
  ['the first names the second', [withPorts('A', { p: 'q' }), withPorts('B', { q: undefined })], true],
  ['the second names the first', [withPorts('A', { p: undefined }), withPorts('B', { q: 'p' })], true],
  ['both name each other', [withPorts('A', { p: 'q' }), withPorts('B', { q: 'p' })], true],
  ['by the last of their ports', [withPorts('A', { o: 'x', p: 'q' }), withPorts('B', { y: undefined, q: 'p' })], true],
  ['neither names one', [withPorts('A', { p: undefined }), withPorts('B', { q: undefined })], false],
  ['they have no ports', [withPorts('A', {}), withPorts('B', {})], false],
  ['both name a port that nothing has', [withPorts('A', { p: 'x' }), withPorts('B', { q: 'x' })], false],
  ['each names its own', [withPorts('A', { p: 'p' }), withPorts('B', { q: 'q' })], false],
  ['a file names a port of another file', [withPorts('A', { p: 'q' }), withPorts('B', { q: undefined }, 'm2')], false],
  ['both name a third', [withPorts('A', { p: 'r' }), withPorts('B', { q: 'r' }), withPorts('C', { r: 'p' })], false],
])('%s', (_, elements, expected) => {
  const links = new PortLinks(elements);
  const [a, b] = elements as [AirElement, AirElement];
  expect([links.areLinked(a, b), links.areLinked(b, a)]).toEqual([expected, expected]);
});

it('one GlobalId in two files is two ports', () => {
  const [a, b] = [withPorts('A', { p: 'q' }), withPorts('B', { q: 'p' })];
  const [c, d] = [withPorts('A', { p: 'q' }, 'm2'), withPorts('B', { q: 'p' }, 'm2')];
  const links = new PortLinks([a, c, b, d]);
  expect([links.areLinked(a, b), links.areLinked(c, d)]).toEqual([true, true]);
  expect([links.areLinked(a, d), links.areLinked(c, b), links.areLinked(a, c)]).toEqual([false, false, false]);
});

it('nothing is known of what was not read, even where ports lead nowhere', () => {
  const [a, elsewhere] = [withPorts('A', { p: 'x' }), withPorts('E', { x: 'p' })];
  expect(new PortLinks([a]).areLinked(a, elsewhere)).toBe(false);
  expect(new PortLinks([a]).areLinked(elsewhere, a)).toBe(false);
});
