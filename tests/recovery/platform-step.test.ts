import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { isFlagged, isHealthy, reachesLimitWithin, slipToleranceRpm } from './compare-with-truth.ts';
import { daysBetween, only } from './read-answer.ts';
import { type Recovered, recoverFleet } from './recover-fleet.ts';

let fleet: Recovered;
beforeAll(async () => {
  fleet = await recoverFleet('platform-step');
});
afterAll(() => fleet?.app.stop());

const ofPlatform = (platform: string) => fleet.truth.vehicles.filter((one) => one.platform === platform);
const eventsOf = async (unit: string) => (await fleet.series(unit)).fleet_events;

describe('a software update that moves a whole platform by 25 rpm', () => {
  // Each vehicle moves by 25 rpm, give or take 0.8; its own level before and after is known to about 1 rpm from a
  // dozen stretches. Over nine vehicles that makes a standard error of 0.5 rpm. 4 rpm is what a planner needs, and
  // leaves room for drift and season in the weeks compared.
  it('is found once, dated within a week and sized within 4 rpm', async () => {
    const step = fleet.truth.platformStep;
    const [first] = ofPlatform('korvandel');
    const event = only(await eventsOf(first?.unit ?? ''));
    process.stdout.write(
      `step of ${step?.rpm} rpm on ${step?.at}: found ${event.size_rpm} rpm at ${event.at}\n`,
    );
    expect(Math.abs(daysBetween(step?.at ?? '', event.at))).toBeLessThanOrEqual(7);
    expect(Math.abs(event.size_rpm - (step?.rpm ?? Number.NaN))).toBeLessThanOrEqual(4);
  });

  it('is found on no other platform', async () => {
    for (const platform of ['morvelt', 'ulvarrock'])
      expect(await eventsOf(ofPlatform(platform)[0]?.unit ?? '')).toEqual([]);
  });

  it('puts no vehicle of the platform on the list that is healthy', () => {
    const healthy = ofPlatform('korvandel').filter(isHealthy);
    expect(healthy.length).toBeGreaterThan(8);
    const graded = healthy.map((one) => `${one.unit} ${fleet.rowOf(one.unit).grade}`);
    expect(graded).toEqual(healthy.map((one) => `${one.unit} steady`));
  });

  it('hides no vehicle of the platform that slips', () => {
    const slipping = fleet.truth.vehicles.filter(reachesLimitWithin(6_000));
    expect(slipping.map((one) => one.platform).sort()).toEqual(['korvandel', 'morvelt']);
    expect(slipping.every((one) => isFlagged(fleet.rowOf(one.unit)))).toBe(true);
    const first = fleet.rows.slice(0, 2).map((row) => row.vehicle);
    expect(first.sort()).toEqual(slipping.map((one) => one.unit).sort());
  });

  it('is taken out of the slip shown, to within three standard deviations of the instruments and the step', () => {
    // What each vehicle moved by differs by 0.8 rpm, and what all moved by is known to 0.5 rpm.
    const slack = 3 * Math.hypot(0.8, 0.5);
    const outside = fleet.truth.vehicles.flatMap((truth) => {
      const slip = fleet.rowOf(truth.unit).reference_slip_rpm ?? Number.NaN;
      return Math.abs(slip - truth.referenceSlipNowRpm) <= slipToleranceRpm(truth) + slack
        ? []
        : [`${truth.unit}: ${slip} for ${truth.referenceSlipNowRpm}`];
    });
    expect(outside).toEqual([]);
  });

  it('is told in the history of each vehicle that it moved', async () => {
    for (const { unit } of ofPlatform('korvandel').slice(0, 3)) {
      const { events } = await fleet.history(unit);
      const told = only(events.filter((event) => event.kind === 'fleet_event'));
      expect(told.text).toMatch(/^All \d+ vehicles of the platform moved by \+2\d rpm together$/);
    }
  });
});
