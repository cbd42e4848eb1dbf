import { findQuietKeys, findQuietVehicles } from '#db/queries/digest/gone-quiet.ts';
import type { SeenPart } from '#db/queries/digest/seen-part.ts';
import type { Digest } from '#server/contract/digest.ts';
import type { Context } from '#server/services/context.ts';
import { DAY_MS, type DigestWeek } from './digest-week.ts';
import { shortDayWords } from './place-words.ts';

const before = (at: Date, days: number): Date => new Date(at.getTime() - days * DAY_MS);

/**
 * Vehicles whose last reading is of the second week back: read once a week, each silence is told once. Keys are told of
 * sooner, for many vehicles hang on one.
 */
export async function tellQuiet(
  { db }: Context,
  part: SeenPart,
  { to, current }: DigestWeek,
): Promise<Digest['gone_quiet']> {
  const [vehicles, keys] = await Promise.all([
    findQuietVehicles(db, part, { from: before(to, 14), to: before(to, 7) }, current ? null : to),
    seesKeys(part) ? findQuietKeys(db, { from: before(to, 17), to: before(to, 3) }, to) : null,
  ]);
  return {
    vehicles: vehicles.rows.map(({ unit, depot, lastReadingAt }) => ({
      vehicle: unit,
      depot,
      text: `Last reading ${shortDayWords(lastReadingAt)}.`,
      last_reading_at: lastReadingAt.toISOString(),
    })),
    vehicles_longer: vehicles.longer,
    gateways:
      keys?.flatMap(({ name, usedAt }) =>
        usedAt === null
          ? []
          : [{ name, text: `Last used ${shortDayWords(usedAt)}.`, last_used_at: usedAt.toISOString() }],
      ) ?? null,
  };
}

/** A key has no depot. */
const seesKeys = ({ sight, depot }: SeenPart): boolean => sight.depots === null && depot === undefined;
