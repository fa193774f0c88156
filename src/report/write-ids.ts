/** The information requirements as an IDS 1.0 file (buildingSMART Information Delivery Specification). */
import type { Facet, Specification } from './information-requirements.js';
import { element, writeXml, type XmlElement } from './xml.js';

const NAMESPACES = {
  xmlns: 'http://standards.buildingsmart.org/IDS',
  'xmlns:xs': 'http://www.w3.org/2001/XMLSchema',
  'xmlns:xsi': 'http://www.w3.org/2001/XMLSchema-instance',
  'xsi:schemaLocation': 'http://standards.buildingsmart.org/IDS http://standards.buildingsmart.org/IDS/1.0/ids.xsd',
};

const DESCRIPTION =
  'Each specification says in its instructions how to meet it in the authoring program. IDS has no words for shapes: that ducts and barriers have bodies, that each duct has its opening, and that ports are connected has to be checked otherwise.';

/** UTF-8 text that validates against ids.xsd; the same for the same input. */
export function writeIds(specifications: readonly Specification[], toolVersion: string): string {
  return writeXml(
    element(
      'ids',
      NAMESPACES,
      element(
        'info',
        {},
        element('title', {}, 'What models need for the check of ducts through fire-rated walls and floors'),
        element('version', {}, toolVersion),
        element('description', {}, DESCRIPTION),
        element('purpose', {}, 'Fire protection of ductwork'),
      ),
      element('specifications', {}, ...specifications.map(specificationElement)),
    ),
  );
}

function specificationElement(specification: Specification): XmlElement {
  const { name, versions, identifier, instructions, applicability, requirements } = specification;
  return element(
    'specification',
    { name, ifcVersion: versions.join(' '), identifier, instructions },
    // A model need not have such elements at all: the services model has no walls.
    element(
      'applicability',
      { minOccurs: '0', maxOccurs: 'unbounded' },
      ...applicability.map((facet) => facetElement(facet)),
    ),
    element('requirements', {}, ...requirements.map((facet) => facetElement(facet, cardinalityOf(facet)))),
  );
}

/** Only the entity facet has none in IDS: it is always required. */
function cardinalityOf(facet: Facet): string | undefined {
  if (facet.is === 'entity') return undefined;
  return facet.is === 'attribute' ? (facet.cardinality ?? 'required') : 'required';
}

function facetElement(facet: Facet, cardinality?: string): XmlElement {
  switch (facet.is) {
    case 'entity':
      return element(
        'entity',
        {},
        valueElement('name', facet.name),
        ...optional('predefinedType', facet.predefinedType),
      );
    case 'partOf':
      return element(
        'partOf',
        { relation: facet.relation, cardinality },
        element('entity', {}, valueElement('name', facet.entity)),
      );
    case 'attribute':
      return element('attribute', { cardinality }, valueElement('name', facet.name), ...optional('value', facet.value));
    case 'property':
      return element(
        'property',
        { dataType: facet.dataType, cardinality },
        valueElement('propertySet', facet.set),
        valueElement('baseName', facet.name),
        ...optional('value', facet.value),
      );
    case 'material':
      return element('material', { cardinality });
  }
}

type Value = string | readonly string[];

const optional = (name: string, value: Value | undefined): XmlElement[] =>
  value === undefined ? [] : [valueElement(name, value)];

function valueElement(name: string, value: Value): XmlElement {
  if (typeof value === 'string') return element(name, {}, element('simpleValue', {}, value));
  const choices = value.map((each) => element('xs:enumeration', { value: each }));
  return element(name, {}, element('xs:restriction', { base: 'xs:string' }, ...choices));
}
