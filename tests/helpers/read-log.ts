import type { ReadingInput } from '#server/contract/readings.ts';
import { lookAtCanLog } from '#server/services/can-log/look-at-can-log.ts';
import { type CanOptions, readCanLog } from '#server/services/can-log/read-can-log.ts';
import type { Line } from '#server/services/intake/line.ts';
import { type MadeFrame, toLog } from './can-frames.ts';

async function* once(bytes: Buffer): AsyncGenerator<Buffer> {
  yield bytes;
}

const optionsOf = (changes: Partial<CanOptions>): CanOptions => ({
  vehicle: 'T-1',
  startMs: null,
  windowS: 10,
  findUnits: async () => [],
  ...changes,
});
const bytesOf = (log: readonly MadeFrame[] | string): Buffer =>
  Buffer.from(typeof log === 'string' ? log : toLog([...log].sort((a, b) => a.atS - b.atS)), 'latin1');

/** Lines of a made log, whose frames need not be in order. */
export async function readLog(
  log: readonly MadeFrame[] | string,
  changes: Partial<CanOptions> = {},
): Promise<Line[]> {
  const lines: Line[] = [];
  for await (const block of readCanLog(once(bytesOf(log)), optionsOf(changes))) lines.push(...block);
  return lines;
}

/** Its readings, as a gateway would have sent them. */
export const readingsOf = async (
  log: readonly MadeFrame[] | string,
  changes: Partial<CanOptions> = {},
): Promise<Partial<ReadingInput>[]> =>
  (await readLog(log, changes)).map(({ value }) => value as ReadingInput);

export const lookAtLog = (log: readonly MadeFrame[] | string, changes: Partial<CanOptions> = {}) =>
  lookAtCanLog(once(bytesOf(log)), optionsOf(changes), true);
