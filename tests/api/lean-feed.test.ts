import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type RankingRow, ranking } from '#server/contract/ranking.ts';
import type { ReadingInput } from '#server/contract/readings.ts';
import { vehicleSeries } from '#server/contract/vehicle.ts';
import { seededRandom } from '#tests/helpers/seeded-random.ts';
import { plainEnd, plainFleet, sendPlainFleet } from '#tests/helpers/send-plain-fleet.ts';
import { startApp, type TestApp } from '#tests/helpers/start-app.ts';

/** A reading of the plain fleet as a gateway sends it that knows slip, duty and mileage only. It never has a speed. */
function strip({ vehicle, at, odometer_km, slip_rpm, duty_pct }: ReadingInput): ReadingInput {
  return { vehicle, at, odometer_km, slip_rpm, duty_pct };
}
/** One as it is sent at best: with load, temperature, speed and the like. */
const enrich = (reading: ReadingInput): ReadingInput => ({
  ...reading,
  speed_kmh: 80,
  gear: 5,
  seconds: 10,
  shifting: reading.shifting ?? false,
});
const isOdd = (unit: string) => Number(unit.at(-1)) % 2 === 1;
const drifting = ['P-01', 'P-02', 'P-03', 'Q-01'];
const healthy = plainFleet.map(({ unit }) => unit).filter((unit) => !drifting.includes(unit));

type Fleet = Awaited<ReturnType<typeof sendFleet>>;

async function sendFleet(asSent: (readings: ReadingInput[]) => ReadingInput[][]) {
  const app = await startApp({}, plainEnd);
  await sendPlainFleet(app, asSent);
  const { rows } = ranking.parse(await (await app.get('/api/ranking')).json());
  const rowOf = (unit: string): RankingRow => {
    const row = rows.find((one) => one.vehicle === unit);
    if (row === undefined) throw new Error(`${unit} is not listed`);
    return row;
  };
  return { app, rows, rowOf };
}

const seriesOf = async (app: TestApp, unit: string) =>
  vehicleSeries.parse(await (await app.get(`/api/vehicles/${unit}/series`)).json());

/** P-01 is past its limit of 150 rpm, P-02 at 117 rpm with 45 km for each rpm; the other two have far to go. */
function expectFound({ rows, rowOf }: Fleet): void {
  expect(rows).toHaveLength(16);
  expect(rows.slice(0, 2).map(({ vehicle }) => vehicle)).toEqual(['P-01', 'P-02']);
  expect(rowOf('P-01').grade).toBe('hold');
  expect(['hold', 'book']).toContain(rowOf('P-02').grade);
  for (const unit of ['P-03', 'Q-01']) {
    expect(['book', 'watch'], unit).toContain(rowOf(unit).grade);
    expect(rowOf(unit).drift_rpm_per_1000km?.low, unit).toBeGreaterThan(0);
  }
  for (const unit of healthy) expect(rowOf(unit).grade, unit).toBe('steady');
}

const saysNoLoad = (row: RankingRow) => row.missing.some((words) => /no engine load/.test(words));
const saysNoTemperature = (row: RankingRow) =>
  row.missing.some((words) => /no fluid temperature/.test(words));

describe('a fleet whose gateways send slip, command and mileage only', () => {
  let fleet: Fleet;
  beforeAll(async () => {
    fleet = await sendFleet((readings) => [readings.map(strip)]);
  });
  afterAll(() => fleet?.app.stop());

  it('has its drifting vehicles found and graded, and no healthy one flagged', () => {
    expectFound(fleet);
  });

  it('is told of each vehicle what its feed lacks', () => {
    for (const row of fleet.rows) expect([saysNoLoad(row), saysNoTemperature(row)]).toEqual([true, true]);
  });

  it('shows nothing of what is not known, and the slip that was sent', async () => {
    const series = await seriesOf(fleet.app, 'P-05');
    const nothing = { fluid_c: null, load_pct: null, clutch_heat_mj_per_1000km: null, hot_share: null };
    expect(series.exposure).toMatchObject(nothing);
    for (const { points } of series.series)
      for (const { fluid_c, load_pct } of points) expect([fluid_c, load_pct]).toEqual([null, null]);
    // 13.6 rpm at the load of 50 % times the fleet's own 1.4 - 85 / 215 for the command of 85 % is 13.7 rpm; the loads
    // spread by 20 %, the noise by 3 rpm, over some 70 readings near that command: 0.5 rpm, of which 4.
    expect(Math.abs((fleet.rowOf('P-05').reference_slip_rpm ?? Number.NaN) - 13.7)).toBeLessThan(2);
    const reasons = new Set(series.set_aside.map(({ reason }) => reason));
    for (const reason of ['cold', 'hot', 'low_load', 'low_speed', 'shifting'] as const)
      expect(reasons).not.toContain(reason);
  });
});

describe('a fleet of which half the vehicles send neither load nor temperature', () => {
  let fleet: Fleet;
  beforeAll(async () => {
    fleet = await sendFleet((readings) => [
      readings.map((reading) => (isOdd(reading.vehicle) ? strip(reading) : enrich(reading))),
    ]);
  });
  afterAll(() => fleet?.app.stop());

  it('has the drifting ones of both halves found, and no healthy one flagged', () => {
    expectFound(fleet);
  });

  it('is told what is lacking of those that lack it, and of no other', () => {
    for (const row of fleet.rows) {
      const lacks = isOdd(row.vehicle);
      expect([saysNoLoad(row), saysNoTemperature(row)], row.vehicle).toEqual([lacks, lacks]);
    }
  });
});

describe('a fleet whose gateways drop load and temperature now and then', () => {
  const { uniform } = seededRandom(4);
  const fated = new Map<string, [number, number, number]>();
  /** A third of the temperatures and a quarter of the loads are lost; P-05 and Q-05 gain both after half of the time. */
  const drop = (reading: ReadingInput): ReadingInput => {
    const key = `${reading.vehicle} ${reading.at}`;
    const [a, b, part] = fated.get(key) ?? [uniform(), uniform(), uniform()];
    fated.set(key, [a, b, part]);
    if (/-05$/.test(reading.vehicle) && reading.at < '2026-01-13') return strip(reading);
    const { fluid_c = 85, load_pct = 50, ...rest } = enrich(reading);
    return { ...rest, ...(a < 1 / 3 ? {} : { fluid_c }), ...(b < 1 / 4 ? {} : { load_pct }) };
  };
  const fateOf = (reading: ReadingInput) => fated.get(`${reading.vehicle} ${reading.at}`)?.[2] ?? 0;
  let fleet: Fleet;
  beforeAll(async () => {
    fleet = await sendFleet((readings) => [readings.map(drop)]);
  });
  afterAll(() => fleet?.app.stop());

  it('has the drifting ones found, and no healthy one flagged', () => {
    expectFound(fleet);
  });

  it('keeps both signals in nearly all stretches, and says of nobody that the feed lacks them', async () => {
    for (const row of fleet.rows) expect([saysNoLoad(row), saysNoTemperature(row)]).toEqual([false, false]);
    const [reference] = (await seriesOf(fleet.app, 'P-02')).series;
    const known = reference?.points.filter(({ fluid_c, load_pct }) => fluid_c !== null && load_pct !== null);
    expect(known?.length).toBeGreaterThan(0.8 * (reference?.points.length ?? Number.NaN));
  });

  it('shows no jump of slip where a gateway gains the signals', async () => {
    for (const unit of ['P-05', 'Q-05']) {
      const [reference] = (await seriesOf(fleet.app, unit)).series;
      const has = reference?.points.map(({ fluid_c }) => fluid_c !== null) ?? [];
      const third = Math.floor(has.length / 3);
      expect(has.slice(0, third)).not.toContain(true);
      expect(has.slice(-third).filter(Boolean).length).toBeGreaterThan(0.8 * third);
      expect(fleet.rowOf(unit)).toMatchObject({ pattern: 'none', onset_km: null });
    }
  });

  it('has the same stretches, to the last digit, where the same minutes come late and in pieces', async () => {
    const late = await sendFleet((readings) => {
      const parts: ReadingInput[][] = [[], [], []];
      for (const reading of readings.map(drop).reverse())
        parts[Math.floor(3 * fateOf(reading))]?.push(reading);
      return parts;
    });
    try {
      const [own, other] = await Promise.all([fleet, late].map(({ app }) => readStretches(app)));
      expect(own?.stretches.length).toBeGreaterThan(1_000);
      expect(other).toEqual(own);
      expect(late.rows).toEqual(fleet.rows);
    } finally {
      await late.app.stop();
    }
  });
});

async function readStretches({ client }: TestApp) {
  return {
    stretches: await client`
      select v.unit, to_jsonb(s) - 'vehicle' as row from stretches s join vehicles v on v.key = s.vehicle
      order by v.unit, life, band, stretch`,
    totals: await client`
      select v.unit, to_jsonb(t) - 'vehicle' as row from stretch_totals t join vehicles v on v.key = t.vehicle
      order by v.unit, life, stretch`,
  };
}
