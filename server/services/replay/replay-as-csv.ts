import type { ReplayResult } from '#server/contract/replay.ts';
import { SlipdriftError } from '#server/errors.ts';
import type { Context } from '#server/services/context.ts';
import { type Cell, writeCsv } from '#server/services/csv/write-csv.ts';
import { getReplay } from './stored-replay.ts';

/** The failures of a replay, with what announced each. */
export async function cameAsCsv(ctx: Context, id: number): Promise<string> {
  const { came } = await readResult(ctx, id);
  const warned = (by: 'list' | 'slip_level' | 'weekly_rise') => [
    `${by}_day`,
    `${by}_notice_km`,
    `${by}_notice_days`,
  ];
  return writeCsv(
    [
      ...['vehicle', 'platform', 'depot', 'what', 'mode', 'day', 'odometer_km', 'first_seen_km', 'found'],
      'grade',
      ...warned('list'),
      ...warned('slip_level'),
      ...warned('weekly_rise'),
    ],
    came.map((one): Cell[] => [
      one.vehicle,
      one.platform,
      one.depot,
      one.what,
      one.mode,
      one.day,
      Math.round(one.odometer_km),
      Math.round(one.first_seen_km),
      one.list !== null,
      one.list?.grade ?? null,
      ...[one.list, one.slip_level, one.weekly_rise].flatMap((warning): Cell[] =>
        warning === null
          ? [null, null, null]
          : [warning.day, Math.round(warning.notice_km), Math.round(warning.notice_days * 10) / 10],
      ),
    ]),
  );
}

/** What the list of a replay asked for early or in vain. */
export async function needlessAsCsv(ctx: Context, id: number): Promise<string> {
  const { needless } = await readResult(ctx, id);
  return writeCsv(
    ['vehicle', 'platform', 'depot', 'from', 'to', 'grade', 'odometer_km', 'driven_km', 'why'],
    needless.map((one) => [
      one.vehicle,
      one.platform,
      one.depot,
      one.from,
      one.to,
      one.grade,
      Math.round(one.odometer_km),
      Math.round(one.driven_km),
      one.why,
    ]),
  );
}

async function readResult(ctx: Context, id: number): Promise<ReplayResult> {
  const { state, result } = await getReplay(ctx, id);
  if (result !== null) return result;
  throw new SlipdriftError(
    'conflict',
    `Replay ${id} has no result: it is ${state}. A table is there once it is done.`,
  );
}
