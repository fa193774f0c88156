/** How dampers and their places are told in papers. */
import { number } from '../words/text.js';
import { valueWords } from '../words/values.js';
import type { ReportPenetration } from './schema.js';
import { ratingWords, sectionWords } from './words.js';

type Damper = ReportPenetration['dampers'][number];

const MADE_FOR = { wall: 'walls', floor: 'floors', both: 'walls and floors' } as const;
const SIZE_FROM = { geometry: 'as drawn', property: 'as stated', duct: 'as its duct', casing: 'its casing' } as const;

/** A sentence for each damper in the barrier, and for the one that stands outside it. */
export function damperSentences({ dampers, damperOutside }: ReportPenetration): string[] {
  const outside = damperOutside && [
    `${damperOutside.name || damperOutside.globalId}: ${valueWords(damperOutside.purpose)} damper, ${number(damperOutside.distance)} mm outside the barrier.`,
  ];
  return [...dampers.map(damperSentence), ...(outside ?? [])];
}

function damperSentence(damper: Damper): string {
  const { purpose, rating, orientation, actuation, size, offset, standsOut, construction, access } = damper;
  const shape = size?.diameter == null ? 'rectangular' : 'circular';
  const parts = [
    purpose === 'unknown' ? 'damper of unknown purpose' : `${valueWords(purpose)} damper`,
    size ? `${sectionWords({ ...size, shape })} (${SIZE_FROM[size.from]})` : 'size not known',
    ratingWords(rating),
    orientation === null ? 'orientation not stated' : `made for ${MADE_FOR[orientation]}`,
    actuation === null ? 'actuation not stated' : `actuated by ${actuationWords(actuation)}`,
    offset === null ? 'place not measured' : `middle of the casing ${number(Math.abs(offset))} mm off the barrier's`,
    ...(standsOut ? [`standing out ${number(standsOut[0])} and ${number(standsOut[1])} mm`] : []),
    construction ? `${number(construction.distance)} mm from the ${construction.kind} on its ${construction.side}` : '',
    access.distance === null ? 'no access panel seen' : `access panel ${number(access.distance)} mm away`,
  ];
  return `${damper.name || damper.globalId}: ${parts.filter((part) => part !== '').join(', ')}.`;
}

const actuationWords = ({ type, closure, control, fusibleLink }: NonNullable<Damper['actuation']>): string =>
  [type, closure, control, fusibleLink === null ? null : `fusible link ${number(fusibleLink)}`]
    .filter((word) => word !== null)
    .join(', ');
