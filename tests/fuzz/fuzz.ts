import { relative } from 'node:path';
import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import fc from 'fast-check';
import { expect, vi } from 'vitest';

/** Inputs of one run of all files together, and how they are shared out: most to what is cheap to ask. */
const INPUTS = 105_000;
export const SHARES = {
  ndjson: 0.1,
  json: 0.143,
  csv: 0.08,
  canLog: 0.012,
  goodCsv: 0.04,
  mapped: 0.02,
  proposed: 0.01,
  gzip: 0.04,
  plainBody: 0.05,
  value: 0.12,
  goodReading: 0.11,
  code: 0.06,
  fileName: 0.03,
  file: 0.01,
  trend: 0.012,
  lives: 0.008,
  plainLife: 0.02,
  setUp: 0.02,
  setUpFile: 0.006,
  booking: 0.007,
  packet: 0.004,
  packetFile: 0.006,
  query: 0.018,
  path: 0.012,
  headers: 0.01,
  delivery: 0.028,
  access: 0.012,
  credentials: 0.012,
};

const seed = readNumber('SLIPDRIFT_FUZZ_SEED', 730_511);
export const inputs = readNumber('SLIPDRIFT_FUZZ_INPUTS', INPUTS);
/** An input that takes longer counts as one that hangs. */
const LIMIT_MS = 10_000;
const WARM_UP = 0.25;
const SHOWN_CHARACTERS = 3000;
/** Compiled code, caches and test runner settle within this; a reader that keeps a line of each input does not. */
const HEAP_GROWTH_MIB = 12;
/** Resident memory follows late and in steps: a backstop for what is not on the heap. */
const RSS_GROWTH_MIB = 160;
const MIB = 1_048_576;

/**
 * Puts as many inputs as `reader` has a share in to `check`, each within a time limit, and holds memory after the last to
 * memory after the first quarter. A failure tells how it is repeated.
 */
export async function fuzz<T>(
  reader: keyof typeof SHARES,
  arbitrary: fc.Arbitrary<T>,
  check: (input: T) => void | Promise<void>,
): Promise<void> {
  const runs = Math.max(4, Math.ceil(inputs * SHARES[reader]));
  const warmUp = Math.ceil(runs * WARM_UP);
  await put(arbitrary, check, warmUp, seed);
  const before = measure();
  await put(arbitrary, check, runs - warmUp, seed + 1);
  const after = measure();
  expect(after.heapMiB - before.heapMiB, 'growth of the heap, MiB').toBeLessThan(HEAP_GROWTH_MIB);
  expect(after.rssMiB - before.rssMiB, 'growth of resident memory, MiB').toBeLessThan(RSS_GROWTH_MIB);
}

async function put<T>(
  arbitrary: fc.Arbitrary<T>,
  check: (input: T) => void | Promise<void>,
  numRuns: number,
  from: number,
): Promise<void> {
  const property = fc.asyncProperty(arbitrary, async (input) => {
    const startedMs = performance.now();
    await check(input);
    hold(performance.now() - startedMs < LIMIT_MS, () => `took longer than ${LIMIT_MS} ms`);
  });
  const { failed, counterexample, counterexamplePath, errorInstance } = await fc.check(property, {
    seed: from,
    numRuns,
    timeout: LIMIT_MS,
  });
  if (!failed) return;
  const file = relative(process.cwd(), expect.getState().testPath ?? 'tests/fuzz');
  const because = errorInstance instanceof Error ? (errorInstance.stack ?? errorInstance.message) : '';
  throw new Error(
    [
      `Repeat with SLIPDRIFT_FUZZ_SEED=${seed} SLIPDRIFT_FUZZ_INPUTS=${inputs} npx vitest run ${file}`,
      `(seed ${from}, path ${counterexamplePath})`,
      `Input: ${describe(counterexample?.[0]).slice(0, SHOWN_CHARACTERS)}`,
      because.slice(0, SHOWN_CHARACTERS),
    ].join('\n'),
  );
}

/** Throws where something does not hold; `expect` takes too long to ask it a million times. */
export function hold(holds: boolean, what: () => string): void {
  if (!holds) throw new Error(what());
}

/** The same for two texts. */
export function holdEqual(found: string, expected: string): void {
  if (found !== expected) expect(found).toBe(expected);
}

/** Bytes as text with a character a byte, so that a person can read them. */
function describe(input: unknown): string {
  if (input instanceof Uint8Array) return JSON.stringify(Buffer.from(input).toString('latin1'));
  if (Array.isArray(input)) return `[${input.map(describe).join(', ')}]`;
  return fc.stringify(input);
}

/** Longer runs are asked for by their count; a single input has its own limit. */
vi.setConfig({ testTimeout: 3_600_000, hookTimeout: 300_000 });

setFlagsFromString('--expose-gc');
const collectGarbage = runInNewContext('gc') as () => void;

/** After a collection, so that what is counted is held. */
function measure(): { heapMiB: number; rssMiB: number } {
  collectGarbage();
  collectGarbage();
  const { heapUsed, external, rss } = process.memoryUsage();
  return { heapMiB: (heapUsed + external) / MIB, rssMiB: rss / MIB };
}

function readNumber(name: string, otherwise: number): number {
  const given = process.env[name];
  if (given === undefined || given === '') return otherwise;
  if (!/^\d{1,9}$/.test(given)) throw new RangeError(`${name} must be a whole number, not ${given}`);
  return Number(given);
}
