/**
 * A topic from the markup.bcf of its folder, 2.1 or 3.0. Lenient where programs differ: each list is looked for at both
 * versions' places, attributes in either spelling.
 */
import { childOf, childrenOf, localName, readXml, textOf, XmlError } from '../read-xml.js';
import type { XmlElement } from '../xml.js';
import {
  BcfError,
  type BimSnippet,
  type Comment,
  type DocumentReference,
  type HeaderFile,
  type Topic,
  type ViewpointRef,
} from './topic.js';

const GUID = /^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/i;

/** @param path for messages @throws BcfError */
export function readMarkup(bytes: Uint8Array, path: string): Topic {
  const markup = parse(bytes, path, 'Markup');
  const topic = childOf(markup, 'Topic');
  if (!topic) throw new BcfError(`is damaged: ${path} holds no topic`);
  const guid = attribute(topic, 'Guid');
  if (guid === null || !GUID.test(guid)) throw new BcfError(`is damaged: the topic of ${path} has no GUID`);
  const header = childOf(markup, 'Header');
  const date = textOf(childOf(topic, 'CreationDate'));
  return {
    guid: guid.toLowerCase(),
    serverAssignedId: attribute(topic, 'ServerAssignedId'),
    type: attribute(topic, 'TopicType'),
    status: attribute(topic, 'TopicStatus'),
    referenceLinks: texts(list(topic, 'ReferenceLinks', 'ReferenceLink')),
    title: textOf(childOf(topic, 'Title')) ?? '(without title)',
    priority: textOf(childOf(topic, 'Priority')),
    index: textOf(childOf(topic, 'Index')),
    labels: labelsOf(topic),
    creationDate: date ?? '1970-01-01T00:00:00Z',
    creationAuthor: textOf(childOf(topic, 'CreationAuthor')) ?? 'unknown',
    modifiedDate: textOf(childOf(topic, 'ModifiedDate')),
    modifiedAuthor: textOf(childOf(topic, 'ModifiedAuthor')),
    dueDate: textOf(childOf(topic, 'DueDate')),
    assignedTo: textOf(childOf(topic, 'AssignedTo')),
    stage: textOf(childOf(topic, 'Stage')),
    description: textOf(childOf(topic, 'Description')),
    bimSnippet: snippetOf(childOf(topic, 'BimSnippet')),
    documentReferences: list(topic, 'DocumentReferences', 'DocumentReference').map(documentOf),
    relatedTopics: list(topic, 'RelatedTopics', 'RelatedTopic').flatMap(
      (related) => attribute(related, 'Guid')?.toLowerCase() ?? [],
    ),
    comments: [...childrenOf(markup, 'Comment'), ...childrenOf(childOf(topic, 'Comments'), 'Comment')].map(commentOf),
    viewpoints: [
      ...childrenOf(markup, 'Viewpoints').filter((one) => attribute(one, 'Guid') !== null),
      ...childrenOf(childOf(topic, 'Viewpoints'), 'ViewPoint'),
    ].map(viewpointOf),
    files: [...childrenOf(header, 'File'), ...childrenOf(childOf(header, 'Files'), 'File')].map(fileOf),
  };
}

/** @throws BcfError */
export function parse(bytes: Uint8Array, path: string, root: string): XmlElement {
  try {
    const element = readXml(bytes);
    if (localName(element) === root) return element;
  } catch (error) {
    if (error instanceof XmlError) throw new BcfError(`is damaged: ${path} ${error.message}`);
    throw error;
  }
  throw new BcfError(`is damaged: ${path} does not begin with ${root}`);
}

export function attribute({ attributes }: XmlElement, name: string): string | null {
  const key = Object.keys(attributes).find((given) => given.toLowerCase() === name.toLowerCase());
  const value = key === undefined ? undefined : attributes[key];
  return value === undefined || value.trim() === '' ? null : value;
}

const isTrue = (element: XmlElement, name: string, usual: boolean): boolean => {
  const value = attribute(element, name);
  return value === null ? usual : value === 'true' || value === '1';
};
const texts = (elements: readonly XmlElement[]): string[] => elements.flatMap((element) => textOf(element) ?? []);

/** Items that stand in the parent itself or in a list of their own. */
const list = (parent: XmlElement, wrapper: string, item: string): XmlElement[] => [
  ...childrenOf(parent, item),
  ...childrenOf(childOf(parent, wrapper), item),
];

/** 2.1 repeats `Labels`, 3.0 wraps `Label` in one. */
const labelsOf = (topic: XmlElement): string[] =>
  childrenOf(topic, 'Labels').flatMap((labels) => {
    const wrapped = childrenOf(labels, 'Label');
    return texts(wrapped.length > 0 ? wrapped : [labels]);
  });

const commentOf = (comment: XmlElement, place: number): Comment => {
  const viewpoint = childOf(comment, 'Viewpoint');
  return {
    guid: attribute(comment, 'Guid')?.toLowerCase() ?? `00000000-0000-0000-0000-${String(place).padStart(12, '0')}`,
    date: textOf(childOf(comment, 'Date')) ?? '1970-01-01T00:00:00Z',
    author: textOf(childOf(comment, 'Author')) ?? 'unknown',
    text: textOf(childOf(comment, 'Comment')),
    viewpoint: viewpoint ? (attribute(viewpoint, 'Guid')?.toLowerCase() ?? null) : null,
    modifiedDate: textOf(childOf(comment, 'ModifiedDate')),
    modifiedAuthor: textOf(childOf(comment, 'ModifiedAuthor')),
  };
};

const viewpointOf = (viewpoint: XmlElement): ViewpointRef => ({
  guid: attribute(viewpoint, 'Guid')?.toLowerCase() ?? '00000000-0000-0000-0000-000000000000',
  viewpoint: textOf(childOf(viewpoint, 'Viewpoint')),
  snapshot: textOf(childOf(viewpoint, 'Snapshot')),
  index: textOf(childOf(viewpoint, 'Index')),
});

const fileOf = (file: XmlElement): HeaderFile => ({
  ifcProject: attribute(file, 'IfcProject'),
  ifcSpatialStructureElement: attribute(file, 'IfcSpatialStructureElement'),
  isExternal: isTrue(file, 'IsExternal', true),
  filename: textOf(childOf(file, 'Filename')),
  date: textOf(childOf(file, 'Date')),
  reference: textOf(childOf(file, 'Reference')),
});

const documentOf = (document: XmlElement): DocumentReference => ({
  guid: attribute(document, 'Guid'),
  documentGuid: textOf(childOf(document, 'DocumentGuid')),
  url: textOf(childOf(document, 'Url')),
  referencedDocument: textOf(childOf(document, 'ReferencedDocument')),
  isExternal: isTrue(document, 'IsExternal', false),
  description: textOf(childOf(document, 'Description')),
});

function snippetOf(snippet: XmlElement | undefined): BimSnippet | null {
  if (!snippet) return null;
  return {
    type: attribute(snippet, 'SnippetType') ?? 'unknown',
    isExternal: isTrue(snippet, 'IsExternal', false),
    reference: textOf(childOf(snippet, 'Reference')) ?? '',
    referenceSchema: textOf(childOf(snippet, 'ReferenceSchema')) ?? '',
  };
}
