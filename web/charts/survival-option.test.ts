import { describe, expect, it } from 'vitest';
import type { LivesGroup } from '#server/contract/lives.ts';
import { makeLives, makeLivesReply } from '#tests/browser/fixtures/lives-fixture.ts';
import { frameOf } from '#tests/helpers/chart-frame.ts';
import { listSurvivalNumbers } from './list-survival-numbers.ts';
import type { PolyShape, Shape, TextShape } from './shapes.ts';
import { survivalHeight, survivalOption } from './survival-option.ts';
import { countAtRisk, lastSeen, mostAtRisk } from './survival-steps.ts';
import { textWidth } from './text-width.ts';
import { mileageAxis } from './use-axis.ts';

interface Drawn {
  grid: { left: number; top: number; width: number; height: number }[];
  xAxis: { max: number; axisLabel: { customValues: number[]; formatter: (x: number) => string } }[];
  series: {
    id: string;
    step?: string;
    lineStyle?: { type: unknown; color: string };
    data: [number, number][];
  }[];
  graphic: { elements: Shape[] };
}
const miles = { distance: 'mi', temperature: 'F' } as const;
const { groups } = makeLivesReply(makeLives(), 'supplier');

function draw(all: readonly LivesGroup[], widthPx = 900, units = frameOf(1).units) {
  const frame = frameOf(widthPx, survivalHeight(all, widthPx), units);
  return survivalOption(all, mileageAxis(units), frame) as unknown as Drawn;
}
const textsOf = ({ graphic }: Drawn) =>
  graphic.elements.filter((one): one is TextShape => one.type === 'text');

describe('the drawing of survival', () => {
  it('has a stepped line for each group from 1 down to its last estimate, told apart by tone and dash', () => {
    const lines = draw(groups).series.filter(({ id }) => id.startsWith('line-'));
    expect(lines).toHaveLength(3);
    expect(new Set(lines.map(({ lineStyle }) => lineStyle?.color)).size).toBe(3);
    for (const [i, { step, data }] of lines.entries()) {
      const group = groups[i]!;
      expect(step).toBe('end');
      expect(data[0]).toEqual([0, 1]);
      expect(data.at(-1)).toEqual([lastSeen(group), group.kaplan_meier.at(-1)?.survival]);
    }
  });

  it('draws a band for each group, around its line and within the plot', () => {
    const drawn = draw(groups);
    const bands = drawn.graphic.elements.filter((one): one is PolyShape => one.type === 'polygon');
    expect(bands).toHaveLength(3);
    const { left, top, width, height } = drawn.grid[0]!;
    for (const { shape } of bands)
      for (const [x, y] of shape.points) {
        expect(x).toBeGreaterThanOrEqual(left - 0.01);
        expect(x).toBeLessThanOrEqual(left + width + 0.01);
        expect(y).toBeGreaterThanOrEqual(top - 0.01);
        expect(y).toBeLessThanOrEqual(top + height + 0.01);
      }
  });

  it('marks each converter that ran on upon the line', () => {
    const marks = draw(groups).series.find(({ id }) => id === 'running-0')!;
    expect(marks.data.map(([x]) => x)).toEqual(groups[0]!.running_at);
    for (const [, y] of marks.data) expect(y).toBeGreaterThan(0);
  });

  it.each([320, 390, 900])('sets counts under their ticks and names within %i px', (widthPx) => {
    const drawn = draw(groups, widthPx);
    const texts = textsOf(drawn);
    const ticks = drawn.xAxis[0]!.axisLabel.customValues;
    const counts = texts.filter(({ id }) => /^counts-1-\d+$/.test(id));
    expect(counts).toHaveLength(ticks.length);
    expect(counts[1]?.style.text).toBe(String(countAtRisk(groups[1]!, ticks[1]!)));
    for (const { x, style } of texts.filter(({ id }) => id.startsWith('name-')))
      for (const line of style.text.split('\n')) expect(x + textWidth(line, 13)).toBeLessThanOrEqual(widthPx);
  });

  it('has round thousands of miles for who reads miles', () => {
    const axis = draw(groups, 900, miles).xAxis[0]!;
    expect(axis.axisLabel.customValues.map(axis.axisLabel.formatter)).toEqual(['0', '50', '100', '150']);
  });

  it('shows lives without a failure, and nothing without lives', () => {
    const [none] = makeLivesReply(
      makeLives(12).map((life) => ({ ...life, event: false })),
      null,
    ).groups;
    const [line] = draw([none!]).series;
    expect(line?.data).toEqual([
      [0, 1],
      [lastSeen(none!), 1],
    ]);
    expect(draw([])).toEqual({});
  });
});

it('counts as under watch whose failure would be seen, entry < x <= exit', () => {
  const group = {
    ...groups[0]!,
    at_risk: [
      { x: 0, n: 3 },
      { x: 10, n: 5 },
      { x: 20, n: 0 },
    ],
  };
  expect([0, 5, 10, 11, 20, 21].map((x) => countAtRisk(group, x))).toEqual([0, 3, 3, 5, 5, 0]);
  expect([mostAtRisk(group, -5, 5), mostAtRisk(group, 5, 15), mostAtRisk(group, 20, 30)]).toEqual([3, 5, 0]);
});

it('says how many are under watch near a tick where none is at it', () => {
  const step = (x: number, n: number) => ({ x, n });
  const short = {
    ...groups[1]!,
    kaplan_meier: [],
    at_risk: [step(31_000, 2), step(38_000, 0), step(200_000, 0)],
  };
  const { elements } = draw([short]).graphic;
  const counts = elements.filter((one): one is TextShape => /^counts-0-\d+$/.test(one.id));
  expect(counts.map(({ style }) => style.text)).toContain('0 to 2');
});

it('lists survival in the unit of the reader', () => {
  const [table] = listSurvivalNumbers(groups, mileageAxis(miles));
  const first = groups[0]!.kaplan_meier[0]!;
  expect(table?.columns[0]?.title).toBe('mi');
  expect(Number(table?.rows[0]?.[0])).toBeCloseTo(first.x / 1.609344, 2);
  expect(table?.rows).toHaveLength(groups[0]!.kaplan_meier.length);
});
