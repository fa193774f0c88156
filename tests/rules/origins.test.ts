import { expect, it } from 'vitest';
import type { DuctFacts } from '../../src/model.js';
import { originOf } from '../../src/rules/origins.js';
import { barrier, duct, penetration, treated } from './factories.js';

const of = (fact: string, changes: Partial<DuctFacts> = {}) => originOf(fact, penetration({ duct: duct(changes) }));
const wall = duct().wall;

it('says where each fact of a duct was taken from', () => {
  expect(of('duct.material')).toBe("the duct's material in the model");
  expect(of('duct.element')).toBe("the duct's class in the model");
  expect(of('duct.width', { sectionFrom: 'profile' })).toBe("the duct's profile in the model");
  expect(of('duct.width', { sectionFrom: 'property' })).toBe("the duct's properties in the model");
  expect(of('duct.width', { sectionFrom: null })).toBe('nothing in the model');
  expect(of('duct.width', { sectionFrom: 'mesh' })).toBe("the duct's mesh in the model");
  expect(of('duct.width', { sectionFrom: 'mesh', sectionResidual: 0.3 })).toBe(
    "the duct's mesh in the model, to 0.3 mm",
  );
});

it('says of the sheet what told of it, not where the section came from', () => {
  const sheet = (from: 'brief' | 'layers') => ({ wall: { ...wall, sheet: { thickness: 0.8, from } } });
  expect(of('duct.wall.sheet', sheet('brief'))).toBe('the project brief');
  expect(of('duct.wall.sheet', sheet('layers'))).toBe('the model: layers');
  expect(of('duct.wall.sheet')).toBe('nothing in the model or brief');
});

it('says where facts of the barrier, the treatment and the brief were taken from', () => {
  expect(originOf('barrier.kind', penetration())).toBe("the barrier's class in the model");
  expect(originOf('barrier.thickness', penetration())).toBe("the barrier's geometry");
  expect(originOf('barrier.thickness', penetration({ barrier: barrier({ leafFrom: null }) }))).toBe(
    'nothing in the model',
  );
  expect(originOf('barrier.construction', penetration())).toBe("the barrier's layers and names in the model");
  const { treatment } = treated('blanket');
  expect(originOf('system.layers', penetration({ treatment: { ...treatment, evidence: 'drawing 7' } }))).toBe(
    'drawing 7',
  );
  expect(originOf('penetration.treatment.kind', penetration())).toBe('nothing in the model or brief');
  expect(originOf('brief.pressure', penetration())).toBe('the project brief');
  expect(originOf('penetration.skew', penetration())).toBe("the models' geometry");
});
