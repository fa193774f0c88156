/** Supports and the lengths between them, as checks look at them. */
import { nameOf, refsOf } from '../element-refs.js';
import { resistsFire } from '../fire-rating/index.js';
import type { ElementRef, HangsFrom, SupportFacts, SupportSpan } from '../model.js';
import { oneLine } from '../words/text.js';
import type { FactObject } from './fact-schema.js';
import { known } from './known.js';
import type { Subject } from './subject.js';
import { held } from './support-design.js';
import { allowedSteel, smallerSide } from './support-limits.js';
import { type HeldPiece, hundredths, type SupportedRun } from './supported-run.js';

export function supportSubjects(run: SupportedRun): Subject[] {
  return run.found.supports.flatMap((support) => {
    const piece = run.pieces.find(({ part }) => nameOf(part) === nameOf(support.carries));
    return piece ? [supportSubject(run, support, piece)] : [];
  });
}

export function spanSubjects(run: SupportedRun): Subject[] {
  if (!run.isModelled) return [];
  return run.found.spans.flatMap((span) => {
    const own = run.piecesOf(span);
    return own.length > 0 ? [spanSubject(run, span, own)] : [];
  });
}

function supportSubject(run: SupportedRun, support: SupportFacts, piece: HeldPiece): Subject {
  const { choices } = run.decided;
  const limits = run.limits(piece.duct);
  const [rod, bearer] = [support.rod ?? choices?.supports?.rod, support.bearer ?? choices?.supports?.bearer];
  // Where supports may be missing from the models nobody knows what one of them carries; a riser stands on floors.
  const isHanging = piece.duct?.way === 'level';
  const carried = run.isModelled && isHanging ? (support.carried ?? undefined) : undefined;
  const weighed = isHanging ? run.heaviest(support, piece) : undefined;
  const own = weighed && held(weighed, { rod, bearer }, choices?.supports, carried, run.rodStressAllowed(limits));
  return subjectOf(
    run,
    {
      support: known({
        id: support.id,
        name: oneLine(support.name) || support.id,
        duct: oneLine(piece.part.name) || piece.part.globalId,
        minutes: run.minutes,
        hanging: isHanging,
        loadKnowable: run.isModelled && isHanging,
        rod,
        rods: choices?.supports?.rods ?? 2,
        rodStress: hundredths(own?.rodStress),
        rodStressPublished: run.publishedRodStress,
        rodLoad: hundredths(own?.rodLoad),
        rodDrawn: support.rodLength !== null,
        rodLength: support.rodLength,
        bearer,
        bearerStress: hundredths(own?.bearerStress),
        carried,
        massPerMetre: hundredths(weighed?.perMetre),
        spacingByStress: own?.spacingByStress === undefined ? undefined : Math.floor(own.spacingByStress),
        ...hangsFacts(support.hangsFrom, run.minutes),
      }),
      system: {
        ...limits,
        ...allowedSteel(run.carried.system?.supports, rod, bearer),
      },
    },
    { elements: [...support.elements, support.carries], key: `support ${support.id}`, at: support.position },
  );
}

function spanSubject(run: SupportedRun, span: SupportSpan, own: readonly HeldPiece[]): Subject {
  const sides = own.map(({ duct }) => (duct ? smallerSide(duct) : undefined));
  const longest = [...own].sort((a, b) => b.part.length - a.part.length)[0]!;
  const { strategy } = run.carried;
  const all = [...strategy.airway.inner, ...strategy.airway.shut].map(({ penetration }) => penetration);
  const barrier = all.find(({ id }) => id === span.penetration)?.barrier;
  return subjectOf(
    run,
    {
      span: known({
        kind: span.kind,
        duct: oneLine(longest.part.name) || longest.part.globalId,
        barrier: barrier && (oneLine(barrier.name) || barrier.globalId),
        length: span.length,
        found: span.supports.length > 0,
        smallerSide: sides.includes(undefined) ? undefined : Math.min(...sides.map((side) => side ?? 0)),
      }),
      system: run.limits(longest.duct),
    },
    {
      elements: own.map(({ part }) => part),
      key: ['span', span.kind, ...(span.penetration === null ? [] : [barrier?.globalId ?? '']), ...span.supports].join(
        ' ',
      ),
      at: span.at,
    },
  );
}

function subjectOf(
  { carried: { run, strategy } }: SupportedRun,
  own: FactObject,
  { elements, key, at }: { elements: readonly ElementRef[] } & Pick<Subject, 'key' | 'at'>,
) {
  return {
    ...run,
    facts: { ...run.facts, ...own },
    subject: { type: 'run', id: strategy.run.id, elements: refsOf(elements) },
    key: `${run.key} ${key}`,
    at,
  } satisfies Subject;
}

/** Steel beams, stud walls and the like say nothing by themselves; timber burns, and panels let go. */
const LETS_GO: readonly string[] = ['timberStud', 'massTimber', 'sandwichPanel'];

function hangsFacts(from: HangsFrom | null, minutes: number | undefined): FactObject {
  if (!from) return {};
  const { rating, construction } = from;
  const resists = resistsFire(rating);
  const bears = [rating.loadbearing, rating.integrity, rating.duration].find((value) => typeof value === 'number');
  const holdsSo = resists === true && typeof bears === 'number' ? bears : resists === false ? 0 : undefined;
  const holds = minutes === undefined || holdsSo === undefined ? undefined : holdsSo >= minutes;
  // What burns and is rated for long enough may hold a hanger or char round its anchor: nobody says.
  const isDoubtful = LETS_GO.includes(construction);
  const judged = isDoubtful && holds === true ? undefined : isDoubtful || resists === false ? false : holds;
  return known({
    hangsFrom: oneLine(from.name) || from.globalId,
    hangsFromKind: from.kind,
    hangsFromConstruction: construction === 'unknown' ? undefined : construction,
    hangsFromMinutes: holdsSo,
    hangsFromHolds: judged,
  });
}
