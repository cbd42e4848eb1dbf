import { describe, expect, it } from 'vitest';
import { depots } from './depots.ts';
import { summariseDutyCycle } from './duty-cycle.ts';
import { createFault, noFault } from './faults.ts';
import { type LifeSetting, placeCrossing, runLife } from './life-run.ts';
import { kmAt, planDriving } from './plan.ts';
import { platforms } from './platforms.ts';
import type { FaultKind } from './wear.ts';
import { createWeather } from './weather.ts';

const window = { windowDay: 20_000, endDay: 20_400, endMs: 0 };
const [platform] = platforms;
const [depot] = depots;

function settle(kind: FaultKind, spanKm = 25_000, beforeEndKm = 2000): LifeSetting {
  const points = summariseDutyCycle(platform!, depot!, 'test');
  const plan = planDriving(platform!, window, 100_000, 'test');
  const setting: LifeSetting = {
    platform: platform!,
    build: platform!.clutch,
    points,
    weather: createWeather(depot!, window.windowDay - 1000, window.endDay, 'test'),
    plan,
    fault: noFault('test'),
    fittedKm: 0,
    fromDay: plan.firstDay,
    toDay: plan.lastDay,
  };
  if (kind === 'none') return setting;
  setting.fault = createFault(kind, spanKm, platform!, platform!.clutch, points, 'test');
  placeCrossing(setting, kmAt(plan, window.endDay) - beforeEndKm, spanKm);
  return setting;
}

/** Slip risen at the middle of the way from onset to crossing, as a share of the whole rise. */
function riseHalfWay(setting: LifeSetting): number {
  const run = runLife(setting, true);
  const onset = run.onsetKm!;
  const crossing = run.crossingKm!;
  const at = (km: number) =>
    run.series.reduce((best, one) => (Math.abs(one[0] - km) < Math.abs(best[0] - km) ? one : best))[1];
  return (at((onset + crossing) / 2) - at(onset)) / (platform!.limitRpm - at(onset));
}

describe('runLife', () => {
  it('leaves a healthy clutch within a few rpm over the whole window and never at the limit', () => {
    const run = runLife(settle('none'), true);
    expect(run.onsetKm).toBeNull();
    expect(run.crossingKm).toBeNull();
    const slips = run.series.map(([, rpm]) => rpm);
    expect(Math.max(...slips) - Math.min(...slips)).toBeLessThan(3);
  });

  it.each(['linear', 'accelerating', 'seal_leak', 'solenoid'] as const)(
    'puts the crossing of a %s fault where it was asked for',
    (kind) => {
      const setting = settle(kind);
      const wanted = kmAt(setting.plan, window.endDay) - 2000;
      const run = runLife(setting, true);
      expect(Math.abs(run.crossingKm! - wanted)).toBeLessThan(100);
      expect(run.onsetKm!).toBeLessThan(run.crossingKm!);
    },
  );

  it('rises nearly straight with a linear fault and bends up with an accelerating one', () => {
    expect(Math.abs(riseHalfWay(settle('linear')) - 0.5)).toBeLessThan(0.1);
    expect(riseHalfWay(settle('accelerating'))).toBeLessThan(0.36);
  });

  it('rises in jumps where the lining breaks up', () => {
    const { series } = runLife(settle('stepwise'), true);
    const rises = series.slice(1).map(([, rpm], i) => rpm - series[i]![1]);
    expect(rises.filter((rise) => rise > 4).length).toBeGreaterThanOrEqual(4);
    expect(rises.filter((rise) => rise < 0.5).length).toBeGreaterThan(rises.length / 2);
  });

  it('gives no notice before a sudden failure', () => {
    const run = runLife(settle('sudden'), true);
    expect(run.onsetKm).toBe(run.crossingKm);
  });

  it('shifts the level once where a valve sticks, below the limit', () => {
    const run = runLife(settle('valve_sticking', 1, 9000), true);
    expect(run.crossingKm).toBeNull();
    const slips = run.series.filter(([km]) => km > run.onsetKm! + 300).map(([, rpm]) => rpm);
    expect(Math.min(...slips)).toBeGreaterThan(0.25 * platform!.limitRpm);
    expect(Math.max(...slips) - Math.min(...slips)).toBeLessThan(5);
  });
});
