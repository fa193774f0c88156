/**
 * Validates IDS files against the schema of buildingSMART with libxml2. That schema takes two definitions from the
 * schema for schemas (W3C XML Schema 1.0 part 1, appendix A), which is not in the shared folder: the element
 * `restriction` and the attribute group `occurs`. They are written out here as the appendix has them, as far as IDS
 * goes: facets in any order, `base`, `minOccurs`, `maxOccurs`.
 */
import { existsSync, readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import {
  XmlBufferInputProvider,
  XmlDocument,
  XsdValidator,
  xmlCleanupInputProvider,
  xmlRegisterInputProvider,
} from 'libxml2-wasm';

const IDS_XSD = resolve('..', 'shared', 'standards', 'ids-1.0', 'ids.xsd');
export const hasIdsSchema = existsSync(IDS_XSD);
if (!hasIdsSchema)
  process.stdout.write('Tests against the IDS schema are skipped: ../shared/standards is not there.\n');

const FACETS = [
  'enumeration',
  'pattern',
  'length',
  'minLength',
  'maxLength',
  'minInclusive',
  'maxInclusive',
  'minExclusive',
  'maxExclusive',
  'totalDigits',
  'fractionDigits',
];
const SCHEMA_FOR_SCHEMAS = `<xs:schema xmlns:xs="http://www.w3.org/2001/XMLSchema"
  targetNamespace="http://www.w3.org/2001/XMLSchema" elementFormDefault="qualified">
  <xs:attributeGroup name="occurs">
    <xs:attribute name="minOccurs" type="xs:nonNegativeInteger" default="1"/>
    <xs:attribute name="maxOccurs" default="1">
      <xs:simpleType><xs:union memberTypes="xs:nonNegativeInteger">
        <xs:simpleType><xs:restriction base="xs:NMTOKEN"><xs:enumeration value="unbounded"/></xs:restriction></xs:simpleType>
      </xs:union></xs:simpleType>
    </xs:attribute>
  </xs:attributeGroup>
  <xs:element name="restriction"><xs:complexType>
    <xs:choice minOccurs="0" maxOccurs="unbounded">
      ${FACETS.map((facet) => `<xs:element name="${facet}"><xs:complexType><xs:attribute name="value" type="xs:string" use="required"/></xs:complexType></xs:element>`).join('')}
    </xs:choice>
    <xs:attribute name="base" type="xs:QName"/>
  </xs:complexType></xs:element>
</xs:schema>`;
const EMPTY = (namespace: string) =>
  `<xs:schema xmlns:xs="http://www.w3.org/2001/XMLSchema" targetNamespace="${namespace}"/>`;

/** @throws XmlValidateError naming the first fault and its line */
export function validateIds(text: string): void {
  const bytes = (s: string) => new TextEncoder().encode(s);
  // Other test files of the same worker read theirs from files.
  xmlCleanupInputProvider();
  xmlRegisterInputProvider(
    new XmlBufferInputProvider({
      'http://www.w3.org/2001/XMLSchema.xsd': bytes(SCHEMA_FOR_SCHEMAS),
      'http://www.w3.org/2001/xml.xsd': bytes(EMPTY('http://www.w3.org/XML/1998/namespace')),
      'http://www.w3.org/2001/XMLSchema-instance': bytes(EMPTY('http://www.w3.org/2001/XMLSchema-instance')),
    }),
  );
  const schema = XmlDocument.fromString(readFileSync(IDS_XSD, 'utf8'));
  const validator = XsdValidator.fromDoc(schema);
  const document = XmlDocument.fromString(text);
  try {
    validator.validate(document);
  } finally {
    document.dispose();
    validator.dispose();
    schema.dispose();
  }
}
