/** What a file says of a damper: what it is for, its rating, what moves it and what barriers it is made for. */
import type { DamperActuation, DamperOrientation, DamperPurpose, DamperStatements } from '../model.js';
import { predefinedType } from './classify.js';
import type { Source } from './source.js';
import type { Line } from './step-file.js';
import { hasWord, label, num, text } from './value.js';

const PURPOSE: Readonly<Record<string, DamperPurpose>> = {
  FIREDAMPER: 'fire',
  FIRESMOKEDAMPER: 'fireSmoke',
  SMOKEDAMPER: 'smoke',
};
/** A damper of no stated type may still carry the property set that only one type has. */
const PURPOSE_SETS: readonly (readonly [DamperPurpose, string])[] = [
  ['fireSmoke', 'Pset_DamperTypeFireSmokeDamper'],
  ['fire', 'Pset_DamperTypeFireDamper'],
  ['smoke', 'Pset_DamperTypeSmokeDamper'],
];
const FIRE_SETS = /^Pset_DamperTypeFire(Smoke)?Damper$/;
const DAMPER_SETS = /^Pset_DamperType/;

export function readDamper(source: Source, id: number, line: Line): DamperStatements {
  const { properties } = source;
  const typeName = text(source.file.line(source.relations.typeOf.get(id) ?? 0)?.Name);
  const property = properties.find(id, FIRE_SETS, 'FireResistanceRating');
  const { flags, ...rating } = source.rating(label(property?.value), { object: 'damper', unit: 'hours' });
  return {
    purpose: purposeOf(source, id, line, typeName),
    rating: { ...rating, from: property?.from ?? null },
    typeName,
    orientation: agreed(
      ORIENTATIONS[statedWord(source, id, 'Orientation') ?? ''],
      ofClass(flags, 've', 'ho', ['wall', 'floor'] as const),
    ),
    fireSides: ofClass(flags, 'i>o', 'o>i', ['one', 'one'] as const),
    actuation: readActuation(source, id),
  };
}

function purposeOf(source: Source, id: number, line: Line, typeName: string | undefined): DamperPurpose {
  const predefined = predefinedType(source, id, line);
  const sets = new Set(source.properties.all(id).map((p) => p.set));
  const stated =
    predefined === undefined || predefined === 'USERDEFINED' ? undefined : (PURPOSE[predefined] ?? 'control');
  const names = [text(line.Name), text(line.ObjectType), typeName];
  const mapped = source.facts?.damperPurposes.find(({ words }) => names.some((name) => name && hasWord(name, words)));
  return mapped?.purpose ?? stated ?? PURPOSE_SETS.find(([, set]) => sets.has(set))?.[0] ?? 'unknown';
}

/**
 * IFC says no more than that it is the orientation the damper is made for; that one which stands upright is made for a
 * wall is common practice, no source.
 */
const ORIENTATIONS: Readonly<Record<string, DamperOrientation>> = {
  VERTICAL: 'wall',
  HORIZONTAL: 'floor',
  VERTICALORHORIZONTAL: 'both',
};

/** EN 13501-3: ve and ho of a damper are about the element that it sits in, i and o about the side of the fire. */
function ofClass<T extends string>(
  flags: readonly string[],
  first: string,
  second: string,
  [one, other]: readonly [T, T],
): T | 'both' | undefined {
  const [hasFirst, hasSecond] = [flags.includes(first), flags.includes(second)];
  if (hasFirst && hasSecond) return 'both';
  return hasFirst ? one : hasSecond ? other : undefined;
}

/** What both statements allow; undefined where they contradict each other, or neither says anything. */
function agreed(a: DamperOrientation | undefined, b: DamperOrientation | undefined): DamperOrientation | undefined {
  if (a === undefined || b === undefined || b === 'both') return a ?? b;
  return a === 'both' || a === b ? b : undefined;
}

/** Undefined where nothing is said; NOTKNOWN and UNSET say nothing. */
function readActuation(source: Source, id: number): DamperActuation | undefined {
  const said = {
    type: statedWord(source, id, 'ActuationType'),
    closure: statedWord(source, id, 'ClosureRatingEnum') ?? statedWord(source, id, 'ClosureRating'),
    // IFC4X3 renamed ControlType to DamperControlType.
    control: statedWord(source, id, 'DamperControlType') ?? statedWord(source, id, 'ControlType'),
    fusibleLink: num(source.properties.find(id, DAMPER_SETS, 'FusibleLinkTemperature')?.value),
  };
  return Object.values(said).some((value) => value !== undefined) ? said : undefined;
}

function statedWord({ properties }: Source, id: number, name: string): string | undefined {
  const word = label(properties.find(id, DAMPER_SETS, name)?.value)?.trim();
  return word === undefined || /^(|NOTKNOWN|UNSET|NOTDEFINED)$/i.test(word) ? undefined : word;
}
