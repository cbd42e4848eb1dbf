import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compareForRank } from '#server/engine/ranking/compare-for-rank.ts';
import { lastWords, type RankSide, rankWords } from './rank-words.ts';

const within = { horizonKm: 5_000, units: 'metric' as const };

function makeSide(unit: string, changes: Partial<RankSide> = {}): RankSide {
  const side: RankSide = {
    key: unit.charCodeAt(0),
    unit,
    rank: unit.charCodeAt(0),
    grade: 'book',
    chance: 0.5,
    slipChance: 0.5,
    atStake: 5_800,
    inspection: 180,
    costAvoided: Number.NaN,
    excessRpm: 20,
    kmP50: null,
    platform: 'Morvelt bus',
    isCalm: false,
    ...changes,
  };
  return { ...side, costAvoided: side.chance * side.atStake - side.inspection };
}
const atChance = (chance: number) => ({ chance, slipChance: chance });

describe('the order of two vehicles', () => {
  it('is told from their chances where these alone differ, with the distances behind them', () => {
    const above = makeSide('A', { ...atChance(0.62), kmP50: 1_903 });
    const below = makeSide('B', { ...atChance(0.2), kmP50: 8_210 });
    expect(rankWords(above, below, within)).toEqual([
      'Inspecting A is expected to avoid 3,400 within 5,000 km, inspecting B 980.',
      'The chance of a failure within 5,000 km is 62 % for A and 20 % for B.',
      'A should reach its limit in about 1,900 km, B in about 8,200 km.',
      'Both are of the platform Morvelt bus: costs are the same.',
    ]);
  });

  it('names a vehicle that a shop has just looked at', () => {
    const above = makeSide('A', atChance(0.2));
    const below = { ...makeSide('B', { ...atChance(0.9), isCalm: true }), costAvoided: -180 };
    expect(rankWords(above, below, within)).toEqual([
      'Inspecting A is expected to avoid 980 within 5,000 km; inspecting B costs 180 more than it is expected to avoid.',
      'A shop has looked at B, and nothing new speaks since: inspecting it again so soon is expected to avoid nothing.',
    ]);
  });

  it('speaks of no distance that says the opposite', () => {
    const said = rankWords(
      makeSide('A', { ...atChance(0.6), kmP50: 9_000 }),
      makeSide('B', { ...atChance(0.5), kmP50: 5_000 }),
      within,
    );
    expect(said.join(' ')).not.toContain('reach its limit');
  });

  it('says of a vehicle past its limit that it is, and of one that does not drift that it has none in sight', () => {
    const above = makeSide('A', { ...atChance(1), kmP50: 0 });
    expect(rankWords(above, makeSide('B', atChance(0.004)), within)).toContain(
      'A is past its limit; B has no limit in sight.',
    );
    expect(rankWords(above, makeSide('B', { ...atChance(0.4), kmP50: 960 }), within)).toContain(
      'A is past its limit; B should reach its own in about 960 km.',
    );
  });

  it('is told from what is at stake', () => {
    const below = makeSide('B', { atStake: 5_000, platform: 'Ulvarrock van' });
    expect(rankWords(makeSide('A'), below, within)).toEqual([
      'Inspecting A is expected to avoid 2,700 within 5,000 km, inspecting B 2,300.',
      'What a failure on the road costs over a planned repair: 5,800 for A, 5,000 for B.',
      'All else is the same.',
    ]);
  });

  it('is told from what an inspection costs', () => {
    expect(rankWords(makeSide('A'), makeSide('B', { inspection: 240.5 }), within)).toEqual([
      'Inspecting A is expected to avoid 2,720 within 5,000 km, inspecting B 2,660.',
      'What an inspection costs with its lost day: 180 for A, 240.5 for B.',
      'All else is the same.',
    ]);
  });

  it('names what speaks for the lower one too, and how much each is worth', () => {
    const above = makeSide('A', { ...atChance(0.4), atStake: 20_000, platform: 'Korvandel truck' });
    const below = makeSide('B', { ...atChance(0.6), platform: null });
    expect(rankWords(above, below, within)).toEqual([
      'Inspecting A is expected to avoid 7,800 within 5,000 km, inspecting B 3,300.',
      'What a failure on the road costs over a planned repair: 20,000 for A, 5,800 for B, which has no platform, worth 7,100.',
      'The chance of a failure within 5,000 km is 40 % for A and 60 % for B, which speaks for B by 2,600.',
    ]);
  });

  it('names a trouble code that counts for more than slip says', () => {
    const said = rankWords(
      makeSide('A', { chance: 0.3, slipChance: 0.02 }),
      makeSide('B', atChance(0.1)),
      within,
    );
    expect(said).toContain(
      'A trouble code that names the clutch counts as 30 % for A, where slip alone says 2 %.',
    );
  });

  it('tells a code from slip that says nearly as much', () => {
    const codeOf = (slipChance: number) =>
      rankWords(makeSide('A', atChance(0.4)), makeSide('B', { chance: 0.3, slipChance }), within).filter(
        (one) => one.startsWith('A trouble code'),
      );
    expect(codeOf(0.298)).toEqual([
      'A trouble code that names the clutch counts as 30.0 % for B, where slip alone says 29.8 %.',
    ]);
    expect(codeOf(0.299_999)).toEqual([]);
    expect(codeOf(0.3)).toEqual([]);
  });

  it('of equals goes by slip above healthy', () => {
    expect(rankWords(makeSide('A', { excessRpm: 12.4 }), makeSide('B', { excessRpm: 3.1 }), within)).toEqual([
      'Inspecting A is expected to avoid 2,700 within 5,000 km, and B exactly as much.',
      'Of equals the one whose slip lies further above its healthy level stands above: 12 rpm against 3 rpm.',
    ]);
  });

  it('of equals in everything goes by who was known first', () => {
    expect(rankWords(makeSide('A'), makeSide('B'), within)[1]).toBe(
      'Slip does not tell them apart either: A stands above because it was known first.',
    );
  });

  it('says that it says little where next to nothing differs', () => {
    const said = rankWords(makeSide('A', atChance(0.999999)), makeSide('B', atChance(0.99999)), within);
    expect(said.slice(0, 2)).toEqual([
      'Inspecting A is expected to avoid 5,600 within 5,000 km, and B nearly the same: the order between them says little.',
      'The chance of a failure within 5,000 km is nearly the same, over 99 %.',
    ]);
  });

  it('speaks of what inspecting costs where it avoids less than that', () => {
    const [none, some] = [atChance(0.001), atChance(0.01)];
    expect(rankWords(makeSide('A', some), makeSide('B', none), within)[0]).toBe(
      'Inspecting A costs 120 more than it is expected to avoid within 5,000 km, inspecting B 170 more.',
    );
    expect(rankWords(makeSide('A', atChance(0.1)), makeSide('B', none), within)[0]).toBe(
      'Inspecting A is expected to avoid 400 within 5,000 km; inspecting B costs 170 more than it is expected to avoid.',
    );
  });

  it('says why a vehicle on hold can stand below', () => {
    const said = rankWords(makeSide('A', { atStake: 9_000 }), makeSide('B', { grade: 'hold' }), within);
    expect(said.at(-1)).toMatch(/^B is graded hold and stands below all the same/);
  });

  it('is not explained by figures that have changed since', () => {
    expect(rankWords(makeSide('A', atChance(0.1)), makeSide('B', atChance(0.2)), within)).toEqual([
      expect.stringMatching(/^Costs or readings have changed since/),
    ]);
  });

  it('is told in miles for who reads miles', () => {
    const said = rankWords(makeSide('A', atChance(0.6)), makeSide('B'), {
      horizonKm: 8_046.72,
      units: 'imperial',
    });
    expect(said[0]).toContain('within 5,000 mi');
  });

  it('never speaks for the lower one on balance, whatever the terms', () => {
    const side = (unit: string) =>
      fc
        .record({
          chance: fc.double({ min: 0, max: 1, noNaN: true }),
          atStake: fc.integer({ min: 0, max: 20_000 }),
          inspection: fc.integer({ min: 0, max: 900 }),
          excessRpm: fc.double({ min: -5, max: 150, noNaN: true }),
        })
        .map((terms) => makeSide(unit, { ...terms, slipChance: terms.chance }));
    fc.assert(
      fc.property(side('A'), side('B'), (a, b) => {
        const [above, below] = [a, b].toSorted((x, y) =>
          compareForRank({ ...x, vehicle: x.key }, { ...y, vehicle: y.key }),
        );
        if (above === undefined || below === undefined) throw new Error('two were made');
        const said = rankWords(above, below, within);
        const [outcome = ''] = said;
        expect(outcome.toLowerCase()).toContain(`inspecting ${above.unit}`.toLowerCase());
        expect(said.join(' ')).not.toContain('have changed since');
        expect(said.join(' ')).not.toMatch(/NaN|undefined|Infinity/);
        // What is named first speaks for the upper one.
        expect(said[1]).not.toContain('speaks for');
      }),
      { seed: 511, numRuns: 2_000 },
    );
  });
});

it('says of the last one that it is', () => {
  expect(lastWords(makeSide('Z', atChance(0)), within)).toEqual([
    'Z is the last of the list: inspecting Z costs 180 more than it is expected to avoid within 5,000 km.',
  ]);
});
