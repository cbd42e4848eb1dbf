import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { TruthVehicle } from '#demo-fleet/truth.ts';
import type { FaultKind } from '#demo-fleet/wear.ts';
import { averagePrecision } from '#tests/helpers/average-precision.ts';
import {
  byChance,
  byTrueSlip,
  isFlagged,
  isHealthy,
  reachesLimitWithin,
  slipToleranceRpm,
} from './compare-with-truth.ts';
import { daysBetween, only } from './read-answer.ts';
import { type Recovered, recoverFleet } from './recover-fleet.ts';

let fleet: Recovered;
beforeAll(async () => {
  fleet = await recoverFleet('operator');
}, 600_000);
afterAll(() => fleet?.app.stop());

/** Retired vehicles are not on the list; a clutch that broke within the last 60 km has sent no reading since. */
const judged = (rows = fleet.rows): TruthVehicle[] => rows.map(fleet.truthOf).filter((one) => !one.sudden);
const names = (vehicles: readonly TruthVehicle[]) => vehicles.map((one) => one.unit);

/**
 * Faults whose slip at the reference point is shown too far off today (docs/measurements.md): slip that
 * jumps reads 10 to 30 rpm high, and of seals that leak when hot a winter shows little.
 */
const shownPoorly: FaultKind[] = ['stepwise', 'valve_sticking', 'seal_leak'];

describe('the whole operator: 240 vehicles over 14 months', () => {
  it('is counted by the intake as it was sent', () => {
    expect(fleet.confirmed).toEqual(fleet.truth.counts);
    expect(fleet.confirmed.lines).toBeGreaterThan(400_000);
  });

  it('has every vehicle within 2,000 km of its limit on hold or booked', () => {
    const near = judged().filter(reachesLimitWithin(2_000));
    const missed = near.filter((one) => !isFlagged(fleet.rowOf(one.unit)));
    process.stdout.write(`within 2,000 km: ${near.length}, missed ${missed.length}\n`);
    expect(near.length).toBeGreaterThan(6);
    expect(names(missed)).toEqual([]);
  });

  it('has at most 1 % of the healthy vehicles on hold or booked', () => {
    const healthy = judged().filter(isHealthy);
    const needless = healthy.filter((one) => isFlagged(fleet.rowOf(one.unit)));
    process.stdout.write(`healthy: ${healthy.length}, flagged ${names(needless).join(' ') || 'none'}\n`);
    expect(healthy.length).toBeGreaterThan(180);
    expect(needless.length / healthy.length).toBeLessThanOrEqual(0.01);
  });

  // The engine's aim is 0.97 of the oracle over many fleets. In this one, of 13 wanted vehicles, a wanted vehicle that
  // changes places with its neighbour in the middle of the list costs about 0.01: the floor leaves room for five.
  it('has the vehicles that reach the limit within 5,000 km about where an oracle of true slip has them', () => {
    const isWanted = reachesLimitWithin(5_000);
    const own = averagePrecision(judged(byChance(fleet.rows)), isWanted);
    const oracle = averagePrecision(byTrueSlip(judged()), isWanted);
    process.stdout.write(`average precision ${own.toFixed(3)}, of the oracle ${oracle.toFixed(3)}\n`);
    expect(own).toBeGreaterThanOrEqual(0.95 * oracle);
  });

  it('shows the slip of now within three standard deviations of the instruments', () => {
    const compared = judged().filter((one) => one.registered && !shownPoorly.includes(one.faultKind));
    const outside = compared.filter((one) => {
      const step = one.platform === fleet.truth.platformStep?.platform ? 3 * Math.hypot(0.8, 0.5) : 0;
      const slip = fleet.rowOf(one.unit).reference_slip_rpm ?? Number.NaN;
      return !(Math.abs(slip - one.referenceSlipNowRpm) <= slipToleranceRpm(one) + step);
    });
    process.stdout.write(
      `slip of now: ${outside.length} of ${compared.length} outside (${names(outside).join(' ')})\n`,
    );
    expect(compared.length).toBeGreaterThan(200);
    // Three standard deviations of a normal leave 0.3 %, of something longer-tailed up to 1 %.
    expect(outside.length / compared.length).toBeLessThanOrEqual(0.01);
  });

  it('knows the software step of one platform, its date and size', async () => {
    const step = fleet.truth.platformStep;
    const [moved] = judged().filter((one) => one.platform === step?.platform && one.registered);
    const event = only((await fleet.series(moved?.unit ?? '')).fleet_events);
    process.stdout.write(`step: found ${event.size_rpm} rpm at ${event.at} for ${step?.at}\n`);
    expect(Math.abs(daysBetween(step?.at ?? '', event.at))).toBeLessThanOrEqual(7);
    expect(Math.abs(event.size_rpm - (step?.rpm ?? Number.NaN))).toBeLessThanOrEqual(4);
  });

  // Before its past begins, the simulation has converters of one supplier last 0.65 times as long as those of the others.
  it('tells the supplier whose converters do not last, where records are complete', async () => {
    const query = 'group_by=supplier&records=fitting&source=rebuilt,new';
    const { groups, logrank } = await (await fleet.app.get(`/api/analysis/lives?${query}`)).json();
    process.stdout.write(`suppliers: p ${logrank.p.toFixed(4)} of ${groups.length}\n`);
    expect(logrank.p).toBeLessThan(0.05);
    const worse = logrank.groups.toSorted(
      (a: { observed: number; expected: number }, b: typeof a) =>
        b.observed / b.expected - a.observed / a.expected,
    );
    expect(worse[0].name).toBe('Orrinlea Drivetrain');
  });

  it('asks about each converter that was changed without a word', async () => {
    const silent = judged().filter((one) =>
      one.lives.some((life) => !life.reported && life.removedKm === null),
    );
    const unasked: string[] = [];
    for (const one of silent.filter(({ lives }) => lives.length > 1)) {
      const { questions } = await fleet.vehicle(one.unit);
      if (!questions.some((question) => question.startsWith('Was a converter replaced')))
        unasked.push(one.unit);
    }
    expect(unasked).toEqual([]);
  });
});
