/** The words that topics may use, for whoever goes on with them: in 3.0 a file of lists, in 2.1 a schema. */
import { childOf, childrenOf, textOf } from '../read-xml.js';
import { element, writeXml, type XmlElement } from '../xml.js';
import { parse } from './read-markup.js';
import type { Topic } from './topic.js';

export interface Extensions {
  readonly types: readonly string[];
  readonly statuses: readonly string[];
  readonly priorities: readonly string[];
  readonly labels: readonly string[];
  readonly users: readonly string[];
  readonly snippetTypes: readonly string[];
  readonly stages: readonly string[];
}

/** List and item of 3.0, type of 2.1, in the order of the 3.0 schema. */
const NAMES: readonly (readonly [keyof Extensions, string, string, string])[] = [
  ['types', 'TopicTypes', 'TopicType', 'TopicType'],
  ['statuses', 'TopicStatuses', 'TopicStatus', 'TopicStatus'],
  ['priorities', 'Priorities', 'Priority', 'Priority'],
  ['labels', 'TopicLabels', 'TopicLabel', 'TopicLabel'],
  ['users', 'Users', 'User', 'UserIdType'],
  ['snippetTypes', 'SnippetTypes', 'SnippetType', 'SnippetType'],
  ['stages', 'Stages', 'Stage', 'Stage'],
];

export const NO_EXTENSIONS: Extensions = {
  types: [],
  statuses: [],
  priorities: [],
  labels: [],
  users: [],
  snippetTypes: [],
  stages: [],
};

export const writeExtensions = (extensions: Extensions): string =>
  writeXml(
    element(
      'Extensions',
      {},
      ...NAMES.map(([key, list, item]) => element(list, {}, ...extensions[key].map((word) => element(item, {}, word)))),
    ),
  );

/** @throws BcfError */
export function readExtensions(bytes: Uint8Array): Extensions {
  const root = parse(bytes, 'extensions.xml', 'Extensions');
  const read = NAMES.map(([key, list, item]) => {
    const words = childrenOf(childOf(root, list), item).flatMap((one) => textOf(one) ?? []);
    return [key, words] as const;
  });
  return { ...NO_EXTENSIONS, ...Object.fromEntries(read) };
}

/** Every word once, those of the first first. */
export function joined(first: Extensions, second: Extensions): Extensions {
  const lists = NAMES.map(([key]) => [key, [...new Set([...first[key], ...second[key]])]] as const);
  return { ...NO_EXTENSIONS, ...Object.fromEntries(lists) };
}

/** The words that topics use. */
export function usedIn(topics: readonly Topic[]): Extensions {
  const of = (pick: (topic: Topic) => readonly (string | null)[]): string[] =>
    [...new Set(topics.flatMap(pick).filter((word) => word !== null))].sort();
  return {
    types: of((t) => [t.type]),
    statuses: of((t) => [t.status]),
    priorities: of((t) => [t.priority]),
    labels: of((t) => t.labels),
    users: of((t) => [t.creationAuthor, t.modifiedAuthor, t.assignedTo, ...t.comments.map((c) => c.author)]),
    snippetTypes: of((t) => [t.bimSnippet?.type ?? null]),
    stages: of((t) => [t.stage]),
  };
}

/** The extension schema of 2.1: it narrows the types of the markup's schema to these words. */
export function writeExtensionSchema(extensions: Extensions): string {
  const narrowed = NAMES.filter(([key]) => extensions[key].length > 0).map(([key, , , type]): XmlElement => {
    const words = extensions[key].map((word) => element('xs:enumeration', { value: word }));
    return element('xs:simpleType', { name: type }, element('xs:restriction', { base: type }, ...words));
  });
  return writeXml(
    element(
      'xs:schema',
      { 'xmlns:xs': 'http://www.w3.org/2001/XMLSchema' },
      element('xs:redefine', { schemaLocation: 'markup.xsd' }, ...narrowed),
    ),
  );
}

/** What an extension schema narrows the types to, also where a program wrote it another way. @throws BcfError */
export function readExtensionSchema(bytes: Uint8Array): Extensions {
  const types = childrenOf(childOf(parse(bytes, 'extensions.xsd', 'schema'), 'redefine'), 'simpleType');
  const read = NAMES.map(([key, , , type]) => {
    const own = types.find((one) => one.attributes.name === type);
    const words = childrenOf(childOf(own, 'restriction'), 'enumeration').flatMap((one) => one.attributes.value ?? []);
    return [key, words] as const;
  });
  return { ...NO_EXTENSIONS, ...Object.fromEntries(read) };
}
