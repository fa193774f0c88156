/** Models read and all crossings in them found and measured: what takes the time of a review, and hangs on no rule. */
import { letGoOfKept } from '../collect.js';
import { type BuildingWide, findInBuilding } from '../find/find-penetrations.js';
import type { ConstructionWords, Crossings, Federation, ProjectFacts } from '../model.js';
import type { FileReader, ModelInput } from '../read/file-reader.js';
import { inOrder, readFilesBy } from '../read/read-files.js';

export interface Found {
  readonly federation: Federation;
  readonly crossings: Crossings;
  /** Left out where the crossings were kept from before: who needs it finds it again. */
  readonly wide?: BuildingWide;
}

export interface FoundInput {
  readonly models: readonly ModelInput[];
  readonly reader: FileReader;
  /** So many files are read at the same time; left out: one. */
  readonly atOnce?: number;
  readonly constructions: readonly ConstructionWords[];
  /** Of the brief. */
  readonly facts?: ProjectFacts | undefined;
  /** Largest separation that any rule asks for, mm. */
  readonly separation: number;
  /** Left out: nothing is kept. */
  readonly store?: FoundStore | undefined;
}

/** What is kept from one review for the next, by all that it follows from. */
export interface FoundStore {
  /** Undefined: it is not there, or not to be trusted. */
  get<K extends keyof Kept>(kind: K, key: string): Promise<Kept[K] | undefined>;
  put<K extends keyof Kept>(kind: K, key: string, value: Kept[K]): Promise<void>;
}

export interface Kept {
  readonly federation: Federation;
  readonly crossings: Crossings;
}

export interface ReviewOptions {
  /** @param share 0 to 1 of this stage */
  readonly onProgress?: (stage: string, share: number) => void;
  readonly signal?: AbortSignal | undefined;
}

/** @throws InputError where a model can't be reviewed; the reason of `signal` */
export async function findAll(input: FoundInput, options: ReviewOptions = {}): Promise<Found> {
  const { facts, separation, store } = input;
  const { signal, onProgress = () => {} } = options;
  const models = await inOrder(input.models);
  const federationKey = JSON.stringify([
    models.map(({ name, sha256 }) => [name, sha256]),
    facts ?? null,
    input.constructions,
  ]);
  const crossingsKey = JSON.stringify([federationKey, separation]);
  const names = models.map(({ name }) => name).join(', ');
  const known = await store?.get('federation', federationKey);
  onProgress(known ? `Taking ${names} as read before` : `Reading ${names}`, 0);
  const federation =
    known ??
    (await readFilesBy(input.reader, models, {
      ...{ facts, constructions: input.constructions, atOnce: input.atOnce ?? 1 },
      onProgress: (file, done, of) => onProgress(`Read ${file}`, done / of),
    }));
  signal?.throwIfAborted();
  if (!known) await store?.put('federation', federationKey, federation);
  const crossings = known && (await store?.get('crossings', crossingsKey));
  if (crossings) return { federation, crossings };
  const searching = (share: number): void => onProgress('Finding penetrations', share);
  searching(0);
  const { crossings: found, buildingWide: wide } = findInBuilding(federation, {
    ...{ separation, facts },
    onProgress: (share) => (share < 1 ? searching(share) : onProgress('Measuring penetrations', 0)),
  });
  signal?.throwIfAborted();
  await store?.put('crossings', crossingsKey, found);
  letGoOfKept();
  return { federation, crossings: found, wide };
}
