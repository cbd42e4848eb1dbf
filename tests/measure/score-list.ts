import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pino } from 'pino';
import { removeStorage } from '#db/embedded/remove-storage.ts';
import type { TruthVehicle } from '#demo-fleet/truth.ts';
import { startSlipdrift } from '#server/main.ts';
import { readSettings } from '#server/settings.ts';
import { callsTo } from '#tests/helpers/start-app.ts';
import {
  averagePrecision,
  byTrueSlip,
  isFlagged,
  isHealthy,
  reachesLimitWithin,
} from '#tests/recovery/compare-with-truth.ts';
import { end, type FleetServer, type Recovered, recoverFleetAt } from '#tests/recovery/recover-fleet.ts';

/**
 * `npm run score [-- seed …]`: how good the list is on simulated fleets that nobody tuned the engine on, one JSON line
 * each and one over all. Every fleet goes the whole way: simulated, sent over HTTP, assessed, compared with its truth.
 * About a minute a fleet.
 */
const keptAside = ['kept-1', 'kept-2', 'kept-3', 'kept-4', 'kept-5'];

interface Score {
  seed: string;
  near: number;
  nearFlagged: number;
  healthy: number;
  healthyFlagged: number;
  averagePrecision: number;
  oracle: number;
  /** of each drifting vehicle with under 20,000 km left: is the truth within p10 to p90, and how far off is p50 */
  forecasts: { isWithin: boolean; error: number | null; fault: string }[];
}

function score(seed: string, fleet: Recovered<FleetServer>): Score {
  // A clutch that broke within the last 60 km has sent no reading since: no list could know.
  const judged = fleet.rows.map(fleet.truthOf).filter((one) => !one.sudden);
  const isOn = (one: TruthVehicle) => isFlagged(fleet.rowOf(one.unit));
  const near = judged.filter(reachesLimitWithin(2_000));
  const healthy = judged.filter(isHealthy);
  const drifting = judged.filter(
    (one) => !isHealthy(one) && one.kmToLimit !== null && one.kmToLimit > 0 && one.kmToLimit < 20_000,
  );
  return {
    seed,
    near: near.length,
    nearFlagged: near.filter(isOn).length,
    healthy: healthy.length,
    healthyFlagged: healthy.filter(isOn).length,
    averagePrecision: averagePrecision(judged, reachesLimitWithin(5_000)),
    oracle: averagePrecision(byTrueSlip(judged), reachesLimitWithin(5_000)),
    forecasts: drifting.map((one) => {
      const truth = one.kmToLimit ?? Number.NaN;
      const { p10, p50, p90 } = fleet.rowOf(one.unit).km_to_limit;
      return {
        isWithin: p10 !== null && p10 <= truth && (p90 === null || truth <= p90),
        error: p50 === null ? null : Math.abs(p50 - truth) / truth,
        fault: one.faultKind,
      };
    }),
  };
}

function tell({ forecasts, ...score }: Score): void {
  const errors = forecasts.map((one) => one.error ?? Number.POSITIVE_INFINITY).sort((a, b) => a - b);
  const faults = [...new Set(forecasts.map((one) => one.fault))].sort();
  const within = (some: Score['forecasts']) =>
    `${some.filter((one) => one.isWithin).length} of ${some.length}`;
  const round = (value: number) => Math.round(value * 1_000) / 1_000;
  console.log(
    JSON.stringify({
      ...score,
      averagePrecision: round(score.averagePrecision),
      oracle: round(score.oracle),
      ofOracle: round(score.averagePrecision / score.oracle),
      within80: within(forecasts),
      medianError: round(errors[Math.floor(errors.length / 2)] ?? Number.NaN),
      within80ByFault: Object.fromEntries(
        faults.map((fault) => [fault, within(forecasts.filter((one) => one.fault === fault))]),
      ),
    }),
  );
}

/** A server with a database of its own, whose clock stands at the end of the fleets. */
async function startServer(): Promise<FleetServer> {
  const folder = await mkdtemp(join(tmpdir(), 'slipdrift-score-'));
  const settings = readSettings({ PORT: '0', SLIPDRIFT_DATA: folder });
  const clockShiftMs = end.getTime() - Date.now();
  const running = await startSlipdrift(settings, pino({ level: 'silent' }), { clockShiftMs });
  return {
    url: running.url,
    ...callsTo(running.url),
    async stop() {
      await running.stop();
      removeStorage(folder);
      await rm(folder, { recursive: true, force: true });
    },
  };
}

const asked = process.argv.slice(2);
const scores: Score[] = [];
for (const seed of asked.length > 0 ? asked : keptAside) {
  const fleet = await recoverFleetAt(await startServer(), 'operator', { seed });
  const one = score(seed, fleet);
  await fleet.app.stop();
  tell(one);
  scores.push(one);
}
const sum = (figure: (one: Score) => number) => scores.reduce((total, one) => total + figure(one), 0);
tell({
  seed: 'all',
  near: sum((one) => one.near),
  nearFlagged: sum((one) => one.nearFlagged),
  healthy: sum((one) => one.healthy),
  healthyFlagged: sum((one) => one.healthyFlagged),
  averagePrecision: sum((one) => one.averagePrecision) / scores.length,
  oracle: sum((one) => one.oracle) / scores.length,
  forecasts: scores.flatMap((one) => one.forecasts),
});
