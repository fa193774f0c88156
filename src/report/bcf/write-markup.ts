/** A topic as the markup.bcf of its folder. The order of elements is the schema's. */
import { element, writeXml, type XmlElement } from '../xml.js';
import type { BcfVersion, BimSnippet, Comment, DocumentReference, HeaderFile, Topic, ViewpointRef } from './topic.js';

export function writeMarkup(topic: Topic, version: BcfVersion): string {
  const isNew = version === '3.0';
  const files = topic.files.map((file) => fileElement(file, isNew ? 'IsExternal' : 'isExternal'));
  const header =
    files.length === 0 ? [] : [element('Header', {}, ...(isNew ? [element('Files', {}, ...files)] : files))];
  const comments = topic.comments.map((comment) => commentElement(comment, isNew));
  const viewpoints = topic.viewpoints.map((viewpoint) =>
    viewpointElement(viewpoint, isNew ? 'ViewPoint' : 'Viewpoints'),
  );
  const inside = isNew ? [...listed('Comments', comments), ...listed('Viewpoints', viewpoints)] : [];
  const beside = isNew ? [] : [...comments, ...viewpoints];
  return writeXml(element('Markup', {}, ...header, topicElement(topic, isNew, inside), ...beside));
}

/** @param inside what 3.0 has in the topic and 2.1 after it */
function topicElement(topic: Topic, isNew: boolean, inside: readonly XmlElement[]): XmlElement {
  const related = topic.relatedTopics.map((guid) => element('RelatedTopic', { Guid: guid }));
  const documents = topic.documentReferences.map((document) => documentElement(document, isNew));
  const links = topic.referenceLinks.map((link) => element('ReferenceLink', {}, link));
  const labels = topic.labels.map((label) => element(isNew ? 'Label' : 'Labels', {}, label));
  const list = (name: string, items: readonly XmlElement[]) => (isNew ? listed(name, items) : items);
  return element(
    'Topic',
    {
      Guid: topic.guid,
      // 2.1 knows no such number.
      ServerAssignedId: isNew ? given(topic.serverAssignedId) : undefined,
      TopicType: given(topic.type),
      TopicStatus: given(topic.status),
    },
    ...list('ReferenceLinks', links),
    element('Title', {}, topic.title),
    ...optional('Priority', topic.priority),
    ...optional('Index', topic.index),
    ...list('Labels', labels),
    element('CreationDate', {}, topic.creationDate),
    element('CreationAuthor', {}, topic.creationAuthor),
    ...optional('ModifiedDate', topic.modifiedDate),
    ...optional('ModifiedAuthor', topic.modifiedAuthor),
    ...optional('DueDate', topic.dueDate),
    ...optional('AssignedTo', topic.assignedTo),
    ...optional('Stage', topic.stage),
    ...optional('Description', topic.description),
    ...(topic.bimSnippet ? [snippetElement(topic.bimSnippet, isNew)] : []),
    ...list('DocumentReferences', documents),
    ...list('RelatedTopics', related),
    ...inside,
  );
}

const given = (text: string | null): string | undefined => text ?? undefined;
const optional = (name: string, text: string | null): XmlElement[] => (text === null ? [] : [element(name, {}, text)]);
const listed = (name: string, items: readonly XmlElement[]): XmlElement[] =>
  items.length === 0 ? [] : [element(name, {}, ...items)];
/** Both kinds of file leave the attribute out where it has its usual value. */
const flag = (value: boolean, usual: boolean): string | undefined => (value === usual ? undefined : String(value));

const fileElement = (file: HeaderFile, externalName: string): XmlElement =>
  element(
    'File',
    {
      IfcProject: given(file.ifcProject),
      IfcSpatialStructureElement: given(file.ifcSpatialStructureElement),
      [externalName]: flag(file.isExternal, true),
    },
    ...optional('Filename', file.filename),
    ...optional('Date', file.date),
    ...optional('Reference', file.reference),
  );

const commentElement = (comment: Comment, isNew: boolean): XmlElement =>
  element(
    'Comment',
    { Guid: comment.guid },
    element('Date', {}, comment.date),
    element('Author', {}, comment.author),
    // 2.1 asks for the element also where nothing is said.
    ...(isNew ? optional('Comment', comment.text) : [element('Comment', {}, comment.text ?? '')]),
    ...(comment.viewpoint === null ? [] : [element('Viewpoint', { Guid: comment.viewpoint })]),
    ...optional('ModifiedDate', comment.modifiedDate),
    ...optional('ModifiedAuthor', comment.modifiedAuthor),
  );

const viewpointElement = (viewpoint: ViewpointRef, name: string): XmlElement =>
  element(
    name,
    { Guid: viewpoint.guid },
    ...optional('Viewpoint', viewpoint.viewpoint),
    ...optional('Snapshot', viewpoint.snapshot),
    ...optional('Index', viewpoint.index),
  );

const snippetElement = (snippet: BimSnippet, isNew: boolean): XmlElement =>
  element(
    'BimSnippet',
    { SnippetType: snippet.type, [isNew ? 'IsExternal' : 'isExternal']: flag(snippet.isExternal, false) },
    element('Reference', {}, snippet.reference),
    element('ReferenceSchema', {}, snippet.referenceSchema),
  );

const documentElement = (document: DocumentReference, isNew: boolean): XmlElement =>
  isNew
    ? element(
        'DocumentReference',
        { Guid: given(document.guid) },
        ...optional('DocumentGuid', document.documentGuid),
        ...optional('Url', document.url),
        ...optional('Description', document.description),
      )
    : element(
        'DocumentReference',
        { Guid: given(document.guid), isExternal: flag(document.isExternal, false) },
        ...optional('ReferencedDocument', document.referencedDocument),
        ...optional('Description', document.description),
      );
