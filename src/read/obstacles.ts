/** What else stands in the way of a blanket and of hands: beams, coverings, equipment, furniture and the like. */

import { constructionOf } from '../construction/construction-of.js';
import type { Obstacle } from '../model.js';
import { accessEvidence } from './access-panels.js';
import { statedRating } from './barrier-rating.js';
import { DUCT_WORDS, predefinedType } from './classify.js';
import { readCombustible } from './combustible.js';
import { readLayers } from './materials.js';
import { readElement, type Source, tryBodies } from './source.js';
import type { Line } from './step-file.js';
import { isSupport } from './supports.js';
import { text } from './value.js';

export interface Taken {
  readonly barriers: ReadonlySet<number>;
  readonly ductwork: ReadonlySet<number>;
  readonly services: ReadonlySet<number>;
}

/** Roots of IfcElement that are nothing to stand in the way, or that are read elsewhere. */
const NOT = [
  'IFCFEATUREELEMENT', // openings and recesses
  'IFCELEMENTCOMPONENT', // fasteners, reinforcement, hangers and brackets
  'IFCVIRTUALELEMENT',
  'IFCCOLUMN',
] as const;
const OUTDOORS = /^IFC(GEOGRAPHIC|CIVIL)ELEMENT/;

const KINDS: readonly (readonly [RegExp, Obstacle['kind']])[] = [
  [/^IFCBEAM/, 'beam'],
  [/^IFCMEMBER/, 'member'],
  [/^IFCPLATE/, 'plate'],
  [/^IFCSTAIR/, 'stair'],
  [/^IFCRAMP/, 'ramp'],
  [/^IFCRAILING/, 'railing'],
  [/^IFC(FOOTING|PILE)/, 'footing'],
  [/^IFCCOVERING/, 'covering'],
  [/^IFC(FURNISHING|FURNITURE|SYSTEMFURNITURE)/, 'furniture'],
];

/** Room that is kept free, and holes that are asked for: neither is in anybody's way. */
const NOT_THERE = new Set(['PROVISIONFORVOID', 'PROVISIONFORSPACE']);
const NO_OBSTACLE_WORDS = /provision for (void|space)|clearance|keep.?out|durchbruch|freihalte/iu;
/** What is wrapped round something; whether round a duct, only its relation tells. */
const WRAPPINGS = new Set(['INSULATION', 'WRAPPING', 'SLEEVING', 'MEMBRANE']);

export function readObstacles(source: Source, model: string, taken: Taken): Obstacle[] {
  const own: Source = { ...source, problems: [] };
  const obstacles = readAll(own, model, taken);
  const [first] = own.problems;
  // One line for all: what can't be drawn of furniture and the like is seldom near a duct, and is many.
  if (first)
    source.problems.push({
      code: 'unreadable-obstacles',
      globalId: first.globalId,
      message: `${own.problems.length} elements that may stand near ducts were not read, so no distance to them was measured; the first: ${first.message}`,
    });
  return obstacles;
}

function readAll(source: Source, model: string, taken: Taken): Obstacle[] {
  const { file, relations } = source;
  const not = new Set(NOT.flatMap((root) => file.ids(root, true)));
  const distribution = new Set(file.ids('IFCDISTRIBUTIONELEMENT', true));
  const onDucts = new Set([...taken.ductwork].flatMap((duct) => relations.coveringsOf.get(duct) ?? []));
  const covering = coveringsOfOthers(source, taken);
  const joined = joinedPorts(source, taken.ductwork);
  return file.ids('IFCELEMENT', true).flatMap((id): Obstacle[] => {
    if (not.has(id) || taken.barriers.has(id) || taken.ductwork.has(id) || taken.services.has(id)) return [];
    if (onDucts.has(id) || isOf(source, id, taken.ductwork) || isDoorOrWindow(source, id) || isSupport(source, id))
      return [];
    // What is in line with ductwork: coils, filters.
    if ((relations.portsOf.get(id) ?? []).some((port) => joined.has(port))) return [];
    const line = file.line(id);
    if (!line || OUTDOORS.test(file.entity(id)) || !isInTheWay(source, id, line, covering)) return [];
    const bodies = tryBodies(source, line, 'Obstacle');
    if (!bodies || bodies.length === 0) return [];
    const kind = kindOf(source, id, line, distribution.has(id));
    const element = readElement(source, id, line);
    const carries = CARRIERS.has(kind) ? readCarrier(source, id, element.name) : undefined;
    return [{ ...element, model, bodies, kind, carries, combustible: readCombustible(source, id) }];
  });
}

const CARRIERS: ReadonlySet<Obstacle['kind']> = new Set(['beam', 'member', 'ceiling']);

const readCarrier = (source: Source, id: number, name: string): Obstacle['carries'] => ({
  construction: constructionOf(
    readLayers(source, id).layers.map(({ material }) => material),
    [name],
    source.constructions,
  ),
  rating: statedRating(source, [id], { object: 'barrier' }),
});

function kindOf(source: Source, id: number, line: Line, isDistribution: boolean): Obstacle['kind'] {
  if (isDistribution) return 'equipment';
  const entity = source.file.entity(id);
  const kind = KINDS.find(([name]) => name.test(entity))?.[1] ?? 'other';
  return kind === 'covering' && predefinedType(source, id, line) === 'CEILING' ? 'ceiling' : kind;
}

function isInTheWay(source: Source, id: number, line: Line, covering: ReadonlySet<number>): boolean {
  const { file, relations } = source;
  const type = predefinedType(source, id, line) ?? '';
  if (NOT_THERE.has(type) || accessEvidence(source, id, line) !== undefined) return false;
  const names = [line.Name, line.ObjectType, file.line(relations.typeOf.get(id) ?? 0)?.Name].map(text);
  const says = (words: RegExp) => names.some((name) => name !== undefined && words.test(name));
  if (says(NO_OBSTACLE_WORDS)) return false;
  const entity = file.entity(id);
  if (entity === 'IFCCOVERING') return !WRAPPINGS.has(type) || covering.has(id);
  return entity !== 'IFCBUILDINGELEMENTPROXY' || !says(DUCT_WORDS);
}

/** On something that is no ductwork, e.g. the insulation of a pipe. */
function coveringsOfOthers({ relations }: Source, { ductwork }: Taken): Set<number> {
  return new Set([...relations.coveringsOf].flatMap(([on, coverings]) => (ductwork.has(on) ? [] : coverings)));
}

/** Ports of other elements that ductwork is connected with. */
function joinedPorts({ relations }: Source, ductwork: ReadonlySet<number>): Set<number> {
  const linked = [...ductwork].flatMap((id) => relations.portsOf.get(id) ?? []).map((p) => relations.linkedPort.get(p));
  return new Set(linked.filter((port) => port !== undefined));
}

/** Doors and windows stand in their walls, whose gross bodies count already. */
const isDoorOrWindow = ({ file }: Source, id: number): boolean => /^IFC(DOOR|WINDOW)/.test(file.entity(id));

const DEEPEST_PARTS = 8;

function isOf({ relations }: Source, id: number, wholes: ReadonlySet<number>): boolean {
  let at = relations.wholeOf.get(id);
  for (let step = 0; at !== undefined && step < DEEPEST_PARTS; step++) {
    if (wholes.has(at)) return true;
    at = relations.wholeOf.get(at);
  }
  return false;
}
