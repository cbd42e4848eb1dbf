import { describe, expect, it } from 'vitest';
import type { CalibrationBin } from '#server/contract/replay.ts';
import { judgeBin } from '#web/charts/judge-bin.ts';
import { metricUnits } from '#web/format/units.ts';
import { sayCalibration } from './say-calibration.ts';

const bin = (from: number, to: number, stated: number, bounds: [number, number, number] | null) => ({
  ...{ from, to, n: 101, vehicles: 12, stated },
  low: bounds?.[0] ?? null,
  seen: bounds?.[1] ?? null,
  high: bounds?.[2] ?? null,
});
const say = (bins: CalibrationBin[]) => sayCalibration(bins, 5_000, metricUnits).replaceAll('\u00a0', ' ');

describe('whether chances hold', () => {
  it('is denied only where the bounds exclude what was stated', () => {
    expect(judgeBin(bin(0.8, 1, 0.96, [0.09, 0.4, 0.71]))).toBe('high');
    expect(judgeBin(bin(0.8, 1, 0.96, [0.09, 0.4, 0.97]))).toBe('loose');
    expect(judgeBin(bin(0.1, 0.2, 0.12, [0.2, 0.3, 0.4]))).toBe('low');
    expect(judgeBin(bin(0.1, 0.2, 0.12, [0.05, 0.1, 0.2]))).toBe('kept');
    expect(judgeBin(bin(0.1, 0.2, 0.12, null))).toBe('untold');
  });

  it('is not denied for less than a point of a percent, however narrow the bounds', () => {
    expect(judgeBin(bin(0, 0.02, 0.0018, [0, 0.0006, 0.0017]))).toBe('kept');
  });

  it('is said of neighbours as one range, and of each that is off with its figures', () => {
    expect(
      say([
        bin(0, 0.02, 0.002, [0, 0.001, 0.003]),
        bin(0.02, 0.05, 0.03, [0, 0.02, 0.17]),
        bin(0.05, 0.1, 0.07, [0, 0, 0.3]),
        bin(0.1, 0.2, 0.12, [0.2, 0.3, 0.4]),
        bin(0.4, 0.6, 0.5, null),
        bin(0.8, 1, 0.96, [0.09, 0.4, 0.71]),
      ]),
    ).toBe(
      'Chances of 0 to 5 % can be taken at their word. Nothing speaks against those of 5 to 10 %, but their bounds are wide. ' +
        'Of 101 looks that said 80 to 100 % (mean 96 %), 40 % came (9 to 71 %): stated too high. ' +
        'Of 101 looks that said 10 to 20 % (mean 12 %), 30 % came (20 to 40 %): stated too low. ' +
        'Of 40 to 60 % too few were followed to tell.',
    );
  });

  it('is left open where nothing can be told', () => {
    const words = 'Too few vehicles were followed over 5,000 km to tell whether the chances hold.';
    expect(say([])).toBe(words);
    expect(say([bin(0, 0.02, 0.01, null)])).toBe(words);
  });
});
