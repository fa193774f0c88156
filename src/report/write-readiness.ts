/** Readiness as plain text, first what is there, then what is lacking. */

import { CONSTRUCTIONS } from '../model.js';
import { brief, counted, number, oneLine, wrap } from '../words/text.js';
import { valueWords } from '../words/values.js';
import type { Holdings, Lack, Readiness } from './readiness-schema.js';

const WIDTH = 96;
const MOST_SYSTEMS = 8;
const MOST_RATINGS = 12;
const MOST_STOREYS = 12;

export function writeReadiness(readiness: Readiness): string {
  const { models, together, lacks, frame } = readiness;
  const sections = [
    ...models.map((model) => modelLines(model)),
    ...(models.length > 1
      ? [['All models together', ...item('Coordinates', FRAME_WORDS[frame]), ...holdingsLines(together)]]
      : []),
    lackLines(lacks, models.length > 1),
    wrap(
      'Says what the models hold and lack; no rules were applied, and nothing here says that anything is compliant.',
      WIDTH,
    ),
  ];
  return `${sections.map((lines) => lines.join('\n')).join('\n\n')}\n`;
}

function modelLines(model: Readiness['models'][number]): string[] {
  const { id, file, schema, lengthUnit, application, problems, skipped, unclassified } = model;
  const by = application === null ? '' : `, written by ${brief(application, 60)}`;
  return [
    ...wrap(`${oneLine(file)} (${id}): ${schema}, lengths in ${oneLine(lengthUnit)}${by}`, WIDTH, '', '  '),
    ...holdingsLines(model.holds),
    ...item('Not read', skipped === 0 ? 'no ductwork or barrier' : counted(skipped, 'element')),
    ...(unclassified > 0 ? item('Unclassified', counted(unclassified, 'flow element')) : []),
    ...problems.flatMap(({ code, count, first }) =>
      wrap(`${code}, ${counted(count, 'time')}: ${oneLine(first.message)}`, WIDTH, '    ', '      '),
    ),
  ];
}

function holdingsLines({ air, dampers, barriers, openings, otherServices, storeys }: Holdings): string[] {
  return [
    ...item('Ductwork', air.total === 0 ? 'none' : tallyWords(AIR_WORDS, air.byKind)),
    ...(air.total === 0 ? [] : airLines(air)),
    ...(dampers.total === 0 ? [] : item('Dampers', tallyWords(PURPOSE_WORDS, dampers.byPurpose))),
    ...ratingLines('Damper ratings', dampers.ratings),
    ...item('Barriers', barriers.total === 0 ? 'none' : tallyWords(BARRIER_WORDS, barriers.byKind)),
    ...(barriers.total === 0 ? [] : barrierLines(barriers, openings)),
    ...(otherServices.total === 0 ? [] : item('Other services', tallyWords(SERVICE_WORDS, otherServices.byKind))),
    ...(storeys.length === 0
      ? []
      : item(
          'Storeys',
          some(storeys, MOST_STOREYS, (s) => `${brief(s.name, 30) || 'unnamed'} at ${number(s.elevation)} mm`),
        )),
  ];
}

function airLines(air: Holdings['air']): string[] {
  const { profile, mesh } = air.sections;
  const systems = some(air.systems, MOST_SYSTEMS, ({ name, type, elements }) => {
    return `${brief(name, 30) || 'unnamed'}${type === null ? '' : ` (${type})`} ${elements}`;
  });
  return [
    ...(profile + mesh === 0
      ? []
      : item('Sections', `${profile} from a swept profile, ${mesh} from a mesh only; ${air.sizeStated} state a size`)),
    ...item('Systems', `known for ${air.withSystem} of ${air.total}${systems === '' ? '' : `: ${systems}`}`),
    ...item(
      'Ports',
      `${air.withPorts} of ${air.total} have ports; ${air.ports.connected} of ${counted(air.ports.total, 'port')} connected`,
    ),
    ...item('Duct material', `known for ${air.materialKnown} of ${air.total}`),
  ];
}

function barrierLines(barriers: Holdings['barriers'], openings: Holdings['openings']): string[] {
  const { total, withLayers, withThicknesses, byConstruction } = barriers;
  return [
    ...item('Ratings', tallyWords(STATE_WORDS, barriers.byRatingState)),
    ...ratingLines('', barriers.ratings),
    ...item('Materials', `stated for ${withLayers} of ${total}; with all thicknesses for ${withThicknesses}`),
    ...(byConstruction.unknown === total
      ? []
      : item(
          'Construction',
          CONSTRUCTIONS.filter((c) => byConstruction[c] > 0)
            .map((c) => `${byConstruction[c]} ${valueWords(c)}`)
            .join(', '),
        )),
    ...item(
      'Openings',
      openings.total === 0
        ? 'none modelled'
        : `${openings.total} in ${counted(openings.hosts, 'barrier')}; ${openings.filled === 0 ? 'none' : openings.filled} filled by another element`,
    ),
  ];
}

/** What is not stated needs no line of its own: it is counted before. */
function ratingLines(label: string, ratings: Holdings['barriers']['ratings']): string[] {
  const stated = ratings.filter((rating) => rating.text !== null);
  const lines = stated
    .slice(0, MOST_RATINGS)
    .flatMap(({ text, read, from, elements }) =>
      wrap(
        `"${brief(text ?? '', 40)}" ${elements} ×, ${from === null ? '' : `${FROM_WORDS[from]}, `}read as: ${read}`,
        WIDTH,
        '    ',
        '      ',
      ),
    );
  const more = stated.length - MOST_RATINGS;
  if (more > 0) lines.push(`    and ${counted(more, 'more text')}`);
  if (label === '' || ratings.length === 0) return lines;
  const unstated = ratings.filter((r) => r.text === null).reduce((sum, r) => sum + r.elements, 0);
  return [...item(label, unstated === 0 ? 'stated for all fire dampers' : `not stated for ${unstated}`), ...lines];
}

function lackLines(lacks: readonly Lack[], severalModels: boolean): string[] {
  if (lacks.length === 0) return ['Lacking', '  Nothing of what is counted here.'];
  return [
    'Lacking, and how to mend it at the source',
    ...lacks.flatMap(({ what, mend, count, examples }) => {
      const named = examples.map(
        (e) => `${brief(e.name, 40) || 'unnamed'} (${severalModels ? `${e.model} ` : ''}${e.globalId})`,
      );
      const label = count > examples.length ? 'First' : count === 1 ? 'It is' : 'They are';
      return [
        ...wrap(what, WIDTH, '  - ', '    '),
        ...(named.length === 0 ? [] : wrap(`${label}: ${named.join(', ')}`, WIDTH, '    ')),
        ...wrap(mend, WIDTH, '    '),
      ];
    }),
  ];
}

// ------------------------------------------------------------------------------------------------------------- words

/** Singular and plural, in the order they are printed. */
type Nouns<K extends string> = { readonly [N in K]: readonly [string, string] };

const AIR_WORDS: Nouns<keyof Holdings['air']['byKind']> = {
  segment: ['rigid segment', 'rigid segments'],
  flexible: ['flexible segment', 'flexible segments'],
  fitting: ['fitting', 'fittings'],
  damper: ['damper', 'dampers'],
  silencer: ['silencer', 'silencers'],
  fan: ['fan', 'fans'],
  terminal: ['terminal', 'terminals'],
  equipment: ['air handler or other equipment', 'air handlers and other equipment'],
};
const PURPOSE_WORDS: Nouns<keyof Holdings['dampers']['byPurpose']> = {
  fire: ['for fire', 'for fire'],
  fireSmoke: ['for fire and smoke', 'for fire and smoke'],
  smoke: ['for smoke', 'for smoke'],
  control: ['for control', 'for control'],
  unknown: ['of unknown purpose', 'of unknown purpose'],
};
const BARRIER_WORDS: Nouns<keyof Holdings['barriers']['byKind']> = {
  wall: ['wall', 'walls'],
  floor: ['floor', 'floors'],
  roof: ['roof', 'roofs'],
};
const STATE_WORDS: Nouns<keyof Holdings['barriers']['byRatingState']> = {
  stated: ['stated', 'stated'],
  durationOnly: ['a duration only', 'a duration only'],
  unreadable: ['unreadable', 'unreadable'],
  notRequired: ['not required', 'not required'],
  unstated: ['not stated', 'not stated'],
};
const SERVICE_WORDS: Nouns<keyof Holdings['otherServices']['byKind']> = {
  pipe: ['pipe', 'pipes'],
  cable: ['cable or cable carrier', 'cables or cable carriers'],
  other: ['other', 'other'],
};
const FRAME_WORDS = {
  engineering: 'the files were placed by their own coordinates',
  map: 'the map conversions of the files differ, so they were placed by map coordinates',
} as const;
const FROM_WORDS = {
  occurrence: 'on the element',
  type: 'on the type',
  material: 'on the material',
  brief: 'in the brief',
} as const;

function tallyWords<K extends string>(nouns: Nouns<K>, counts: { readonly [N in K]: number }): string {
  return (Object.keys(nouns) as K[])
    .filter((key) => (counts[key] ?? 0) > 0)
    .map((key) => counted(counts[key], nouns[key][0], nouns[key][1]))
    .join(', ');
}

const LABEL = 16;

function item(label: string, text: string): string[] {
  return wrap(text, WIDTH, `  ${label.padEnd(LABEL)}`);
}

function some<T>(list: readonly T[], most: number, words: (item: T) => string): string {
  const more = list.length - most;
  return list.slice(0, most).map(words).join(', ') + (more > 0 ? ` and ${more} more` : '');
}
