import type { Reading } from '#server/contract/readings.ts';
import { SlipdriftError } from '#server/errors.ts';
import { BodyFault } from '#server/services/intake/body-fault.ts';
import { checkReading } from '#server/services/intake/check-reading.ts';
import type { Line } from '#server/services/intake/line.ts';
import { hold } from './fuzz.ts';
import { boundsOf } from './reading-arbitraries.ts';

/** What is kept of a refused line, less the mark of a cut. */
const COMPARED_CHARACTERS = 4000;
export const NOW_MS = Date.UTC(2026, 2, 4);
const DAY_MS = 86_400_000;
/** Words of the inside that no sender must see. */
export const INSIDE =
  /node_modules|\bat \S+ \(|\.ts:\d|\.mjs:\d|\bselect .* from\b|insert into|violates|constraint|relation "|PostgresError|drizzle|\/(work|tmp|home|root|usr)\//i;

export interface ReadBody {
  lines: Line[];
  /** code and message of what ended the reading */
  fault: string | null;
}

/** Reads a body that comes in these pieces. Faults that are meant for the sender are answers; all else is thrown on. */
export async function readBody(
  reader: (chunks: AsyncIterable<Buffer>) => AsyncIterable<Line[]>,
  pieces: readonly Buffer[],
): Promise<ReadBody> {
  async function* chunks() {
    yield* pieces;
  }
  const lines: Line[] = [];
  try {
    for await (const block of reader(chunks())) for (const line of block) lines.push(line);
    return { lines, fault: null };
  } catch (error) {
    if (!(error instanceof BodyFault || error instanceof SlipdriftError)) throw error;
    const errors = error instanceof SlipdriftError ? JSON.stringify(error.errors) : '';
    hold(!INSIDE.test(error.message + errors), () => `tells of the inside: ${error.message}${errors}`);
    return { lines, fault: `${error.code}: ${error.message}${errors}` };
  }
}

/** For comparing. A line that is too long is held in part, and which part depends on how it came. */
export const comparable = ({ lines, fault }: ReadBody): string =>
  [
    ...lines.map(
      ({ line, raw, value, errors }) =>
        `${line} ${raw.slice(0, COMPARED_CHARACTERS)} ${toText(value)} ${JSON.stringify(errors)}`,
    ),
    `fault: ${fault}`,
  ].join('\n');

/** A value as JSON; JSON.parse bears more depth than JSON.stringify. */
export function toText(value: unknown): string {
  try {
    return JSON.stringify(value) ?? 'undefined';
  } catch (error) {
    if (error instanceof RangeError) return 'too deep';
    throw error;
  }
}

/** Every line becomes a reading that storage can hold, or reasons that a person can read. */
export function holdChecked({ lines }: ReadBody): { stored: number; refused: number } {
  let stored = 0;
  let last = 0;
  for (const { line, value, errors } of lines) {
    hold(line > last, () => `line ${line} came after ${last}`);
    last = line;
    const checked = errors === null ? checkReading(value, NOW_MS) : { reading: null, errors };
    if (checked.reading === null) {
      hold(checked.errors.length > 0, () => 'refused without a reason');
      for (const { message } of checked.errors)
        hold(message !== '' && !INSIDE.test(message), () => `is no reason to show: ${message}`);
      continue;
    }
    stored += 1;
    holdStorable(checked.reading);
  }
  return { stored, refused: lines.length - stored };
}

export function holdStorable(reading: Reading): void {
  const name = reading.vehicle;
  hold(name.trim() === name && /^[^\p{Cc}\p{Cs}]{1,64}$/u.test(name), () => `stores the name ${name}`);
  const atMs = reading.at.getTime();
  hold(atMs >= Date.UTC(1990, 0, 1) && atMs <= NOW_MS + DAY_MS, () => `stores the time ${reading.at}`);
  holdWithin(reading.odometerKm, 0, boundsOf('odometer_km').max);
  holdWithin(reading.slipRpm, -8000, 8000);
  holdWithin(reading.dutyPct, 0, 100);
  const { fluidC, loadPct, torquePct, throttlePct, speedKmh, seconds } = reading;
  for (const value of [fluidC, loadPct, torquePct, throttlePct, speedKmh, seconds])
    if (value !== null) holdWithin(value, -125, 86_400);
  for (const code of reading.codes ?? [])
    hold(/^[^\p{Cc}\p{Cs}]{1,32}$/u.test(code), () => `stores the code ${code}`);
}

function holdWithin(value: number, low: number, high: number): void {
  hold(value >= low && value <= high, () => `stores ${value}, not within ${low} to ${high}`);
}
