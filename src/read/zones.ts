/** Fire compartments that a file states: by zones of its own, or by a property of its spaces. */
import { fileUnder } from '../collect.js';
import type { Zone } from '../model.js';
import { predefinedType } from './classify.js';
import { saysShaft } from './shafts.js';
import { type Source, tryBodies } from './source.js';
import { hasWord, label, text } from './value.js';

/** What zones and groups of another kind are called that are compartments. Common practice, no source. */
const WORDS = ['compartment', 'brandabschnitt'];

/** Properties of spaces that name a compartment, where no brief says which. Common practice, no source. */
const PROPERTY = /^(fire)?_?compartment(name|number|id)?$/i;

export function readZones(source: Source, model: string): Zone[] {
  const stated = [...spatialZones(source, model), ...groups(source, model)];
  return [...stated, ...namedBySpaces(source, model)];
}

/** IfcSpatialZone of IFC4 and later: FIRESAFETY, or another one that calls itself a compartment. */
function spatialZones(source: Source, model: string): Zone[] {
  const { file, relations } = source;
  return file.ids('IFCSPATIALZONE', true).flatMap((id): Zone[] => {
    const line = file.line(id);
    if (!line) return [];
    const isFire = predefinedType(source, id, line) === 'FIRESAFETY';
    if (!isFire && !callsItselfCompartment([line.Name, line.LongName, line.ObjectType])) return [];
    const members = [...(relations.referencedIn.get(id) ?? []), ...(relations.partsOf.get(id) ?? [])];
    const bodies = tryBodies(source, line, 'Zone') ?? [];
    return [zoneOf(source, model, { id, members, bodies })];
  });
}

/** IfcZone, which groups spaces in every version, says nothing of fire but by its name. */
function groups(source: Source, model: string): Zone[] {
  const { file, relations } = source;
  return file.ids('IFCZONE', true).flatMap((id): Zone[] => {
    const line = file.line(id);
    if (!line || !callsItselfCompartment([line.Name, line.LongName, line.ObjectType])) return [];
    return [zoneOf(source, model, { id, members: relations.membersOf.get(id) ?? [], bodies: [] })];
  });
}

const callsItselfCompartment = (names: readonly unknown[]): boolean =>
  names.map(text).some((name) => name !== undefined && hasWord(name, WORDS));

interface Stated {
  readonly id: number;
  readonly members: readonly number[];
  readonly bodies: Zone['bodies'];
}

function zoneOf(source: Source, model: string, { id, members, bodies }: Stated): Zone {
  const { file } = source;
  const line = file.line(id);
  const globalId = text(line?.GlobalId) ?? '';
  const names = [line?.Name, line?.LongName].map(text).filter((name) => name !== undefined && name.trim() !== '');
  const spaces = members.filter((member) => file.entity(member).startsWith('IFCSPACE'));
  return {
    model,
    globalId,
    name: names.join(' ') || globalId,
    from: 'zone',
    spaces: spaces.map((space) => text(file.line(space)?.GlobalId) ?? ''),
    bodies,
    // "Compartment 3" does not say that it is none.
    shaft: saysShaft(source, [line?.Name, line?.LongName, line?.ObjectType]) || undefined,
  };
}

/** The first space that names a compartment lends it its GlobalId, since the compartment has none. */
function namedBySpaces(source: Source, model: string): Zone[] {
  const byName = new Map<string, string[]>();
  for (const id of source.file.ids('IFCSPACE', true)) {
    const name = compartmentNamedBy(source, id);
    const globalId = text(source.file.line(id)?.GlobalId);
    if (name !== undefined && globalId !== undefined) fileUnder(byName, name, globalId);
  }
  return [...byName].map(([name, spaces]) => {
    const sorted = [...spaces].sort();
    const shaft = saysShaft(source, [name]) || undefined;
    return { model, globalId: sorted[0]!, name, from: 'property', spaces: sorted, bodies: [], shaft };
  });
}

function compartmentNamedBy({ properties, facts }: Source, space: number): string | undefined {
  const own = facts?.compartmentProperty;
  const value = properties
    .all(space)
    .find(({ set, name }) => (own ? set === own.set && name === own.property : PROPERTY.test(name)))?.value;
  return label(value)?.trim() || undefined;
}
