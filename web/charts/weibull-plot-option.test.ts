import { describe, expect, it } from 'vitest';
import { makeLives, makeLivesReply } from '#tests/browser/fixtures/lives-fixture.ts';
import { frameOf } from '#tests/helpers/chart-frame.ts';
import { errorsOf, fittedUse, type LifeFitKind, paperPoints } from './life-paper.ts';
import { listPaperNumbers } from './list-paper-numbers.ts';
import { logTicks, paperRange, shareTicks } from './paper-range.ts';
import type { Shape } from './shapes.ts';
import { mileageAxis } from './use-axis.ts';
import { weibullPlotOption } from './weibull-plot-option.ts';

interface Drawn {
  yAxis: { axisLabel: { customValues: number[]; formatter: (y: number) => string } }[];
  xAxis: {
    min: number;
    max: number;
    axisLabel: { customValues: number[]; formatter: (x: number) => string };
  }[];
  series: { id: string; data: [number, number][] }[];
  graphic: { elements: Shape[] };
}
const reply = makeLivesReply(makeLives(), 'supplier');
const { groups } = reply;
const frame = frameOf(700, 340);
const kinds: LifeFitKind[] = ['weibull', 'lognormal'];
const draw = (kind: LifeFitKind, of = groups) =>
  weibullPlotOption(of, mileageAxis(frame.units), { kind, confidence: 0.95 }, frame) as unknown as Drawn;

it('counts standard errors of 95 % as 1.95996 (Abramowitz and Stegun, table 26.1)', () => {
  expect(errorsOf(0.95)).toBeCloseTo(1.959964, 6);
});

describe.each(kinds)('the %s paper', (kind) => {
  it('has the estimates and bounds of the answer where a tenth and a half have failed', () => {
    for (const group of groups)
      for (const [share, name] of [
        [0.1, 'b10'],
        [0.5, 'b50'],
      ] as const) {
        const told = group[kind]![name];
        const { x, low, high } = fittedUse(kind, group, share, errorsOf(0.95))!;
        expect(x / told.estimate).toBeCloseTo(1, 6);
        expect(low / told.low).toBeCloseTo(1, 6);
        expect(high / told.high).toBeCloseTo(1, 6);
      }
  });

  it('makes a straight line of the fit', () => {
    const line = draw(kind).series.find(({ id }) => id === 'seen-0')!.data;
    const slope = (i: number) => (line[i + 1]![1] - line[i]![1]) / (line[i + 1]![0] - line[i]![0]);
    expect(line.length).toBeGreaterThan(10);
    for (let i = 1; i + 1 < line.length; i++) expect(slope(i)).toBeCloseTo(slope(0), 6);
  });

  it('draws the fit beyond the last converter seen apart, and all marks within the paper', () => {
    const drawn = draw(kind);
    const { min, max } = drawn.xAxis[0]!;
    expect(drawn.series.map(({ id }) => id).slice(0, 3)).toEqual(['points-0', 'seen-0', 'beyond-0']);
    for (const { data } of drawn.series.filter(({ id }) => id.startsWith('points')))
      for (const [x] of data) expect(x > min && x < max).toBe(true);
  });

  it('has the bounds of several groups as thin edges, and fills those of one', () => {
    const bounds = draw(kind).graphic.elements.filter(({ id }) => id.startsWith('band'));
    expect(bounds.map(({ id }) => id)).toEqual([0, 1, 2].flatMap((i) => [`band-${i}-low`, `band-${i}-high`]));
    const alone = draw(kind, groups.slice(0, 1)).graphic.elements.filter(({ id }) => id.startsWith('band'));
    expect(alone.map(({ id }) => id)).toEqual(['band-0']);
  });

  it('says shares in percent and mileages in thousands', () => {
    const drawn = draw(kind);
    const shares = drawn.yAxis[0]!.axisLabel;
    expect(shares.customValues.map(shares.formatter)).toEqual(expect.arrayContaining(['10 %', '50 %']));
    const mileages = drawn.xAxis[0]!.axisLabel;
    expect(mileages.customValues.map(mileages.formatter)).toEqual(expect.arrayContaining(['50', '100']));
  });
});

it('sets marks in the middle of each step of survival', () => {
  const [group] = groups;
  const points = [
    { x: 10, events: 1, survival: 0.8 },
    { x: 20, events: 1, survival: 0 },
  ].map((one) => ({ ...one, at_risk: 5, censored: 0, se: null, low: null, high: null }));
  expect(paperPoints({ ...group!, kaplan_meier: points })).toEqual([
    { x: 10, failed: 1 - 0.9 },
    { x: 20, failed: 0.6 },
  ]);
});

it('has marks without a line where nothing could be fitted', () => {
  const bare = groups.map((group) => ({ ...group, weibull: null }));
  const drawn = weibullPlotOption(
    bare,
    mileageAxis(frame.units),
    { kind: 'weibull', confidence: 0.95 },
    frame,
  );
  const series = (drawn as unknown as Drawn).series;
  expect(series.find(({ id }) => id === 'seen-0')?.data).toEqual([]);
  expect(
    listPaperNumbers(bare, mileageAxis(frame.units), { kind: 'weibull', confidence: 0.95 }),
  ).toHaveLength(3);
});

it('has no paper without failures', () => {
  const none = groups.map((group) => ({ ...group, kaplan_meier: [] }));
  expect(
    weibullPlotOption(none, mileageAxis(frame.units), { kind: 'weibull', confidence: 0.95 }, frame),
  ).toEqual({});
});

describe('ticks of the paper', () => {
  it('are round and apart from each other', () => {
    expect(logTicks(20_000, 260_000, 1, 400)).toEqual([20_000, 30_000, 50_000, 70_000, 100_000, 200_000]);
    expect(logTicks(1, 1000, 1, 60)).toEqual([1, 200]);
  });

  it('keep a tenth and a half whatever else there is room for', () => {
    const range = paperRange('weibull', groups)!;
    expect(shareTicks('weibull', range, 40)).toEqual(expect.arrayContaining([0.1]));
    expect(shareTicks('weibull', range, 300)).toEqual(expect.arrayContaining([0.1, 0.5]));
  });
});
