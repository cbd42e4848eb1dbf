import { describe, expect, it } from 'vitest';
import type { RoadTrace } from '#server/contract/test-steps.ts';
import { frameOf } from '#tests/helpers/chart-frame.ts';
import { makeRoadTrace } from '#tests/helpers/make-road-trace.ts';
import { listTraceDutyNumbers, listTraceNumbers } from './list-trace-numbers.ts';
import type { LineShape, RectShape, Shape, TextShape } from './shapes.ts';
import { textWidth } from './text-width.ts';
import { traceDutyOption } from './trace-duty-option.ts';
import { traceOption } from './trace-option.ts';

interface Drawn {
  series: { id: string; data: [number, number | null][] }[];
  yAxis: { min: number; max: number }[];
  tooltip: { formatter: (items: object) => string };
  graphic: { elements: Shape[] };
}
const widths = [340, 800, 1200];
const draw = (trace: RoadTrace, widthPx = 800) =>
  traceOption(trace, frameOf(widthPx, 320)) as unknown as Drawn;
const drawDuty = (trace: RoadTrace, widthPx = 400) =>
  traceDutyOption(trace, frameOf(widthPx, 320)) as unknown as Drawn & {
    series: { data: { value: number[]; symbolSize: number }[] }[];
  };
const dataOf = (drawn: Drawn, id: string) => drawn.series.find((one) => one.id === id)?.data ?? [];
const wordsOf = (drawn: Drawn) =>
  drawn.graphic.elements.filter((one): one is TextShape => one.type === 'text');
const textsOf = (drawn: Drawn) => wordsOf(drawn).map(({ style }) => style.text);
const shapeOf = <T extends Shape>(drawn: Drawn, id: string) =>
  drawn.graphic.elements.find((one) => one.id === id) as T | undefined;

/** Room of a word; halves of the lines between words may touch. */
const roomOf = ({ x, y, style }: TextShape) => {
  const width = textWidth(style.text, 13) * 0.9;
  const left = style.align === 'right' ? x - width : style.align === 'center' ? x - width / 2 : x;
  return { left, right: left + width, top: y - 7, bottom: y + 7 };
};
function collisions(drawn: Drawn): string[] {
  const rooms = wordsOf(drawn).map((one) => ({ text: one.style.text, ...roomOf(one) }));
  return rooms.flatMap((a, i) =>
    rooms
      .slice(i + 1)
      .filter((b) => a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom)
      .map((b) => `${a.text} | ${b.text}`),
  );
}
/** Many short stretches at many levels: as crowded as it gets. */
const crowded = makeRoadTrace({
  seconds: Array.from({ length: 400 }, (_, i) => i),
  slip_rpm: Array.from({ length: 400 }, (_, i) => 10 + 9 * (Math.floor(i / 10) % 17)),
  duty_pct: Array.from({ length: 400 }, () => 78),
  steady: Array.from({ length: 40 }, (_, i) => ({
    from_s: 10 * i,
    to_s: 10 * i + 9,
    duty_pct: 42 + (i % 8) * 7,
    slip_rpm: 10 + 9 * (i % 17),
    slope_rpm_per_s: 0,
    fluid_c: null,
  })),
  set_aside: [],
});

describe('slip over time', () => {
  it('draws what was steady apart from the rest, row by row', () => {
    const drawn = draw(makeRoadTrace());
    expect(dataOf(drawn, 'slip')[5]).toEqual([5, 875]);
    expect(dataOf(drawn, 'steady')[5]).toEqual([5, null]);
    expect(dataOf(drawn, 'steady')[30]).toEqual([30, 12]);
    expect(dataOf(drawn, 'command')[30]).toEqual([30, 78]);
  });

  it('scales by what was steady and the limit, and says what is off the scale', () => {
    const drawn = draw(makeRoadTrace());
    expect(drawn.yAxis[0]?.max).toBeCloseTo(150 * 1.22);
    expect(textsOf(drawn)).toContain('slip, rpm; off the scale up to 880');
    const steady = makeRoadTrace().steady.map((one) => ({ ...one, slip_rpm: 540 }));
    expect(draw(makeRoadTrace({ steady })).yAxis[0]?.max).toBeCloseTo(540 * 1.22);
  });

  it('scales by all there is where nothing was steady', () => {
    expect(draw(makeRoadTrace({ steady: [] })).yAxis[0]?.max).toBeGreaterThan(870);
  });

  it('marks each steady stretch at its level, from its begin to its end', () => {
    const drawn = draw(makeRoadTrace());
    const { shape } = shapeOf<LineShape>(drawn, 'steady-0') ?? { shape: { x1: 0, x2: 0, y1: 0, y2: 0 } };
    const perSecond = (800 - 46 - 40) / 120;
    expect(shape.x1).toBeCloseTo(46 + 21 * perSecond);
    expect(shape.x2).toBeCloseTo(46 + 60 * perSecond);
    expect(textsOf(drawn)).toEqual(expect.arrayContaining(['13 rpm', '12 rpm', 'limit 150']));
  });

  it('has set-aside time as ticks along the axis, and none where nothing was recorded', () => {
    const gap = { from_s: 90, to_s: 110, reason: 'gap', says: 'nothing recorded' };
    const trace = makeRoadTrace({ set_aside: [...makeRoadTrace().set_aside, gap], gaps: [gap] });
    const drawn = draw(trace);
    expect(shapeOf<RectShape>(drawn, 'aside-0')?.shape.width).toBeCloseTo((20 * (800 - 86)) / 120);
    expect(shapeOf(drawn, 'aside-3')).toBeUndefined();
    expect(shapeOf(drawn, 'gap-0-from')).toBeDefined();
    expect(textsOf(drawn)).toContain('20 s lost');
  });

  it('breaks the line at a gap', () => {
    const trace = makeRoadTrace();
    trace.slip_rpm[100] = null;
    trace.duty_pct[100] = null;
    expect(dataOf(draw(trace), 'slip')[100]).toEqual([100, null]);
    expect(draw(trace).series[1]).toMatchObject({ connectNulls: false });
  });

  it.each(widths)('lets no word cover another at %i px', (widthPx) => {
    expect(collisions(draw(makeRoadTrace(), widthPx))).toEqual([]);
    expect(collisions(draw(crowded, widthPx))).toEqual([]);
    for (const { left, right } of wordsOf(draw(crowded, widthPx)).map(roomOf)) {
      expect(left).toBeGreaterThanOrEqual(0);
      expect(right).toBeLessThanOrEqual(widthPx);
    }
  });

  it('tells of a row what it is', () => {
    const { tooltip } = draw(makeRoadTrace());
    expect(tooltip.formatter([{ dataIndex: 30 }])).toBe(
      '<b>0:30</b><br>12.0 rpm at 78 % command<br>steady for 39 s',
    );
    expect(tooltip.formatter([{ dataIndex: 70 }])).toContain('set aside: lockup not commanded');
  });
});

describe('slip by command', () => {
  it('has a dot for each stretch, as large as it was long', () => {
    const steady = makeRoadTrace().steady.map((one, i) => ({
      ...one,
      to_s: one.from_s + (i === 0 ? 16 : 64),
    }));
    const [series] = drawDuty(makeRoadTrace({ steady })).series;
    expect(series?.data.map((one) => (one as unknown as { value: number[] }).value)).toEqual([
      [78, 13],
      [78, 12],
    ]);
    const [short, long] = (series?.data ?? []) as unknown as { symbolSize: number }[];
    expect((long?.symbolSize ?? 0) / (short?.symbolSize ?? 1)).toBeCloseTo(2);
  });

  it('draws the range of healthy vehicles, and none where none is known', () => {
    expect(shapeOf(drawDuty(makeRoadTrace()), 'healthy')).toBeDefined();
    expect(shapeOf(drawDuty(makeRoadTrace({ healthy: [] })), 'healthy')).toBeUndefined();
  });

  it('names one of stretches that lie on one another, and the limit', () => {
    const texts = textsOf(drawDuty(makeRoadTrace()));
    expect(texts.filter((text) => /rpm, \d+ s/.test(text))).toEqual(['13 rpm, 39 s']);
    expect(texts).toContain('limit 150');
  });

  it.each([300, 400, 800])('lets no word cover another at %i px', (widthPx) => {
    expect(collisions(drawDuty(crowded, widthPx))).toEqual([]);
    expect(collisions(drawDuty(makeRoadTrace(), widthPx))).toEqual([]);
  });
});

it('gives the same numbers as tables, in the units of the reader', () => {
  const [steady, aside, rows] = listTraceNumbers(makeRoadTrace(), { distance: 'mi', temperature: 'F' });
  // 82 degC = 179.6 degF
  expect(steady?.rows[0]).toEqual(['0:21', '1:00', '39', '78.0', '13.0', '0.0', '180']);
  expect(aside?.rows[1]).toEqual(['0:20', '0:21', '1.0', 'command still moving']);
  expect(rows?.rows).toHaveLength(121);
  expect(listTraceDutyNumbers(makeRoadTrace(), { distance: 'km', temperature: 'C' })[1]?.rows[1]).toEqual([
    '77.5',
    '4.0',
    '14.0',
    '26.0',
  ]);
});
