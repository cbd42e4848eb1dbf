import type { LineCounts } from '#demo-fleet/arrivals.ts';
import type { Scenario } from '#demo-fleet/scenario.ts';
import { getScenario, type ScenarioName } from '#demo-fleet/scenarios.ts';
import { sendFleet } from '#demo-fleet/send.ts';
import type { Truth, TruthVehicle } from '#demo-fleet/truth.ts';
import { assessReply, type RankingRow, ranking } from '#server/contract/ranking.ts';
import {
  type VehicleDetail,
  type VehicleHistory,
  type VehicleSeries,
  vehicleDetail,
  vehicleHistory,
  vehicleSeries,
} from '#server/contract/vehicle.ts';
import { startApp, type TestApp } from '#tests/helpers/start-app.ts';
import { TEST_KEY } from '#tests/helpers/test-key.ts';

/** The last moment of every simulated fleet here, and what the server takes for now. */
export const end = new Date('2026-03-04T12:00:00Z');
export const seed = 'varrowdale-1';

/** A running server, as far as recovering a fleet needs it. */
export type FleetServer = Pick<TestApp, 'url' | 'get' | 'post' | 'stop'>;

export interface Recovered<App extends FleetServer = TestApp> {
  app: App;
  truth: Truth;
  confirmed: LineCounts;
  rows: RankingRow[];
  /** the truth of a row */
  truthOf(row: { vehicle: string }): TruthVehicle;
  rowOf(unit: string): RankingRow;
  vehicle(unit: string): Promise<VehicleDetail>;
  series(unit: string): Promise<VehicleSeries>;
  history(unit: string): Promise<VehicleHistory>;
}

/** Simulates a fleet, sends it over HTTP like any gateway, has it assessed, and answers truth and list. */
export async function recoverFleet(name: ScenarioName, changes: Partial<Scenario> = {}): Promise<Recovered> {
  return recoverFleetAt(await startApp({}, end), name, changes);
}

/** The same at a server that runs. */
export async function recoverFleetAt<App extends FleetServer>(
  app: App,
  name: ScenarioName,
  changes: Partial<Scenario> = {},
): Promise<Recovered<App>> {
  const scenario = { ...getScenario(name, { end, seed }), ...changes };
  const sent = await sendFleet({ baseUrl: app.url, apiKey: TEST_KEY, scenario, truthPath: null });
  const read = async (path: string): Promise<unknown> => {
    const response = await app.get(path);
    if (response.status !== 200) throw new Error(`${path}: ${response.status} ${await response.text()}`);
    return response.json();
  };
  const assessed = await app.post('/api/assess', {});
  if (assessed.status !== 200) throw new Error(`POST /api/assess: ${await assessed.text()}`);
  const reply = assessReply.parse(await assessed.json());
  const { rows } = ranking.parse(await read('/api/ranking?limit=1000'));
  process.stdout.write(
    `${name}: ${sent.confirmed.lines} lines sent in ${sent.seconds.toFixed(1)} s, ${reply.assessed} vehicles assessed in ${reply.seconds.toFixed(1)} s\n`,
  );
  const truths = new Map(sent.truth.vehicles.map((one) => [one.unit, one]));
  const listed = new Map(rows.map((row) => [row.vehicle, row]));
  const path = (unit: string) => `/api/vehicles/${encodeURIComponent(unit)}`;
  return {
    app,
    truth: sent.truth,
    confirmed: sent.confirmed,
    rows,
    truthOf: ({ vehicle }) => found(truths.get(vehicle), vehicle),
    rowOf: (unit) => found(listed.get(unit), unit),
    vehicle: async (unit) => vehicleDetail.parse(await read(path(unit))),
    series: async (unit) => vehicleSeries.parse(await read(`${path(unit)}/series`)),
    history: async (unit) => vehicleHistory.parse(await read(`${path(unit)}/history`)),
  };
}

function found<T>(value: T | undefined, unit: string): T {
  if (value === undefined) throw new Error(`nothing is known of vehicle ${unit}`);
  return value;
}
