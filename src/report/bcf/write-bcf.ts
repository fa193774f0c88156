/** findings.bcf: the failed findings of a report as topics, with what people made of them in an earlier file. */
import type { Scene } from '../../scene/scene.js';
import { isGlobalId, uuidOfGlobalId } from '../global-id.js';
import type { Report } from '../schema.js';
import { element, writeXml } from '../xml.js';
import { type BcfFile, type Entries, writeArchive } from './archive.js';
import {
  type Extensions,
  joined,
  NO_EXTENSIONS,
  readExtensionSchema,
  readExtensions,
  usedIn,
  writeExtensionSchema,
  writeExtensions,
} from './extensions.js';
import { type Look, looksAt } from './look.js';
import { merge } from './merge.js';
import {
  DEMONSTRATION_LABEL,
  type OwnTopic,
  ownTopics,
  PRIORITIES,
  STAGE,
  STATUSES,
  TOPIC_TYPE,
} from './own-topics.js';
import type { BcfVersion, Topic, ViewpointRef } from './topic.js';
import { partGuid, type TopicKind } from './topic-guid.js';
import { writeViewpoint } from './viewpoint.js';
import { writeMarkup } from './write-markup.js';

export interface BcfOptions {
  /** What is to be seen at the penetrations. */
  readonly scene: Scene;
  /** 3.0 when left out; that of the earlier file where there is one. */
  readonly version?: BcfVersion | undefined;
  /** One topic for each failed finding, or one for each penetration with failed findings. */
  readonly per?: TopicKind | undefined;
  /** What people went on with: its topics, comments and everything unknown are written again. */
  readonly previous?: BcfFile | undefined;
}

const encode = (text: string): Uint8Array => new TextEncoder().encode(text);

/** The bytes of the archive; the same for the same input. */
export function writeBcf(report: Report, { scene, per = 'finding', previous, ...options }: BcfOptions): Uint8Array {
  const version = previous?.version ?? options.version ?? '3.0';
  const { own, answered } = merge(ownTopics(report, per), previous, report);
  const look = looksAt(report, scene);
  const looks = new Map(own.map((one) => [one.topic.guid, look(one)]));
  const entries = new Map<string, Uint8Array>(rootFiles(report, version, own, previous));
  for (const [path, content] of keptEntries(previous, looks)) if (!entries.has(path)) entries.set(path, content);
  for (const { path, topic } of answered) entries.set(path, encode(writeMarkup(topic, version)));
  for (const { topic } of own)
    for (const [name, content] of topicFiles(topic, looks.get(topic.guid), version)) entries.set(name, content);
  return writeArchive(entries, report.createdAt);
}

/** All of the earlier file but what is written anew; a topic of ours moves to the folder that its GUID names. */
function keptEntries(previous: BcfFile | undefined, looks: ReadonlyMap<string, Look | undefined>): Entries {
  const folders = new Map(previous?.topics.map((stored) => [stored.folder, stored]));
  const kept = new Map<string, Uint8Array>();
  for (const [path, content] of previous?.entries ?? []) {
    const [folder, name] = [path.slice(0, path.indexOf('/')), path.slice(path.indexOf('/') + 1)];
    const stored = path.includes('/') ? folders.get(folder) : undefined;
    if (!stored || !looks.has(stored.topic.guid)) kept.set(path, content);
    else if (path !== stored.path && !(looks.get(stored.topic.guid) && oldLook(stored.topic).has(name)))
      kept.set(`${stored.topic.guid}/${name}`, content);
  }
  return kept;
}

/** The files of our own viewpoint in an earlier file, unless viewpoints of others use them too. */
function oldLook({ guid, viewpoints }: Topic): ReadonlySet<string> {
  const own = partGuid(guid, 'viewpoint');
  const others = viewpoints.filter((one) => one.guid !== own).flatMap(filesOf);
  const files = viewpoints.filter((one) => one.guid === own).flatMap(filesOf);
  return new Set(files.filter((name) => !others.includes(name)));
}
const filesOf = ({ viewpoint, snapshot }: ViewpointRef): string[] =>
  [viewpoint, snapshot].filter((name) => name !== null);

function topicFiles(topic: Topic, look: Look | undefined, version: BcfVersion): [string, Uint8Array][] {
  const path = (name: string) => `${topic.guid}/${name}`;
  const markup = (viewpoints: readonly ViewpointRef[]) => encode(writeMarkup({ ...topic, viewpoints }, version));
  if (!look) return [[path('markup.bcf'), markup(topic.viewpoints)]];
  const guid = look.viewpoint.guid;
  const others = topic.viewpoints.filter((one) => one.guid !== guid);
  const taken = new Set(others.flatMap(filesOf));
  // These names the older standard asks for; where another viewpoint has them, it keeps them.
  const named = (name: string, ending: string) =>
    taken.has(name + ending) ? `${name}-${guid}${ending}` : name + ending;
  const [viewpoint, snapshot] = [named('viewpoint', '.bcfv'), named('snapshot', '.png')];
  return [
    [path('markup.bcf'), markup([{ guid, viewpoint, snapshot, index: null }, ...others])],
    [path(viewpoint), encode(writeViewpoint(look.viewpoint, version))],
    [path(snapshot), look.snapshot],
  ];
}

function rootFiles(
  report: Report,
  version: BcfVersion,
  own: readonly OwnTopic[],
  previous: BcfFile | undefined,
): [string, Uint8Array][] {
  const words = joined(ourWords(report), usedIn(own.map(({ topic }) => topic)));
  const kept = (path: string, text: string): [string, Uint8Array] => [
    path,
    previous?.entries.get(path) ?? encode(text),
  ];
  const earlier = (path: string, read: (bytes: Uint8Array) => Extensions): Extensions => {
    const bytes = previous?.entries.get(path);
    return bytes ? read(bytes) : NO_EXTENSIONS;
  };
  const extensions: [string, Uint8Array] =
    version === '3.0'
      ? ['extensions.xml', encode(writeExtensions(joined(earlier('extensions.xml', readExtensions), words)))]
      : ['extensions.xsd', encode(writeExtensionSchema(joined(earlier('extensions.xsd', readExtensionSchema), words)))];
  return [
    kept('bcf.version', writeXml(element('Version', { VersionId: version }))),
    extensions,
    kept('project.bcfp', projectText(report, version)),
  ];
}

const ourWords = (report: Report): Extensions => ({
  ...NO_EXTENSIONS,
  types: [TOPIC_TYPE],
  statuses: STATUSES,
  priorities: Object.values(PRIORITIES),
  labels: report.demonstration ? [DEMONSTRATION_LABEL] : [],
  stages: [STAGE],
});

/** The project is known by the first IFC project; where none has a proper GlobalId, by the files. */
function projectText({ models }: Report, version: BcfVersion): string {
  const globalId = models.map((model) => model.projectGlobalId).find((id) => id !== null && isGlobalId(id));
  const id = globalId ? uuidOfGlobalId(globalId) : partGuid('project', models.map((model) => model.file).join('\n'));
  const project = element('Project', { ProjectId: id });
  return writeXml(
    version === '3.0'
      ? element('ProjectInfo', {}, project)
      : element('ProjectExtension', {}, project, element('ExtensionSchema', {}, 'extensions.xsd')),
  );
}
