import { findAsOf, listStandsNow } from '#db/queries/digest/stands-now.ts';
import type { Digest, DigestQuery, StandsNow } from '#server/contract/digest.ts';
import { DEFAULT_HORIZON_KM } from '#server/services/assessment/horizon.ts';
import type { StoredBrief } from '#server/services/assessment/stored-assessment.ts';
import { listUncoveredHolds } from '#server/services/bookings/list-uncovered-holds.ts';
import { listOwnDepots } from '#server/services/bookings/own-depots.ts';
import type { Context } from '#server/services/context.ts';
import { sightOf } from '#server/services/sight.ts';
import { missingWords } from '#server/services/words/reason-words.ts';
import { digestSentence } from './digest-sentence.ts';
import { readDigestWeek } from './digest-week.ts';
import { tellBays } from './tell-bays.ts';
import { tellBookings } from './tell-bookings.ts';
import { tellNewHolds, uncoveredWords } from './tell-holds.ts';
import { tellQuiet } from './tell-quiet.ts';
import { tellWorse } from './tell-worse.ts';

/** What the one who asks should know at the beginning of a week, of the vehicles that they see. */
export async function getDigest(
  ctx: Context,
  { depot, week: day, units = 'metric' }: DigestQuery,
): Promise<Digest> {
  const week = readDigestWeek(ctx.now(), day);
  if (depot !== undefined) await listOwnDepots(ctx, depot);
  const part = { sight: sightOf(ctx.actor), depot };
  const [asOf, uncovered, holds, told, quiet, ahead] = await Promise.all([
    findAsOf(ctx.db, part),
    week.current ? listUncoveredHolds(ctx, { depot }) : null,
    tellNewHolds(ctx, part, week, units),
    tellBookings(ctx, part, week),
    tellQuiet(ctx, part, week),
    tellBays(ctx, part, week),
  ]);
  const newHolds = new Set(holds.map(({ key }) => key));
  const worse = await tellWorse(ctx, part, week, newHolds, units);
  const named = [uncovered ?? [], holds, worse.lines].flatMap((lines) => lines.map(({ vehicle }) => vehicle));
  const stands = await readStands(ctx, named);
  const standing = <T extends { vehicle: string }>(line: T) => ({
    ...line,
    now: stands.get(line.vehicle) ?? null,
  });
  const content = {
    as_of: asOf?.toISOString() ?? null,
    uncovered_holds: uncovered?.map((hold) => standing({ ...hold, text: uncoveredWords(hold) })) ?? null,
    newly_on_hold: holds.map(({ key: _, ...line }) => standing(line)),
    got_worse: worse.lines.map(standing),
    got_worse_more: worse.more,
    ...told,
    gone_quiet: quiet,
  };
  return {
    week: week.monday,
    from: week.from.toISOString(),
    to: week.to.toISOString(),
    current: week.current,
    compared_with: worse.comparedWith,
    horizon_km: DEFAULT_HORIZON_KM,
    sentence: digestSentence(content),
    ...content,
    ahead,
  };
}

async function readStands({ db }: Context, units: readonly string[]): Promise<Map<string, StandsNow>> {
  if (units.length === 0) return new Map();
  const rows = await listStandsNow(db, units);
  const km = (value: number | null) => (value === null ? null : Math.round(value));
  return new Map(
    rows.map(({ unit, grade, rank, kmP10, kmP50, kmP90, brief }) => [
      unit,
      {
        grade,
        rank,
        km_to_limit: { p10: km(kmP10), p50: km(kmP50), p90: km(kmP90) },
        missing: (brief as StoredBrief).missing.map(missingWords)[0] ?? null,
      },
    ]),
  );
}
