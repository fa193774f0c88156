/** Where a fact of a penetration was taken from, in words that follow "from". */
import type { Penetration } from '../model.js';
import { valueWords } from '../words/values.js';

/** @param fact a path, e.g. `duct.width` */
export function originOf(fact: string, penetration: Penetration): string {
  const [group, ...rest] = fact.split('.');
  const name = rest.join('.');
  if (group === 'brief') return 'the project brief';
  if (group === 'duct') return ductOrigin(name, penetration);
  if (group === 'barrier') return barrierOrigin(name, penetration);
  if (name === 'treatment.kind' || group === 'system') return treatmentOrigin(penetration);
  return "the models' geometry";
}

function ductOrigin(name: string, { duct }: Penetration): string {
  if (name === 'material') return "the duct's material in the model";
  if (name === 'element') return "the duct's class in the model";
  if (name === 'wall.sheet')
    return duct.wall.sheet ? wallOrigin(duct.wall.sheet.from) : 'nothing in the model or brief';
  if (duct.sectionFrom === 'profile') return "the duct's profile in the model";
  if (duct.sectionFrom === 'property') return "the duct's properties in the model";
  if (duct.sectionFrom === null) return 'nothing in the model';
  const off = duct.sectionResidual === null ? '' : `, to ${valueWords(duct.sectionResidual, 'mm')}`;
  return `the duct's mesh in the model${off}`;
}

const wallOrigin = (from: string): string => (from === 'brief' ? 'the project brief' : `the model: ${from}`);

function barrierOrigin(name: string, { barrier }: Penetration): string {
  if (name === 'kind') return "the barrier's class in the model";
  if (name === 'thickness')
    return barrier.leafFrom === null ? 'nothing in the model' : `the barrier's ${barrier.leafFrom}`;
  return "the barrier's layers and names in the model";
}

/** What is there is what the brief declares or the model shows. */
const treatmentOrigin = ({ treatment }: Penetration): string => treatment.evidence ?? 'nothing in the model or brief';
