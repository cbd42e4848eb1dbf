import { describe, expect, it } from 'vitest';
import { makeResult } from '#tests/browser/fixtures/replay-fixture.ts';
import { frameOf } from '#tests/helpers/chart-frame.ts';
import { addDays } from '#web/format/days.ts';
import { calibrationOption, listCalibrationNumbers } from './calibration-option.ts';
import { listNoticeNumbers, noticeHeight, noticeOption } from './notice-option.ts';
import { scoreHeight, scoreOption } from './replay-score-option.ts';
import { listWeeksNumbers, weeksHeightPx, weeksOption } from './replay-weeks-option.ts';
import type { LineShape, RectShape, Shape, TextShape } from './shapes.ts';

interface Dot {
  name: string;
  value: [number, number];
  symbol: string;
}
interface Drawn {
  series: { id: string; data: unknown[] }[];
  graphic: { elements: Shape[] };
}
const as = (option: unknown) => option as Drawn;
const shapeOf = <T extends Shape>(drawn: Drawn, id: string) =>
  drawn.graphic.elements.find((one) => one.id === id) as T | undefined;
const textOf = (drawn: Drawn, id: string) =>
  shapeOf<TextShape>(drawn, id)?.style.text.replaceAll('\u00a0', ' ');
const result = makeResult();
const rules = [
  { rule: 'list' as const, name: 'the list' },
  { rule: 'slip_level' as const, name: 'level' },
];

describe('found, missed and needless', () => {
  const drawn = as(
    scoreOption({ scores: result.scores, failures: 25, nameOf: ({ rule }) => rule }, frameOf(1028, 208)),
  );
  it('fills what was found and leaves hollow what was missed, all on one scale', () => {
    // Half of 1028 less the gap of 28 is 500 px for 25 failures: 23 are 460 px, less 1 for the gap between parts.
    expect(shapeOf<RectShape>(drawn, 'list-came-0')?.shape.width).toBe(459);
    expect(shapeOf<RectShape>(drawn, 'list-came-1')?.style.fill).toBe('none');
    expect(shapeOf<RectShape>(drawn, 'slip_level-came-0')?.shape.width).toBe(379);
  });
  it('says the figures below the bars, in their order', () => {
    expect(textOf(drawn, 'list-came-words')).toBe('23 found, 2 missed');
    expect(textOf(drawn, 'list-times')).toBe('asked 61 times');
    expect(textOf(drawn, 'list-asked-words')).toBe('34 right, 20 early, 3 undecided, 4 needless');
  });
  it('puts the two bars under one another where there is little room', () => {
    const narrow = as(
      scoreOption({ scores: result.scores, failures: 25, nameOf: ({ rule }) => rule }, frameOf(350, 372)),
    );
    // Of 350 px, 23 of 25 are 322, less 1 for the gap; 34 of 61 asked for are 195.1.
    expect(shapeOf<RectShape>(narrow, 'list-came-0')?.shape.width).toBeCloseTo(321);
    const right = shapeOf<RectShape>(narrow, 'list-asked-0')?.shape;
    expect([right?.x, right?.width]).toEqual([0, expect.closeTo((34 / 61) * 350 - 1)]);
    expect(scoreHeight(3, 350)).toBe(2 * scoreHeight(3, 1028));
  });
});

describe('chances, stated and seen', () => {
  const drawn = as(calibrationOption(result.calibration, frameOf(560, 360)));
  it('has a dot with its bounds where enough were followed, and none where not', () => {
    expect(drawn.series[0]?.data).toHaveLength(5);
    const bounds = shapeOf<LineShape>(drawn, 'bounds-4')?.shape;
    // 0.64 of 500 px right of 44; 46 to 90 % of 268 px up from 298.
    expect(bounds?.x1).toBeCloseTo(44 + 0.64 * 500);
    expect([bounds?.y1, bounds?.y2]).toEqual([
      expect.closeTo(298 - 0.46 * 268),
      expect.closeTo(298 - 0.9 * 268),
    ]);
  });
  it('has the counts that have room, and all of them in the table', () => {
    expect(textOf(drawn, 'count-0')).toBe('4,100');
    const [table] = listCalibrationNumbers(result.calibration);
    expect(table?.rows.map((row) => row[5])).toEqual(['4,100', '320', '90', '61', '44', '38']);
    expect(table?.rows[5]?.slice(1, 5)).toEqual(['89.0', '–', '–', '–']);
  });
  it('leaves a dot hollow that its bounds hold away from the line', () => {
    const bins = result.calibration.map((bin, i) =>
      i === 4 ? { ...bin, stated: 0.7, seen: 0.4, low: 0.2, high: 0.6 } : bin,
    );
    const dots = as(calibrationOption(bins, frameOf(560, 360))).series[0]?.data as object[];
    expect(dots.map((dot) => 'itemStyle' in dot)).toEqual([false, false, false, false, true]);
  });
  it('draws an empty plot of no looks', () => {
    expect(as(calibrationOption([], frameOf(560, 360))).series[0]?.data).toEqual([]);
  });
});

describe('notice', () => {
  const draw = (made = result) =>
    as(noticeOption({ result: made, rules, scaleKm: 10_000 }, frameOf(1034, noticeHeight(2))));
  it('has one dot for each that was found, and a point at the edge for what lies beyond', () => {
    const dots = draw().series[0]?.data as Dot[];
    expect(dots).toHaveLength(23 + 19);
    const beyond = dots.filter(({ symbol }) => symbol === 'triangle');
    expect(beyond.length).toBe(result.came.filter((one) => (one.list?.notice_km ?? 0) > 10_000).length);
    expect(beyond.every(({ value: [km] }) => km === 10_000)).toBe(true);
  });
  it('has the spread of each rule thick and its middle as a notch', () => {
    const span = shapeOf<RectShape>(draw(), 'list-span')?.shape;
    // 1,000 px for 10,000 km from 8 on; 1,900 km is at 198, 12,400 km at the edge.
    expect([span?.x, span?.width]).toEqual([198, 810]);
    expect(textOf(draw(), 'list-name')).toBe('the list: 23 of 25, 6,900 km in the middle');
  });
  it('stacks dots that would lie on one another', () => {
    const twins = result.came
      .slice(0, 2)
      .map((one) => ({ ...one, list: { ...one.list!, notice_km: 3_000 }, slip_level: null }));
    const dots = draw(makeResult({ came: twins })).series[0]?.data as Dot[];
    expect(dots.map(({ value: [km] }) => km)).toEqual([3_000, 3_000]);
    expect(Math.abs((dots[0]?.value[1] ?? 0) - (dots[1]?.value[1] ?? 0))).toBe(8);
  });
  it('lists the notice of each, with a dash for what was missed', () => {
    const [table] = listNoticeNumbers({ result, rules }, frameOf(900).units);
    expect(table?.rows[24]?.slice(2)).toEqual(['–', '–']);
    expect(table?.rows[0]?.slice(2)).toEqual(['1,200', '900']);
  });
});

describe('week by week', () => {
  it('stacks hold and book, marks weeks in which something came, and ends at a round figure', () => {
    const drawn = as(weeksOption(result.weeks, result.from, frameOf(900, weeksHeightPx)));
    expect(drawn.series.map(({ id }) => id)).toEqual(['hold', 'book', 'came']);
    expect(drawn.series[0]?.data[1]).toBe(result.weeks[1]?.hold);
    expect(drawn.series[2]?.data.filter((one) => one !== null)).toHaveLength(
      result.weeks.filter((week) => week.failures > 0).length,
    );
    expect(textOf(drawn, 'hold-words')).toBe('hold');
  });
  it('lists every week', () => {
    const [table] = listWeeksNumbers(result.weeks, result.from);
    expect(table?.rows[0]).toEqual([result.weeks[0]?.day, '7', '230', '3', '6', '2']);
  });
  it('marks a last one that is only part of a week', () => {
    const all = result.weeks;
    const weeks = [...all.slice(0, -1), { ...all.at(-1)!, day: addDays(all.at(-2)!.day, 3) }];
    const drawn = as(weeksOption(weeks, result.from, frameOf(900, weeksHeightPx)));
    expect(textOf(drawn, 'y-title')).toContain('the last, paler, has only 3 days');
    expect(drawn.series[0]?.data.at(-1)).toMatchObject({ itemStyle: { opacity: 0.45 } });
    expect(listWeeksNumbers(weeks, result.from)[0]?.rows.at(-1)?.[1]).toBe('3');
    const whole = as(weeksOption(all, result.from, frameOf(900, weeksHeightPx)));
    expect(textOf(whole, 'y-title')).toBe('vehicles at the end of the week');
  });
});
