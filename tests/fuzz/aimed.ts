/** Mutations that take away something known from products that are known. */
import { type Attribute, type Instance, isRef, type StepText, withAttribute, written } from './step-text.js';

/** What was taken away, and from which products (their GlobalIds). */
export interface Taken {
  readonly what: 'rating' | 'opening' | 'room in the opening' | 'construction' | 'damper' | 'geometry';
  readonly from: readonly string[];
}

export interface Aim {
  readonly what: string;
  readonly taken: Taken['what'];
  /** Lines of the text that may be changed, with the GlobalIds of the products that lose by it. */
  readonly targets: (step: StepText) => readonly Target[];
  /** The same line where there is nothing to take. */
  readonly change: (line: string) => string;
}

interface Target {
  readonly line: number;
  readonly from: readonly string[];
}

/** Products alone: their types have no place, and nothing passes them. */
const BARRIERS = /^IFC(WALL|SLAB|ROOF)(STANDARDCASE|ELEMENTEDCASE)?$/;
const DUCTS = /^IFC(DUCTSEGMENT|DUCTFITTING|DAMPER|FLOW(SEGMENT|FITTING|CONTROLLER))$/;
const BARRIERS_AND_DUCTS = new RegExp(`${BARRIERS.source}|${DUCTS.source}`);

const globalIdOf = (instance: Instance | undefined): string[] =>
  typeof instance?.attributes[0] === 'string' ? [instance.attributes[0]] : [];

const listedIn = (step: StepText, list: Attribute | undefined): Instance[] =>
  (Array.isArray(list) ? (list as readonly Attribute[]) : []).flatMap((ref) => step.at(ref) ?? []);

const barriersIn = (step: StepText, list: Attribute | undefined): string[] =>
  listedIn(step, list)
    .filter(({ entity }) => BARRIERS.test(entity))
    .flatMap(globalIdOf);

const isOfSome = ({ from }: Target): boolean => from.length > 0;

/** Instances of one entity that products refer to, directly or through others, each with all of these. */
function usedBy(step: StepText, entity: string, products: RegExp): Target[] {
  const reached = step.instances
    .filter((one) => products.test(one.entity))
    .map((one) => ({ from: globalIdOf(one), ids: step.reach(one.id) }));
  return step
    .all(entity)
    .map(({ id, line }) => ({ line, from: reached.filter(({ ids }) => ids.has(id)).flatMap(({ from }) => from) }))
    .filter(isOfSome);
}

const profilesOf = (products: RegExp) => (step: StepText) => usedBy(step, 'IFCRECTANGLEPROFILEDEF', products);
const scaled = (by: number) => (side: string) => written(Number(side) * by);
const sized = (by: number) => (line: string) => withAttribute(withAttribute(line, 3, scaled(by)), 4, scaled(by));
const without = (attribute: number) => (line: string) => withAttribute(line, attribute, () => '$');

export const AIMED: readonly Aim[] = [
  {
    what: 'rating removed',
    taken: 'rating',
    targets: (step) =>
      step
        .all('IFCRELDEFINESBYPROPERTIES')
        .flatMap(({ attributes }) => {
          const properties = listedIn(step, step.at(attributes[5])?.attributes[4]);
          const rating = properties.find((one) => one.attributes[0] === 'FireRating');
          return rating ? [{ line: rating.line, from: barriersIn(step, attributes[4]) }] : [];
        })
        .filter(isOfSome),
    change: without(2),
  },
  {
    what: 'opening removed',
    taken: 'opening',
    targets: (step) =>
      step
        .all('IFCRELVOIDSELEMENT')
        .map(({ line, attributes }) => ({ line, from: globalIdOf(step.at(attributes[5])) })),
    change: () => '',
  },
  {
    what: 'opening shrunk',
    taken: 'room in the opening',
    targets: profilesOf(/^IFCOPENINGELEMENT$/),
    change: sized(0.5),
  },
  { what: 'duct enlarged', taken: 'room in the opening', targets: profilesOf(DUCTS), change: sized(3) },
  {
    what: 'construction removed',
    taken: 'construction',
    targets: (step) =>
      step
        .all('IFCRELASSOCIATESMATERIAL')
        .map(({ line, attributes }) => ({ line, from: barriersIn(step, attributes[4]) }))
        .filter(isOfSome),
    change: () => '',
  },
  {
    what: 'damper removed',
    taken: 'damper',
    targets: (step) => step.all('IFCDAMPER').map((one) => ({ line: one.line, from: globalIdOf(one) })),
    change: () => '',
  },
  {
    what: 'geometry broken',
    taken: 'geometry',
    targets: (step) => usedBy(step, 'IFCEXTRUDEDAREASOLID', BARRIERS_AND_DUCTS),
    change: (line) => withAttribute(line, 3, () => '1.E999'),
  },
  {
    what: 'body removed',
    taken: 'geometry',
    targets: (step) =>
      step.instances
        .filter(({ entity, attributes }) => BARRIERS_AND_DUCTS.test(entity) && isRef(attributes[6]))
        .map((one) => ({ line: one.line, from: globalIdOf(one) })),
    change: without(6),
  },
];
