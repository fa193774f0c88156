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
  /** `one` and `many` name the attributes; each of `many` goes with each of `one`, of which property sets may be several. */
  const each = (entity: EntityName, one: string, many: string, visit: (one: number, many: number) => void): void => {
    for (const id of file.ids(entity, true)) {
      const line = file.line(id);
      const others = refs(line?.[many]);
      for (const a of refs(line?.[one])) for (const b of others) visit(a, b);
    }
  };
  const lists = (entity: EntityName, one: string, many: string): Lists => {
    const found = new Lists();
    each(entity, one, many, (a, b) => found.add(a, b));
    return found;
  };
  /** Of each of `many` the one that names it last. */
  const oneOf = (entity: EntityName, one: string, many: string): Map<number, number> => {
    const found = new Map<number, number>();
    each(entity, one, many, (a, b) => found.set(b, a));
    return found;
  };

  const [propertySetsOf, groupsOf, membersOf, partsOf, portsOf] = [
    new Lists(),
    new Lists(),
    new Lists(),
    new Lists(),
    new Lists(),
  ];
  const [wholeOf, linkedPort] = [new Map<number, number>(), new Map<number, number>()];
  each('IFCRELDEFINESBYPROPERTIES', 'RelatingPropertyDefinition', 'RelatedObjects', (a, b) => propertySetsOf.add(b, a));
  each('IFCRELASSIGNSTOGROUP', 'RelatingGroup', 'RelatedObjects', (group, member) => {
    groupsOf.add(member, group);
    membersOf.add(group, member);
  });
  each('IFCRELNESTS', 'RelatingObject', 'RelatedObjects', (whole, part) => {
    if (file.entity(part) === 'IFCDISTRIBUTIONPORT') portsOf.add(whole, part);
    else wholeOf.set(part, whole);
  });
  each('IFCRELAGGREGATES', 'RelatingObject', 'RelatedObjects', (whole, part) => {
    partsOf.add(whole, part);
    wholeOf.set(part, whole);
  });
  each('IFCRELCONNECTSPORTTOELEMENT', 'RelatingPort', 'RelatedElement', (port, element) => portsOf.add(element, port));
  each('IFCRELCONNECTSPORTS', 'RelatingPort', 'RelatedPort', (a, b) => linkedPort.set(a, b));
  each('IFCRELCONNECTSPORTS', 'RelatingPort', 'RelatedPort', (a, b) => linkedPort.set(b, a));
  return {
    openingsOf: lists('IFCRELVOIDSELEMENT', 'RelatingBuildingElement', 'RelatedOpeningElement').byId,
    fillingsOf: lists('IFCRELFILLSELEMENT', 'RelatingOpeningElement', 'RelatedBuildingElement').byId,
    propertySetsOf: propertySetsOf.byId,
    coveringsOf: lists('IFCRELCOVERSBLDGELEMENTS', 'RelatingBuildingElement', 'RelatedCoverings').byId,
    typeOf: oneOf('IFCRELDEFINESBYTYPE', 'RelatingType', 'RelatedObjects'),
    materialOf: oneOf('IFCRELASSOCIATESMATERIAL', 'RelatingMaterial', 'RelatedObjects'),
    containerOf: oneOf('IFCRELCONTAINEDINSPATIALSTRUCTURE', 'RelatingStructure', 'RelatedElements'),
    wholeOf,
    partsOf: partsOf.byId,
    groupsOf: groupsOf.byId,
    membersOf: membersOf.byId,
    referencedIn: lists('IFCRELREFERENCEDINSPATIALSTRUCTURE', 'RelatingStructure', 'RelatedElements').byId,
    portsOf: portsOf.byId,
    linkedPort,
  };
}

/** Lists longer than this are looked up in a set. */
const SHORT = 16;

/** Lists by id, in the order they are filed, each entry once. */
class Lists {
  readonly byId = new Map<number, number[]>();
  private readonly sets = new Map<number, Set<number>>();

  add(id: number, entry: number): void {
    const known = this.byId.get(id);
    if (known === undefined) {
      this.byId.set(id, [entry]);
      return;
    }
    if (known.length < SHORT) {
      if (!known.includes(entry)) known.push(entry);
      return;
    }
    const set = this.sets.get(id) ?? new Set(known);
    this.sets.set(id, set);
    if (set.has(entry)) return;
    set.add(entry);
    known.push(entry);
  }
}
