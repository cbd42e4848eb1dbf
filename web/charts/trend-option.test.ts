import { describe, expect, it } from 'vitest';
import { trendRequest } from '#server/contract/analysis.ts';
import { analyseTrend } from '#server/services/analysis/analyse-trend.ts';
import { frameOf } from '#tests/helpers/chart-frame.ts';
import { readCase } from '#tests/published/published-case.ts';
import { controlOption, listControlNumbers } from './control-option.ts';
import { listTrendLines } from './trend-lines.ts';
import { listTrendNumbers, trendOption } from './trend-option.ts';
import { sayFigure, thinPoints, viewTrend } from './trend-view.ts';

/** USEPA (2009), Unified Guidance, Example 17-6: sulfate, as the case names it. */
const sulfate = readCase('02-theil-epa-17-6-sulfate').input as { x: number[]; y: number[] };

const viewOf = (x: number[], y: number[]) =>
  viewTrend({ x, y, xName: 'year', yName: 'sulfate', reply: analyseTrend(trendRequest.parse({ x, y })) });

const idsOf = (option: ReturnType<typeof trendOption>): string[] =>
  [option.series ?? []].flat().map(({ id }) => String(id));
const wordsOf = (option: ReturnType<typeof trendOption>): string[] =>
  JSON.stringify(option.graphic)
    .match(/"text":"[^"]+"/g)
    ?.map((one) => one.slice(8, -1)) ?? [];

describe('a series with its models', () => {
  const view = viewOf(sulfate.x, sulfate.y);

  it('goes through what the guidance says: slope 26.67, intercept -1909.33', () => {
    const line = listTrendLines(view).find(({ id }) => id === 'theil_sen');
    expect(line?.points[0]?.[1]).toBeCloseTo(-1909.3333 + 26.666667 * 89.6, 2);
    // Slopes of 20 and 35.849 (the case) turn the line about the median of x, 92.6: by hand 47.55, 0 and 66.57.
    const widths = line?.band?.map(({ low, high }) => high - low) ?? [];
    expect(widths.map((width) => width.toFixed(2))).toEqual(['47.55', '0.00', '66.57']);
  });

  it.each([358, 1200])('names every model beside the plot at %i px, none over another', (widthPx) => {
    const option = trendOption(view, frameOf(widthPx));
    expect(idsOf(option)).toEqual(
      expect.arrayContaining(['dots', 'bounds', 'theil_sen', 'ols', 'hinge', 'level_shift']),
    );
    expect(wordsOf(option)).toEqual(
      expect.arrayContaining([
        'Theil-Sen',
        'least squares',
        'flat, then rising',
        'level shift',
        'year',
        'sulfate',
      ]),
    );
    const elements = (option.graphic as { elements: { id: string; y?: number }[] }).elements;
    const ys = elements
      .flatMap(({ id, y }) => (id.startsWith('name-') ? [y ?? 0] : []))
      .sort((a, b) => a - b);
    expect(ys.every((y, i) => i === 0 || y - (ys[i - 1] ?? 0) >= 16.9)).toBe(true);
  });

  it('draws what could be had where a part is declined, and nothing of nothing', () => {
    const short = viewOf([1, 2, 3], [5, 5, 5]);
    expect(short.reply.declined.hinge).toBeDefined();
    expect(idsOf(trendOption(short, frameOf(600)))).not.toContain('hinge');
    expect(controlOption(short, frameOf(600))).toEqual({});
    expect(trendOption({ ...view, x: [], y: [] }, frameOf(600))).toEqual({});
  });

  it('puts points in the order of x', () => {
    expect(viewOf([3, 1, 2], [30, 10, 20])).toMatchObject({ x: [1, 2, 3], y: [10, 20, 30] });
  });
});

it('ends both control charts where the server says they end', () => {
  const view = viewOf(sulfate.x, sulfate.y);
  const [cusum, ewma] = listControlNumbers(view);
  const lastOf = (table: typeof cusum) => table?.rows.at(-1)?.map(Number) ?? [];
  expect(lastOf(cusum)[1]).toBeCloseTo(view.reply.cusum?.high ?? Number.NaN, 4);
  expect(lastOf(cusum)[2]).toBeCloseTo(-(view.reply.cusum?.low ?? Number.NaN), 4);
  expect(lastOf(ewma)[1]).toBeCloseTo(view.reply.ewma?.last ?? Number.NaN, 4);
  expect(idsOf(controlOption(view, frameOf(600, 300)))).toContain('cusum-high');
});

it('keeps limit and baseline of a sum that runs away apart, and says how far it goes', () => {
  const x = Array.from({ length: 80 }, (_, i) => i);
  const y = x.map((i) => 10 + (i % 3) + Math.max(0, i - 40));
  const view = viewOf(x, y);
  const { h, sd, high } = view.reply.cusum!;
  expect(high).toBeGreaterThan(20 * h * sd);
  const option = controlOption(view, frameOf(600, 300));
  const [{ max = 0, min = 0 } = {}] = option.yAxis as { min?: number; max?: number }[];
  expect(h * sd).toBeGreaterThan(0.1 * (max - min));
  expect(wordsOf(option)).toContain(`\u2191 ${sayFigure(Number(high.toPrecision(3)))}`);
  expect(
    wordsOf(
      controlOption(
        viewOf(
          x,
          x.map((i) => i % 3),
        ),
        frameOf(600, 300),
      ),
    ).join(),
  ).not.toMatch(/\u2191/);
});

it('says the alarm also where the title is too long for the drawing', () => {
  const view = viewOf(sulfate.x, sulfate.y);
  expect(wordsOf(controlOption(view, frameOf(600, 300)))).toContain(
    'CUSUM, sums of what is beyond the baseline; first alarm at 92.6',
  );
  expect(wordsOf(controlOption(view, frameOf(300, 300)))).toContain('CUSUM; first alarm at 92.6');
});

it('draws 100,000 points as 400 medians, each with where 80 % of its values lie', () => {
  const x = Array.from({ length: 100_000 }, (_, i) => i);
  const y = x.map((i) => i % 250);
  const dots = thinPoints({ x, y });
  expect(dots).toHaveLength(400);
  expect(dots[0]).toEqual({ x: 124, y: 125, low: 25, high: 224, n: 250 });
  const { reply } = viewOf([1, 2, 3], [1, 2, 3]);
  expect(listTrendNumbers({ x, y, xName: 'x', yName: 'y', reply })[0]?.rows).toHaveLength(400);
});

it.each([
  [0, '0'],
  [-1909.33333, '−1,909.3'],
  [0.00012345678, '0.00012346'],
  [1.23e-7, '1.230e-7'],
  [1.5e12, '1.500e+12'],
  [-2e-9, '−2.000e-9'],
])('says %d as %s', (value, words) => expect(sayFigure(value)).toBe(words));
