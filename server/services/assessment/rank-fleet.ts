import type { Database } from '#db/client.ts';
import { storeCalms } from '#db/queries/calms.ts';
import { forgetRanked } from '#db/queries/claim-vehicles.ts';
import { lockAssessments } from '#db/queries/lock-assessments.ts';
import { storeStandings } from '#db/queries/standings.ts';
import { storeGradeChanges } from '#db/queries/store-grade-changes.ts';
import { storeRanks } from '#db/queries/store-ranks.ts';
import { rankVehicles } from '#server/engine/ranking/rank-vehicles.ts';
import type { Context } from '#server/services/context.ts';
import { toGradeLimits } from '#server/services/settings/read-thresholds.ts';
import { toEngineSettings } from '#server/services/stretches/engine-settings.ts';
import { announceChanges } from '#server/services/webhooks/announce-changes.ts';
import { findCalms } from './find-calms.ts';
import { noteRankedBy, readRankSettings } from './rank-settings.ts';
import { readRankInputs } from './read-rank-inputs.ts';

/**
 * Ranks and grades the whole fleet from the stored facts, and notes every change of grade; where `isDue` says so. It is asked
 * again when it is this one's turn, for another may just have done it.
 */
export async function rankFleet(
  ctx: Context,
  isDue: (db: Database) => Promise<boolean> = async () => true,
): Promise<void> {
  if (!(await isDue(ctx.db))) return;
  await ctx.db.transaction(async (transaction) => {
    await lockAssessments(transaction);
    if (!(await isDue(transaction))) return;
    const settings = await readRankSettings(transaction);
    await noteRankedBy(transaction, settings, ctx.now());
    await storeCalms(transaction, await findCalms(transaction));
    const stored = await readRankInputs(transaction);
    const ranked = rankVehicles(
      stored.map(({ vehicle, facts, platform, calmPacket }) => ({
        vehicle,
        assessment: facts,
        costs: toEngineSettings(platform),
        isCalm: calmPacket !== null,
      })),
      toGradeLimits(settings.thresholds),
    );
    const before = new Map(stored.map((row) => [row.vehicle, row]));
    const changed = ranked.filter((row) => {
      const old = before.get(row.vehicle);
      return (
        old === undefined ||
        old.rank !== row.rank ||
        old.grade !== row.grade ||
        old.q !== row.q ||
        old.chance !== row.chance ||
        old.costAvoided !== row.costAvoided
      );
    });
    await storeRanks(transaction, changed);
    await storeStandings(transaction, ctx.now());
    const regraded = ranked.filter((row) => {
      const old = before.get(row.vehicle);
      return old === undefined || !old.ranked || old.grade !== row.grade;
    });
    const changes = regraded.map(({ vehicle, grade }) => {
      const old = before.get(vehicle);
      return {
        vehicle,
        from: old?.ranked === true ? old.grade : null,
        to: grade,
        odometerKm: old?.odometerKm ?? null,
      };
    });
    await storeGradeChanges(transaction, ctx.now(), changes);
    await announceChanges(transaction, ctx.now(), changes);
    await forgetRanked(transaction);
  });
}
