/** What stands beside the stretches of runs, as checks look at it: one for each stretch, obstacle and side. */
import { refOf } from '../element-refs.js';
import type { Clearance, Crossings, DuctProtection, Run, Stretch, StretchPart } from '../model.js';
import { besideWords } from '../words/beside.js';
import { oneLine } from '../words/text.js';
import { valueWords } from '../words/values.js';
import { isJudgedAtFace } from './at-faces.js';
import type { Decided } from './decided.js';
import type { FactObject } from './fact-schema.js';
import { known } from './known.js';
import { type Choice, chosenSystem, ownFacts } from './own-facts.js';
import { isProtection } from './protection.js';
import { numberOf, textOf } from './read-fact.js';
import type { Subject } from './subject.js';
import { type ThreeSided, threeSidedAt } from './three-sided.js';

/** A hand with a strap or a pin between the protection and what stands there. Common practice, no source. */
const USUAL_WORKING_ROOM = 50;

/** By the ids of penetrations. */
type Choices = ReadonlyMap<string, Choice>;

interface Placed {
  readonly run: Run;
  readonly stretch: Stretch;
  readonly clearance: Clearance;
  /** What tells how it is protected. */
  readonly choice: Choice;
  /** Of all layers of the protection. */
  readonly thickness: number | undefined;
  /** The same, working room, flanges and the other's protection; undefined: not known. */
  readonly needed: number | undefined;
  readonly otherProtection: number | undefined;
}

/** Of runs that pass a barrier, which is what tells how they are protected. */
export function roomSubjects(crossings: Crossings, choices: Choices, decided: Decided, model: FactObject): Subject[] {
  const byRun = new Map(
    crossings.runs.map((run) => [
      run.id,
      bestOf(
        run.stretches.flatMap(({ ends }) => ends),
        choices,
      ),
    ]),
  );
  const byId = new Map(crossings.penetrations.map((penetration) => [penetration.id, penetration]));
  const isAtFace = (clearance: Clearance, { ends }: Stretch): boolean =>
    ends.some(({ penetration: id }) => isJudgedAtFace(clearance, byId.get(id)!, choices.get(id)?.chosen.system ?? {}));
  return crossings.runs.flatMap((run) => {
    const placed = run.stretches.flatMap((stretch) => {
      const choice = bestOf(stretch.ends, choices) ?? byRun.get(run.id);
      return stretch.clearances.flatMap((clearance) =>
        choice && !isAtFace(clearance, stretch) ? [placedIn(run, stretch, clearance, choice, byRun, decided)] : [],
      );
    });
    const untold = placed.filter(({ clearance }) => clearance.obstacle.combustible === null);
    const speaker = least(untold);
    const open = least(placed.filter((one) => one.needed === undefined && isWrapped(one)));
    return (
      placed
        .filter((one) => isFirstOfPair(one, byRun) && !placed.some((other) => isInOnePlane(one, other)))
        // Where nothing tells how much room is needed, that is said of the tightest place alone.
        .filter((one) => one.needed !== undefined || !isWrapped(one) || one === open || one === speaker || burns(one))
        .map((one) => subjectOf(one, placed, decided, model, one === speaker ? untold.length : 0))
    );
  });
}

const burns = ({ clearance }: Placed): boolean => clearance.obstacle.combustible === true;

/** At the penetration of the stretch where protection is applied as chosen, else at any. */
function bestOf(ends: Stretch['ends'], choices: Choices): Choice | undefined {
  const all = ends.flatMap(({ penetration }) => choices.get(penetration) ?? []);
  // A tested damper has no layers.
  const layered = all.filter(({ chosen }) => chosen.system.layerThickness !== undefined);
  return layered.find(({ chosen }) => chosen.system.applied === true) ?? layered[0] ?? all[0];
}

function placedIn(
  run: Run,
  stretch: Stretch,
  clearance: Clearance,
  choice: Choice,
  byRun: ReadonlyMap<string, Choice | undefined>,
  { choices }: Decided,
): Placed {
  const otherProtection = protectionOfOther(clearance, byRun);
  const thickness = thicknessOf(protectionAt(stretch, clearance), choice);
  const needed =
    thickness === undefined || otherProtection === undefined
      ? undefined
      : thickness + otherProtection + workingRoom(choices) + flangeOf(choice);
  return { run, stretch, clearance, choice, thickness, needed, otherProtection };
}

const workingRoom = (choices: Decided['choices']): number => choices?.room?.working ?? USUAL_WORKING_ROOM;

/** What only a table of common practice says of flanges can fail nothing. */
const flangeOf = ({ facts: { duct } }: Choice): number =>
  textOf(duct, 'flangeFrom') === 'brief' ? (numberOf(duct, 'flangeHeight') ?? 0) : 0;

/** 0 of what has none; of a protected duct as thick as its own tested system has it. */
function protectionOfOther(
  { obstacle: { protection, run } }: Clearance,
  byRun: ReadonlyMap<string, Choice | undefined>,
): number | undefined {
  if (!protection || !isProtection(protection.kind)) return 0;
  const choice = run === null ? undefined : byRun.get(run);
  return choice && thicknessOf(protection, choice);
}

/** Of the layers that are declared for the piece itself; at a barrier others may count. */
function thicknessOf({ kind, layers }: DuctProtection, { chosen }: Choice): number | undefined {
  const one = numberOf(chosen.system, 'layerThickness');
  const all = kind === 'fireResistingDuct' ? 1 : layers;
  return one === undefined || all === null ? undefined : one * all;
}

const UNKNOWN: DuctProtection = { kind: 'unknown', evidence: null, layers: null, integrity: null, insulation: null };

const protectionAt = ({ parts }: Stretch, { elements: [nearest] }: Clearance): DuctProtection =>
  parts.find(({ globalId, model }) => globalId === nearest?.globalId && model === nearest.model)?.protection ?? UNKNOWN;

const isWrapped = ({ stretch, clearance }: Placed): boolean => isProtection(protectionAt(stretch, clearance).kind);

/** Two protected ducts beside each other are one place, which the first of their runs speaks of. */
function isFirstOfPair({ run, clearance: { obstacle } }: Placed, byRun: ReadonlyMap<string, unknown>): boolean {
  const isPair = obstacle.run !== null && obstacle.protection && isProtection(obstacle.protection.kind);
  return !isPair || !byRun.has(obstacle.run!) || run.id <= obstacle.run!;
}

/** Walls that end in one plane are one surface: the longest of them speaks. */
function isInOnePlane({ stretch, clearance: a }: Placed, { stretch: of, clearance: b }: Placed): boolean {
  if (a === b || stretch !== of || a.side === null || a.side !== b.side || a.distance !== b.distance) return false;
  const [one, other] = [a.obstacle, b.obstacle];
  if (one.what !== 'barrier' || other.what !== 'barrier' || one.construction !== other.construction) return false;
  const [long, longer] = [a.length ?? 0, b.length ?? 0];
  return longer > long || (longer === long && other.globalId < one.globalId);
}

const least = (placed: readonly Placed[]): Placed | undefined =>
  placed.reduce<Placed | undefined>(
    (best, one) => (!best || one.clearance.distance < best.clearance.distance ? one : best),
    undefined,
  );

function subjectOf(one: Placed, all: readonly Placed[], decided: Decided, model: FactObject, untold: number): Subject {
  const { run, stretch, clearance } = one;
  const own = ownFacts(one.choice);
  const { obstacle, side } = clearance;
  const nearest = stretch.parts.find(({ globalId }) => globalId === clearance.elements[0]?.globalId);
  const threeSided = threeSidedOf(one, all);
  const duct = nearest ? { ...own.duct, name: oneLine(nearest.name) || nearest.globalId } : own.duct;
  return {
    facts: {
      ...own,
      duct,
      model,
      system: {
        ...withoutThickness(own.system),
        ...known({ thickness: one.thickness, threeSidedFits: threeSided?.fits }),
      },
      room: roomFacts(one, { nearest, duct, threeSided, untold }, decided.choices),
    },
    subject: {
      type: 'run',
      id: run.id,
      elements: [...clearance.elements, obstacle].map(refOf),
    },
    key: `room ${clearance.elements[0]?.globalId} ${obstacle.globalId} ${side ?? 'beside'}`,
    side,
    at: clearance.at,
    barrier: null,
    airway: null,
    rank: numberOf(own.penetration, 'required.integrity') ?? 0,
    penetrations: [],
  };
}

const withoutThickness = ({ thickness: _, ...rest }: FactObject): FactObject => rest;

/** Undefined where four sides have room, or there is no such detail. */
function threeSidedOf(one: Placed, all: readonly Placed[]): ThreeSided | undefined {
  const { clearance, choice, needed } = one;
  const { obstacle, side, distance } = clearance;
  const system = chosenSystem(choice);
  const isTight = needed !== undefined && distance < needed && isWrapped(one);
  return isTight && system && side ? threeSidedAt(system, obstacle, distance, isCorner(one, all)) : undefined;
}

interface RoomBeside {
  readonly nearest: StretchPart | undefined;
  readonly duct: FactObject;
  readonly threeSided: ThreeSided | undefined;
  readonly untold: number;
}

function roomFacts(
  one: Placed,
  { nearest, duct, threeSided, untold }: RoomBeside,
  choices: Decided['choices'],
): FactObject {
  const { clearance, choice } = one;
  const { obstacle, side, distance } = clearance;
  const protection = protectionAt(one.stretch, clearance).kind;
  const { where, move, whither } = besideWords(side, nearest);
  return known({
    side,
    distance,
    obstacle: oneLine(obstacle.name) || obstacle.globalId,
    where,
    move: `${move} ${textOf(duct, 'name') ?? 'the duct'}${whither}`,
    over: clearance.length === null ? 'at a bend or a fitting' : `over ${valueWords(clearance.length, 'mm')}`,
    wrapped: isProtection(protection),
    protectionKnown: protection !== 'unknown',
    sheetKnown: clearance.from === 'sheet' || clearance.outline === 'sheet',
    working: workingRoom(choices),
    workingFrom: choices?.room?.working !== undefined ? 'brief' : 'commonPractice',
    flange: flangeOf(choice),
    otherProtection: one.otherProtection,
    threeSided: threeSided !== undefined,
    threeSidedMiss: threeSided?.miss,
    burns: obstacle.combustible === true,
    untold,
  });
}

/** Another barrier stands as near to another side of one of the same pieces. */
function isCorner({ stretch, clearance, needed }: Placed, all: readonly Placed[]): boolean {
  const own = new Set(clearance.elements.map(({ globalId }) => globalId));
  return all.some(
    (other) =>
      other.stretch === stretch &&
      other.clearance.side !== clearance.side &&
      other.clearance.obstacle.what === 'barrier' &&
      other.clearance.distance < (needed ?? 0) &&
      other.clearance.elements.some(({ globalId }) => own.has(globalId)),
  );
}
