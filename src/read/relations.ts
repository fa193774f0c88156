/** All relations of a file in one pass, as maps from express id to express ids. */
import type { EntityName, StepFile } from './step-file.js';
import { refs } from './value.js';

type OneToMany = ReadonlyMap<number, readonly number[]>;
type OneToOne = ReadonlyMap<number, number>;

export interface Relations {
  readonly openingsOf: OneToMany;
  readonly fillingsOf: OneToMany;
  readonly propertySetsOf: OneToMany;
  /** Element → IfcCovering elements on it. */
  readonly coveringsOf: OneToMany;
  readonly typeOf: OneToOne;
  readonly materialOf: OneToOne;
  /** Element → spatial structure element that contains it. */
  readonly containerOf: OneToOne;
  /** Part → whole. */
  readonly wholeOf: OneToOne;
  readonly partsOf: OneToMany;
  readonly groupsOf: OneToMany;
  readonly membersOf: OneToMany;
  /** Spatial zone → spaces and elements that it refers to. */
  readonly referencedIn: OneToMany;
  readonly portsOf: OneToMany;
  readonly linkedPort: OneToOne;
}

export function readRelations(file: StepFile): Relations {
  /** `one` and `many` name the attributes; each of `many` is filed under each of `one`. */
  const pairs = (entity: EntityName, one: string, many: string): (readonly [number, number])[] =>
    file.ids(entity, true).flatMap((id) => {
      const line = file.line(id);
      return refs(line?.[one]).flatMap((a) => refs(line?.[many]).map((b) => [a, b] as const));
    });
  const flipped = (list: readonly (readonly [number, number])[]) => list.map(([a, b]) => [b, a] as const);

  const aggregates = pairs('IFCRELAGGREGATES', 'RelatingObject', 'RelatedObjects');
  const nests = pairs('IFCRELNESTS', 'RelatingObject', 'RelatedObjects');
  const isPort = (id: number) => file.entity(id) === 'IFCDISTRIBUTIONPORT';
  const groups = pairs('IFCRELASSIGNSTOGROUP', 'RelatingGroup', 'RelatedObjects');
  const links = pairs('IFCRELCONNECTSPORTS', 'RelatingPort', 'RelatedPort');
  return {
    openingsOf: oneToMany(pairs('IFCRELVOIDSELEMENT', 'RelatingBuildingElement', 'RelatedOpeningElement')),
    fillingsOf: oneToMany(pairs('IFCRELFILLSELEMENT', 'RelatingOpeningElement', 'RelatedBuildingElement')),
    propertySetsOf: oneToMany(flipped(definitions(file))),
    coveringsOf: oneToMany(pairs('IFCRELCOVERSBLDGELEMENTS', 'RelatingBuildingElement', 'RelatedCoverings')),
    typeOf: new Map(flipped(pairs('IFCRELDEFINESBYTYPE', 'RelatingType', 'RelatedObjects'))),
    materialOf: new Map(flipped(pairs('IFCRELASSOCIATESMATERIAL', 'RelatingMaterial', 'RelatedObjects'))),
    containerOf: new Map(flipped(pairs('IFCRELCONTAINEDINSPATIALSTRUCTURE', 'RelatingStructure', 'RelatedElements'))),
    wholeOf: new Map(flipped([...nests.filter(([, part]) => !isPort(part)), ...aggregates])),
    partsOf: oneToMany(aggregates),
    groupsOf: oneToMany(flipped(groups)),
    membersOf: oneToMany(groups),
    referencedIn: oneToMany(pairs('IFCRELREFERENCEDINSPATIALSTRUCTURE', 'RelatingStructure', 'RelatedElements')),
    portsOf: oneToMany([
      ...nests.filter(([, part]) => isPort(part)),
      ...flipped(pairs('IFCRELCONNECTSPORTTOELEMENT', 'RelatingPort', 'RelatedElement')),
    ]),
    linkedPort: new Map([...links, ...flipped(links)]),
  };
}

/** [property set, object]; IFC4 may name several sets in one relation. */
function definitions(file: StepFile): (readonly [number, number])[] {
  return file.ids('IFCRELDEFINESBYPROPERTIES', true).flatMap((id) => {
    const line = file.line(id);
    const direct = refs(line?.RelatingPropertyDefinition);
    const wrapped = line?.RelatingPropertyDefinition as { value?: unknown } | undefined;
    const sets = direct.length > 0 ? direct : refs(wrapped?.value);
    return sets.flatMap((set) => refs(line?.RelatedObjects).map((object) => [set, object] as const));
  });
}

function oneToMany(list: readonly (readonly [number, number])[]): Map<number, number[]> {
  const map = new Map<number, number[]>();
  for (const [a, b] of list) {
    const known = map.get(a);
    if (known === undefined) map.set(a, [b]);
    else if (!known.includes(b)) known.push(b);
  }
  return map;
}
