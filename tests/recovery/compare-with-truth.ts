import type { TruthVehicle } from '#demo-fleet/truth.ts';
import type { RankingRow } from '#server/contract/ranking.ts';

/** Noise-free reference slip at a mileage, straight between the points of the truth; NaN outside them. */
export function trueSlipAt({ series }: TruthVehicle, km: number): number {
  const after = series.findIndex(([at]) => at >= km);
  const high = series[after];
  const low = series[after - 1];
  if (high === undefined || low === undefined) return Number.NaN;
  return low[1] + ((high[1] - low[1]) * (km - low[0])) / (high[0] - low[0]);
}

export const reachesLimitWithin =
  (km: number) =>
  (one: TruthVehicle): boolean =>
    one.kmToLimit !== null && one.kmToLimit <= km;

/** What an inspector with noise-free instruments would take first. */
export const byTrueSlip = (truths: readonly TruthVehicle[]): TruthVehicle[] =>
  [...truths].sort((a, b) => b.referenceSlipNowRpm / b.limitRpm - a.referenceSlipNowRpm / a.limitRpm);

/** The list as it would stand if failures cost the same on every platform, which an oracle of slip knows nothing of. */
export const byChance = (rows: readonly RankingRow[]): RankingRow[] =>
  rows.toSorted((a, b) => (b.chance_within_horizon ?? 0) - (a.chance_within_horizon ?? 0));

/** The fault had not begun to show in slip at the end. */
export const isHealthy = (one: TruthVehicle): boolean =>
  one.onsetKm === null || one.onsetKm > one.kmNow || one.faultKind === 'none';

export const isFlagged = ({ grade }: Pick<RankingRow, 'grade'>): boolean =>
  grade === 'hold' || grade === 'book';

/**
 * How far the list's slip may stand from the noise-free one, rpm: three standard deviations of what the simulated
 * instruments do (demo-fleet/gateway.ts) to a level that rests on the last three stretches, about six days of driving.
 * Sensor bias 1 rpm of each vehicle; per day 1.2 rpm and 4 % of slip; per reading 1.8 rpm and 3 % of slip, some 25
 * readings of weight. A rising slip moves on meanwhile: half of what it gains over those stretches is added. A feed
 * without load gives the slip at the vehicle's usual load, which may be ten points off the reference of 50 %: slip goes
 * about with torque, so that is a fifth of it.
 */
export function slipToleranceRpm(truth: TruthVehicle): number {
  const slip = truth.referenceSlipNowRpm;
  const days = 6;
  const readings = 25;
  const variance = 1 ** 2 + (1.2 ** 2 + (0.04 * slip) ** 2) / days + (1.8 + 0.03 * slip) ** 2 / readings;
  const gain = Math.max(0, slip - trueSlipAt(truth, truth.kmNow - 1_500));
  const unknownLoad = truth.gateway === 'plain' ? 0.2 * slip : 0;
  return 3 * Math.sqrt(variance) + gain / 2 + unknownLoad;
}
