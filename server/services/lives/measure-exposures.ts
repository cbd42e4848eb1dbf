import { type LifeExposures, readLifeExposures } from '#db/queries/read-life-exposures.ts';
import type { Exposure } from '#server/contract/lives.ts';
import type { Context } from '#server/services/context.ts';
import { toEngineSettings } from '#server/services/stretches/engine-settings.ts';
import { heatPerWay } from '#server/services/vehicles/heat-per-way.ts';
import { FIRST_HOT_BIN } from '#server/services/vehicles/hot-fluid.ts';
import type { FleetLife } from './observe-lives.ts';

/**
 * Slip may lie so far on the way from a life's own low level to its limit while exposures still count: some 14 rpm of 150,
 * well beyond the scatter of healthy stretches. Own choice.
 */
export const QUIET_SHARE = 0.1;

/** How each converter was used, in the units of the names; null where nothing tells. */
export type Used = Record<Exposure, number | null>;

const unknown: Used = {
  fluid_c: null,
  hot_pct: null,
  load_pct: null,
  partial_lockup_pct: null,
  heat_mj_per_1000km: null,
};

/** Exposures of lives, in their order. */
export async function measureExposures(ctx: Context, lives: readonly FleetLife[]): Promise<Used[]> {
  const { limitRpm, bandEdgesPct } = toEngineSettings(null);
  const rows = await readLifeExposures(ctx.db, [...new Set(lives.map(({ vehicle }) => vehicle))], {
    firstHotBin: FIRST_HOT_BIN,
    quietShare: QUIET_SHARE,
    limitRpm,
    topBand: bandEdgesPct.length - 2,
  });
  const found = new Map(rows.map((row) => [nameLife(row), toUsed(row)]));
  return lives.map((life) => found.get(nameLife(life)) ?? unknown);
}

const nameLife = ({ vehicle, life }: { vehicle: number; life: number }) => `${vehicle} ${life}`;

const toUsed = (row: LifeExposures): Used => ({
  fluid_c: row.fluidC,
  hot_pct: row.hotPct,
  load_pct: row.loadPct,
  partial_lockup_pct: row.partialLockupPct,
  heat_mj_per_1000km: heatPerWay(row.heatKw ?? 0, row.speedKmh ?? 0),
});
