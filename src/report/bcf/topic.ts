/** Topics of an issue exchange as data: all that BCF-XML 2.1 and 3.0 say of one. What is not stated is null. */

export const BCF_VERSIONS = ['3.0', '2.1'] as const;
export type BcfVersion = (typeof BCF_VERSIONS)[number];

/** The file is no BCF, or damaged. The message says what is wrong; the caller names the file. */
export class BcfError extends Error {}

export interface Comment {
  readonly guid: string;
  readonly date: string;
  readonly author: string;
  readonly text: string | null;
  /** GUID of one of the topic's viewpoints. */
  readonly viewpoint: string | null;
  readonly modifiedDate: string | null;
  readonly modifiedAuthor: string | null;
}

/** A viewpoint as the markup lists it; the files lie in the topic's folder. */
export interface ViewpointRef {
  readonly guid: string;
  readonly viewpoint: string | null;
  readonly snapshot: string | null;
  readonly index: string | null;
}

export interface HeaderFile {
  readonly ifcProject: string | null;
  readonly ifcSpatialStructureElement: string | null;
  readonly isExternal: boolean;
  readonly filename: string | null;
  readonly date: string | null;
  readonly reference: string | null;
}

export interface DocumentReference {
  readonly guid: string | null;
  /** 3.0: GUID of a document in the file. */
  readonly documentGuid: string | null;
  /** 3.0: address of a document outside the file. */
  readonly url: string | null;
  /** 2.1: path in the file, or address. */
  readonly referencedDocument: string | null;
  /** 2.1 */
  readonly isExternal: boolean;
  readonly description: string | null;
}

export interface BimSnippet {
  readonly type: string;
  readonly isExternal: boolean;
  readonly reference: string;
  readonly referenceSchema: string;
}

export interface Topic {
  readonly guid: string;
  readonly serverAssignedId: string | null;
  readonly type: string | null;
  readonly status: string | null;
  readonly referenceLinks: readonly string[];
  readonly title: string;
  readonly priority: string | null;
  readonly index: string | null;
  readonly labels: readonly string[];
  readonly creationDate: string;
  readonly creationAuthor: string;
  readonly modifiedDate: string | null;
  readonly modifiedAuthor: string | null;
  readonly dueDate: string | null;
  readonly assignedTo: string | null;
  readonly stage: string | null;
  readonly description: string | null;
  readonly bimSnippet: BimSnippet | null;
  readonly documentReferences: readonly DocumentReference[];
  /** GUIDs. */
  readonly relatedTopics: readonly string[];
  readonly comments: readonly Comment[];
  readonly viewpoints: readonly ViewpointRef[];
  readonly files: readonly HeaderFile[];
}
