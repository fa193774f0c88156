import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { DUCT, OPENING, WALL } from '../../fixtures/cases/base.js';
import { ModelBuilder } from '../../fixtures/model-builder.js';
import { InputError } from '../../src/read/container.js';
import type { FileReader, ModelInput } from '../../src/read/file-reader.js';
import type { FileModel } from '../../src/read/read-file.js';
import { readFilesBy } from '../../src/read/read-files.js';
import { readHere } from '../../src/read/read-here.js';

const NAMES = ['a.ifc', 'b.ifc', 'c.ifc', 'd.ifc'] as const;

/** Each with a wall and a duct of its own, and of its own size. */
const inputs: readonly ModelInput[] = NAMES.map((name, i) => {
  const b = new ModelBuilder({ fileName: name });
  for (let n = 0; n < [2, 5, 1, 3][i]!; n++) {
    const y = i * 20_000 + n * 3000;
    b.opening(b.wall({ ...WALL, from: [0, y], to: [5000, y] }), { ...OPENING, centre: [3000, y, 2000] });
  }
  b.duct({ ...DUCT, from: [3000, i * 20_000 - 2000, 2000], to: [3000, i * 20_000 + 2000, 2000] });
  return { name, bytes: new TextEncoder().encode(b.toString()) };
});

/** Files end when they are told to, in any order; what is read is what `readHere` reads. */
class Readers {
  readonly begun: string[] = [];
  most = 0;
  private readonly pending: (() => void)[] = [];
  constructor(
    private readonly models: ReadonlyMap<string, FileModel>,
    private readonly bad: readonly string[] = [],
  ) {}

  readonly read: FileReader = (input) =>
    new Promise((resolve, reject) => {
      this.begun.push(input.name);
      this.pending.push(() =>
        this.bad.includes(input.name)
          ? reject(new InputError('is no model; export it again'))
          : resolve(this.models.get(input.name)!),
      );
      this.most = Math.max(this.most, this.pending.length);
    });

  /** Ends one after the other, each chosen by a number, until all is done. */
  async endBy(numbers: readonly number[], done: Promise<unknown>): Promise<void> {
    let isDone = false;
    const end = () => {
      isDone = true;
    };
    done.then(end, end);
    for (let i = 0; !isDone; i++) {
      const at = (numbers[i % numbers.length] ?? 0) % Math.max(this.pending.length, 1);
      this.pending.splice(at, 1)[0]?.();
      await new Promise(setImmediate);
    }
  }
}

const modelsOf = async () =>
  new Map(await Promise.all(inputs.map(async (input, i) => [input.name, await readHere(input, `m${i + 1}`)] as const)));

describe('several files at once', () => {
  it('give the same federation in whatever order they end, are named, and however many are read at once', async () => {
    const models = await modelsOf();
    const one = await readFilesBy(readHere, inputs);
    const order = fc.array(fc.nat(3), { minLength: 4, maxLength: 4 });
    const named = fc.shuffledSubarray([...inputs], { minLength: inputs.length });
    await fc.assert(
      fc.asyncProperty(order, named, fc.integer({ min: 1, max: 6 }), async (numbers, shuffled, atOnce) => {
        const readers = new Readers(models);
        const reading = readFilesBy(readers.read, shuffled, { atOnce });
        await readers.endBy(numbers, reading);
        expect(await reading).toEqual(one);
        expect(readers.most).toBe(Math.min(atOnce, inputs.length));
      }),
      { numRuns: 60 },
    );
  });

  it('begin with the largest, and tell how many are done', async () => {
    const readers = new Readers(await modelsOf());
    const told: [number, number][] = [];
    const reading = readFilesBy(readers.read, inputs, {
      atOnce: 2,
      onProgress: (_, done, of) => told.push([done, of]),
    });
    await readers.endBy([1], reading);
    await reading;
    const bySize = [...inputs].sort((a, b) => b.bytes.length - a.bytes.length).map(({ name }) => name);
    expect(readers.begun).toEqual(bySize);
    expect(told).toEqual([1, 2, 3, 4].map((n) => [n, 4]));
  });

  it('of several that are bad name the first in their order, whichever ends first', async () => {
    const models = await modelsOf();
    const order = fc.array(fc.nat(3), { minLength: 4, maxLength: 4 });
    await fc.assert(
      fc.asyncProperty(order, fc.integer({ min: 1, max: 4 }), async (numbers, atOnce) => {
        const readers = new Readers(models, ['b.ifc', 'c.ifc', 'd.ifc']);
        const reading = readFilesBy(readers.read, inputs, { atOnce });
        const told = expect(reading).rejects.toThrow(/^b\.ifc is no model; export it again\.$/);
        await readers.endBy(numbers, reading);
        await told;
      }),
      { numRuns: 40 },
    );
  });

  it('read no further behind one that is bad', async () => {
    const readers = new Readers(await modelsOf(), ['b.ifc']);
    const reading = readFilesBy(readers.read, inputs);
    const told = expect(reading).rejects.toThrow(InputError);
    await readers.endBy([0], reading);
    await told;
    // b.ifc is the largest and c.ifc, d.ifc come after it in the order.
    expect(readers.begun).toEqual(['b.ifc', 'a.ifc']);
  });
});
