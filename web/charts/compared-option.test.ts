import { describe, expect, it } from 'vitest';
import { vehicleCases } from '#tests/browser/fixtures/vehicle-cases.ts';
import { makeSeries } from '#tests/browser/fixtures/vehicle-series.ts';
import { frameOf } from '#tests/helpers/chart-frame.ts';
import { comparedOption, listComparedNumbers } from './compared-option.ts';
import { type ComparedSeries, readCompared, spanOf } from './read-compared.ts';
import type { Shape, TextShape } from './shapes.ts';
import { textWidth } from './text-width.ts';

interface Drawn {
  grid: { left: number; width: number; top: number; height: number }[];
  xAxis: { min: number; axisLabel: { customValues: number[]; formatter: (km: number) => string } }[];
  yAxis: { max: number; axisLabel: { customValues: number[] } }[];
  series: { id: string; symbol: string; data: ([number, number] | { value: [number, number] })[] }[];
  graphic: { elements: Shape[] };
}
const draw = (all: readonly ComparedSeries[], frame = frameOf(700, 250)) =>
  comparedOption(all, frame) as unknown as Drawn;
const textsOf = (drawn: Drawn) =>
  drawn.graphic.elements.filter((one): one is TextShape => one.type === 'text');
const drifting = readCompared(makeSeries(vehicleCases.drifting!));
const steady = { ...readCompared(makeSeries(vehicleCases.steady!)), vehicle: 'B-STEADY' };

describe('the slip of one vehicle among others', () => {
  it('is laid out by the kilometres before now', () => {
    const whole = makeSeries(vehicleCases.drifting!);
    const last = whole.series[0]!.points.at(-1)!;
    expect(drifting.points.at(-1)?.km).toBe(last.odometer_km - whole.odometer_km!);
    expect(drifting.points.every(({ km }) => km <= 0)).toBe(true);
    expect(drifting.bendKm).toBeLessThan(0);
  });

  it('is that of the converter fitted now alone', () => {
    const whole = makeSeries(vehicleCases.drifting!);
    const [reference] = whole.series;
    const first = reference!.points[0]!;
    const two = {
      ...whole,
      series: [
        { ...reference!, points: [{ ...first, life: first.life - 1 }, ...reference!.points.slice(1)] },
      ],
    };
    expect(readCompared(two).points).toHaveLength(reference!.points.length - 1);
  });

  it('has no points where there are none', () => {
    const none = readCompared({ ...makeSeries(vehicleCases.steady!), series: [] });
    expect(none).toMatchObject({ points: [], line: [], bendKm: null });
  });
});

describe('the common axis', () => {
  const bent = (bendKm: number | null): ComparedSeries => ({ ...steady, bendKm });
  it('reaches back to before the longest rise, within bounds', () => {
    expect(spanOf([bent(null), bent(null)])).toBe(10_000);
    expect(spanOf([bent(-20_000), bent(-3_000)])).toBe(26_000);
    expect(spanOf([bent(-200_000)])).toBe(60_000);
  });
});

describe('the drawing of several vehicles', () => {
  it('has marks and a line for each, of its own shape', () => {
    const drawn = draw([drifting, steady]);
    expect(drawn.series.map(({ id }) => id)).toEqual(['points-0', 'line-0', 'points-1', 'line-1']);
    expect([drawn.series[0]?.symbol, drawn.series[2]?.symbol]).toEqual(['circle', 'rect']);
    for (const { data } of drawn.series) expect(data.length).toBeGreaterThan(1);
  });

  it('begins every line where the axis does', () => {
    const { series, xAxis } = draw([drifting, steady]);
    const from = xAxis[0]!.min;
    for (const { data } of series)
      for (const one of data) expect(('value' in one ? one.value : one)[0]).toBeGreaterThanOrEqual(from);
  });

  it('names limits once where they are the same, and whose they are where they differ', () => {
    const words = (all: ComparedSeries[]) =>
      textsOf(draw(all))
        .map((one) => one.style.text)
        .filter((text) => text.startsWith('limit'));
    const limit = Math.round(drifting.limitRpm);
    expect(words([drifting, { ...steady, limitRpm: drifting.limitRpm }])).toEqual([`limit ${limit}`]);
    expect(words([drifting, { ...steady, limitRpm: limit - 20 }])).toEqual([
      `limit ${limit}, ${drifting.vehicle}`,
      `limit ${limit - 20}, B-STEADY`,
    ]);
  });

  it.each([300, 700, 1300])('keeps names apart and within %i px, the longest too', (widthPx) => {
    const long = { ...steady, vehicle: 'REGIONAL-SERVICES/NORTH-EAST/UTILITY-TRUCK/000000000000000417-B' };
    const names = textsOf(draw([drifting, long, steady], frameOf(widthPx, 250))).filter(({ id }) =>
      id.startsWith('name-'),
    );
    expect(names).toHaveLength(3);
    const ys = names.map(({ y }) => y).sort((a, b) => a - b);
    for (const [i, y] of ys.entries()) if (i > 0) expect(y - ys[i - 1]!).toBeGreaterThanOrEqual(16.9);
    for (const { x, style } of names) expect(x + textWidth(style.text, 13)).toBeLessThanOrEqual(widthPx);
  });

  it('draws what is far above the limit at the edge, and lists it as it is', () => {
    const wild = { ...drifting, points: [...drifting.points, { km: -100, slipRpm: 5_000, weight: 1 }] };
    const drawn = draw([wild]);
    const highest = Math.max(...drawn.series[0]!.data.map((one) => ('value' in one ? one.value[1] : one[1])));
    expect(highest).toBe(drawn.yAxis[0]?.max);
    expect(drawn.yAxis[0]?.max).toBeLessThan(2 * drifting.limitRpm);
    expect(listComparedNumbers([wild], frameOf(1).units)[0]?.rows[0]).toEqual(['100', '5,000.0']);
  });

  it('has round miles for who reads miles', () => {
    const frame = frameOf(700, 250, { distance: 'mi', temperature: 'F' });
    const [axis] = draw([drifting, steady], frame).xAxis;
    const labels = axis!.axisLabel.customValues.map(axis!.axisLabel.formatter);
    expect(labels[0]).toBe('now');
    expect(labels.slice(1).every((label) => /^\d+$/.test(label))).toBe(true);
    expect(textsOf(draw([drifting], frame)).map(({ style }) => style.text)).toContain(
      'thousand mi before now',
    );
  });

  it('keeps marks by place where one has no series', () => {
    const none = { vehicle: 'X', limitRpm: 0, points: [], bendKm: null, line: [] };
    const drawn = draw([none, steady]);
    expect(drawn.series.find(({ id }) => id === 'points-1')?.symbol).toBe('rect');
    expect(textsOf(drawn).map(({ style }) => style.text)).not.toContain('limit 0');
  });
});
