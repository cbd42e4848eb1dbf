import { describe, expect, it } from 'vitest';
import { chanceOnRoad, type StoredChances } from './chance-on-road.ts';

it('runs as its note says', () => {
  expect(chanceOnRoad([[1000, 1]], 0, 5000, 1000)).toBe(0.5);
});

const chances: StoredChances = [
  [250, 0.02],
  [500, 0.1],
  [1_000, 0.3],
  [5_000, 0.8],
];

describe('by what is stored', () => {
  it('is the mean of the chances over the last 1,000 km', () => {
    const steps = 100_000;
    const reach = (km: number) => {
      const i = chances.findIndex(([to]) => km <= to);
      if (i === -1) return 0.8;
      const [fromKm, from] = chances[i - 1] ?? [0, 0];
      const [toKm, to] = chances[i] ?? [0, 0];
      return from + ((to - from) * (km - fromKm)) / (toKm - fromKm);
    };
    for (const km of [40, 300, 999, 1_700, 5_400, 20_000]) {
      const first = Math.max(0, km - 1_000);
      let sum = 0;
      for (let i = 0; i < steps; i += 1) sum += reach(first + ((i + 0.5) / steps) * (km - first));
      expect(chanceOnRoad(chances, 0, 5_000, km), `${km} km`).toBeCloseTo(
        (sum / steps) * ((km - first) / 1_000),
        6,
      );
    }
  });

  it('rises with the way, from 0, and stays where nothing more is stored', () => {
    const ways = [0, 100, 300, 700, 1_500, 4_000, 6_000, 50_000, 100_000];
    const found = ways.map((km) => chanceOnRoad(chances, 0, 5_000, km));
    expect(found).toEqual([...found].sort((a, b) => a - b));
    expect([found[0], found[7], found[8]]).toEqual([0, expect.closeTo(0.8, 9), expect.closeTo(0.8, 9)]);
  });

  it('gives one that is past its limit some days', () => {
    const past: StoredChances = [
      [250, 1],
      [100_000, 1],
    ];
    expect(chanceOnRoad(past, 0, 5_000, 300)).toBeCloseTo(0.175, 9);
    expect(chanceOnRoad(past, 0, 5_000, 1_250)).toBe(1);
  });
});

describe('by a trouble code', () => {
  it('grows evenly to 0.1 at the horizon, and counts where the slip says less', () => {
    expect([0, 2_500, 5_000, 20_000].map((km) => chanceOnRoad([], 1, 5_000, km))).toEqual([
      0, 0.05, 0.1, 0.1,
    ]);
    expect(chanceOnRoad(chances, 3, 5_000, 5_000)).toBe(chanceOnRoad(chances, 0, 5_000, 5_000));
    expect(chanceOnRoad(chances, 1, 5_000, 300)).toBeCloseTo(0.006, 9);
  });
});
