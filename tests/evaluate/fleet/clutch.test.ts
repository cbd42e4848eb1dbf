import { describe, expect, it } from 'vitest';
import { createBreakawayClutch } from './breakaway-clutch.ts';
import type { Clutch, WearMode } from './clutch.ts';
import { createFilmClutch } from './film-clutch.ts';

const reference = { dutyPct: 85, loadPct: 50, fluidC: 85 };
const limitRpm = 150;
const modes: WearMode[] = ['lining', 'seal', 'solenoid'];
const wornRpm = [14, 25, 60, 150, 290];
const clutches: [string, Clutch][] = [
  ['breakaway', createBreakawayClutch(reference, limitRpm)],
  ['film', createFilmClutch(reference, limitRpm)],
];
const cases = clutches.flatMap(([name, clutch]) => modes.map((mode) => ({ name, mode, clutch })));

const rises = (values: number[]) => values.every((value, i) => i === 0 || value > (values[i - 1] ?? 0));
const steps = (from: number, to: number, by: number) =>
  Array.from({ length: Math.floor((to - from) / by) + 1 }, (_, i) => from + i * by);

describe.each(cases)('$name clutch with a worn $mode', ({ mode, clutch }) => {
  const converter = clutch.build(mode, 14, 1);

  it('slips at the reference point as its wear says', () => {
    for (const rpm of [14, 14.5, 20, 75, 150, clutch.largestRpm]) {
      const loss = clutch.lossAt(converter, rpm);
      expect(clutch.slip(converter, loss, 85, 50, 85)).toBeCloseTo(rpm, 6);
    }
  });

  it('loses nothing when healthy and more the more it slips', () => {
    expect(clutch.lossAt(converter, 14)).toBeCloseTo(0, 9);
    expect(rises([14, 15, 20, 40, 80, 150, 300].map((rpm) => clutch.lossAt(converter, rpm)))).toBe(true);
  });

  it.each(wornRpm)('slips more at more load, in hotter fluid and at less duty, at %d rpm', (rpm) => {
    const loss = clutch.lossAt(converter, rpm);
    for (const duty of [45, 70, 85, 100])
      for (const fluid of [58, 85, 118])
        expect(rises(steps(5, 100, 5).map((load) => clutch.slip(converter, loss, duty, load, fluid)))).toBe(
          true,
        );
    for (const load of [20, 50, 90]) {
      for (const duty of [45, 70, 85, 100])
        expect(rises(steps(55, 125, 5).map((fluid) => clutch.slip(converter, loss, duty, load, fluid)))).toBe(
          true,
        );
      for (const fluid of [58, 85, 118])
        expect(
          rises(steps(0, 60, 5).map((less) => clutch.slip(converter, loss, 100 - less, load, fluid))),
        ).toBe(true);
    }
  });

  it('depends on load and temperature far more when worn', () => {
    const worn = clutch.lossAt(converter, 100);
    const byLoad = (loss: number) =>
      clutch.slip(converter, loss, 85, 65, 85) - clutch.slip(converter, loss, 85, 50, 85);
    const byHeat = (loss: number) =>
      clutch.slip(converter, loss, 85, 50, 95) - clutch.slip(converter, loss, 85, 50, 85);
    expect(byLoad(worn)).toBeGreaterThan(4 * byLoad(0));
    expect(byHeat(worn)).toBeGreaterThan(4 * byHeat(0));
  });
});

it('keeps a healthy clutch below the limit however hard it is driven', () => {
  for (const [, clutch] of clutches)
    for (const healthyRpm of [4, 14, 30]) {
      const converter = clutch.build('lining', healthyRpm, 1);
      expect(clutch.slip(converter, 0, 78, 20, 75)).toBeGreaterThan(0.5);
      expect(clutch.slip(converter, 0, 85, 50, 85)).toBeCloseTo(healthyRpm, 6);
      expect(clutch.slip(converter, 0, 95, 90, 100)).toBeLessThan(limitRpm);
    }
});
