import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { isFlagged, slipToleranceRpm, trueSlipAt } from './compare-with-truth.ts';
import { kmOf, only } from './read-answer.ts';
import { type Recovered, recoverFleet } from './recover-fleet.ts';

let fleet: Recovered;
beforeAll(async () => {
  fleet = await recoverFleet('replaced');
});
afterAll(() => fleet?.app.stop());

const changed = (reported: boolean) =>
  fleet.truth.vehicles.filter((one) => one.lives.length === 2 && one.lives[1]?.reported === reported);

describe('converters that were replaced', () => {
  it('leave their vehicles off the list, reported or not: the one fitted now is healthy', () => {
    const all = [...changed(true), ...changed(false)];
    expect(all.length).toBe(8);
    expect(all.filter((one) => isFlagged(fleet.rowOf(one.unit))).map((one) => one.unit)).toEqual([]);
    const outside = all.flatMap((truth) => {
      const slip = fleet.rowOf(truth.unit).reference_slip_rpm ?? Number.NaN;
      return Math.abs(slip - truth.referenceSlipNowRpm) <= slipToleranceRpm(truth)
        ? []
        : [`${truth.unit}: ${slip} for ${truth.referenceSlipNowRpm}`];
    });
    expect(outside).toEqual([]);
  });

  it('start a new life where the change was reported: no stretch and no fit crosses its border', async () => {
    for (const truth of changed(true)) {
      const [before, after] = truth.lives;
      const border = after?.fittedKm ?? Number.NaN;
      const { lives, series } = await fleet.series(truth.unit);
      expect(lives.slice(-2)).toMatchObject([
        { removed_km: before?.removedKm, ended: before?.ended },
        { fitted_km: border },
      ]);
      const last = lives.at(-1)?.life ?? Number.NaN;
      for (const { points, fits } of series) {
        for (const point of points) expect(point.life).toBe(point.odometer_km < border ? last - 1 : last);
        for (const fit of fits) {
          expect(fit.life).toBe(last);
          expect(fit.from_km).toBeGreaterThanOrEqual(border);
        }
      }
      expect(fleet.rowOf(truth.unit).onset_km).toBe(null);
    }
  });

  it('keep the rise of the old life to be seen', async () => {
    for (const truth of changed(true)) {
      const border = truth.lives[1]?.fittedKm ?? Number.NaN;
      const { series, lives } = await fleet.series(truth.unit);
      const old = (series[0]?.points ?? []).filter((point) => point.life === lives.length - 1);
      const highest = Math.max(...old.slice(-4).map((point) => point.slip_rpm));
      // A third of what it had risen to shows even if three of the last four stretches were poor ones.
      expect(highest).toBeGreaterThan(trueSlipAt(truth, border - 1_500) / 3);
    }
  });

  it('are asked about where the change was not reported, at the mileage of the change', async () => {
    for (const truth of changed(false)) {
      const { questions } = await fleet.vehicle(truth.unit);
      // Seen with the first stretch of 500 km after the change, which may be a thin one; worded to 100 km.
      expect(only(questions)).toMatch(/^Was a converter replaced at about/);
      expect(Math.abs(kmOf(only(questions)) - (truth.lives[1]?.fittedKm ?? Number.NaN))).toBeLessThan(1_600);
    }
  });

  it('are not asked about where the change was reported, nor where there was none', async () => {
    const rest = fleet.truth.vehicles.filter((one) => one.lives.every((life) => life.reported));
    for (const { unit } of rest) {
      const { questions } = await fleet.vehicle(unit);
      expect(questions.filter((question) => question.includes('replaced'))).toEqual([]);
    }
  });

  it('are no longer asked about once the planner registers the life', async () => {
    const [truth] = changed(false);
    const border = truth?.lives[1]?.fittedKm ?? Number.NaN;
    const unit = truth?.unit ?? '';
    const lives = [{ vehicle: unit, fitted_km: border, source: 'rebuilt' }];
    expect((await fleet.app.post('/api/lives', lives)).status).toBe(200);
    await fleet.app.post('/api/assess', {});
    const { questions } = await fleet.vehicle(unit);
    expect(questions).toEqual([]);
    const { series } = await fleet.series(unit);
    const points = series[0]?.points ?? [];
    expect(new Set(points.map((point) => point.life)).size).toBe(2);
  });
});
