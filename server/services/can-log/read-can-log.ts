import { normaliseVin } from '#server/contract/vin.ts';
import { SlipdriftError } from '#server/errors.ts';
import { BodyFault } from '#server/services/intake/body-fault.ts';
import { goodLine, type Line } from '#server/services/intake/line.ts';
import type { Draft } from './draft.ts';
import { type FollowedLog, followLog } from './follow-log.ts';
import { sayNoReading } from './say-no-reading.ts';
import { needsStart, toReading } from './to-reading.ts';

export interface CanOptions {
  /** unit of the vehicle; null: by the VIN in the log */
  vehicle: string | null;
  /** moment at which the clock of the log stood at 0; null: its clock shows the time */
  startMs: number | null;
  windowS: number;
  /** units of registered vehicles that have this VIN */
  findUnits(vin: string): Promise<string[]>;
}

export const USUAL_WINDOW_S = 10;
/** Six days of windows of 10 s wait for a VIN; no log that shows none until then will. */
const MOST_WAITING = 50_000;

/**
 * A CAN log as readings, one for each window or piece of one. Where no vehicle is given, all of them wait until the log
 * ends, because a VIN may come late and another may follow; from 50,000 on, the one VIN that came until then is taken.
 */
export async function* readCanLog(
  chunks: AsyncIterable<Buffer>,
  options: CanOptions,
): AsyncGenerator<Line[]> {
  const log = followLog(options.windowS);
  let { vehicle } = options;
  let waiting: Draft[] = [];
  let lines = 0;

  const settle = async (isEnd: boolean): Promise<Line[]> => {
    const drafts = log.takeDrafts();
    if (vehicle === null) {
      for (const draft of drafts) waiting.push(draft);
      if (waiting.length === 0 || (!isEnd && waiting.length < MOST_WAITING)) return [];
      vehicle = await nameVehicle(log, options);
    } else if (options.vehicle === null) holdToOneVin(log);
    const ready = waiting.length > 0 ? waiting : drafts;
    waiting = [];
    const missing = options.startMs === null ? ready.find(needsStart) : undefined;
    if (missing !== undefined) throw askForStart(lines > 0);
    lines += ready.length;
    return ready.map((draft) => toLine(draft, vehicle, options.startMs));
  };

  try {
    for await (const chunk of chunks) {
      log.push(chunk);
      const ready = await settle(false);
      if (ready.length > 0) yield ready;
    }
  } catch (error) {
    if (!(error instanceof BodyFault)) throw error;
    log.end(false);
    const last = await settle(true).catch(() => []);
    if (last.length > 0) yield last;
    throw error;
  }
  log.end(true);
  const last = await settle(true);
  if (last.length > 0) yield last;
  if (lines === 0) throw new BodyFault('body_empty', sayNoReading(log));
}

export function toLine(draft: Draft, vehicle: string | null, startMs: number | null): Line {
  const value = toReading(draft, vehicle, startMs);
  return goodLine(draft.line, JSON.stringify(value), value);
}

const vinsOf = (log: FollowedLog): string[] => [...new Set(log.vins().map(({ vin }) => normaliseVin(vin)))];

async function nameVehicle(log: FollowedLog, { findUnits }: CanOptions): Promise<string> {
  const found = await findVehicle(vinsOf(log), findUnits);
  if (found.vehicle !== null) return found.vehicle;
  throw new SlipdriftError(
    'invalid_request',
    `Which vehicle the log is of ${found.lack}. Nothing was stored.`,
    {
      errors: [{ field: 'vehicle', message: found.lack }],
    },
  );
}

export type FoundVehicle = { vehicle: string; isKnown: boolean } | { vehicle: null; lack: string };

/** The vehicle of a log by the VINs in it. A VIN that nobody has is the name of a vehicle that is new. */
export async function findVehicle(
  vins: readonly string[],
  findUnits: CanOptions['findUnits'],
): Promise<FoundVehicle> {
  const [vin, ...others] = vins;
  if (vin === undefined) return { vehicle: null, lack: 'is needed: the log has no VIN' };
  if (others.length > 0)
    return { vehicle: null, lack: `is needed: the log has the VINs ${vins.slice(0, 10).join(', ')}` };
  const units = await findUnits(vin);
  if (units.length > 1)
    return {
      vehicle: null,
      lack: `is needed: the VIN ${vin} is that of ${units.slice(0, 10).join(' and of ')}`,
    };
  const [unit] = units;
  if (unit !== undefined) return { vehicle: unit, isKnown: true };
  return { vehicle: vin.slice(0, 64), isKnown: false };
}

function holdToOneVin(log: FollowedLog): void {
  const vins = vinsOf(log);
  if (vins.length > 1)
    throw new BodyFault(
      'body_broken',
      `The log shows another VIN late: ${vins.join(', ')}. Name the vehicle, or send the parts by themselves.`,
    );
}

export const START_LACK =
  'is needed: the clock of the log does not show the time, it counts from its own start';

function askForStart(isLate: boolean): Error {
  if (isLate) return new BodyFault('body_broken', `The moment of the start ${START_LACK}.`);
  return new SlipdriftError('invalid_request', `start ${START_LACK}. Nothing was stored.`, {
    errors: [{ field: 'start', message: START_LACK }],
  });
}
