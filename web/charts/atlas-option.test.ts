import { describe, expect, it } from 'vitest';
import { makeAtlas } from '#tests/browser/fixtures/atlas-fixture.ts';
import { frameOf } from '#tests/helpers/chart-frame.ts';
import { atlasOption } from './atlas-option.ts';
import type { AtlasAxis } from './atlas-plot.ts';
import { sayLines } from './atlas-quantiles.ts';
import { listAtlasNumbers } from './list-atlas-numbers.ts';
import type { Shape, TextShape } from './shapes.ts';

interface Rect {
  shape: { x: number; y: number; width: number; height: number };
  style: { opacity: number };
}
interface Series {
  id: string;
  data: unknown[];
  renderItem: (params: { dataIndex: number }) => Rect;
  tooltip: { formatter: (one: { dataIndex: number }) => string };
}
interface Drawn {
  series: Series[];
  xAxis: { axisTick: { customValues: number[] }; axisLabel: { formatter: (value: number) => string } };
  graphic: { elements: Shape[] };
}

const atlas = makeAtlas();
const fahrenheit = { distance: 'mi', temperature: 'F' } as const;
const draw = (axis: AtlasAxis = 'command', vehicle: string | null = '204', frame = frameOf(900, 460)) => {
  const plane = axis === 'fluid' ? atlas.by_fluid : atlas.by_command;
  return atlasOption(
    { axis, plane: plane ?? atlas.by_command, limitRpm: 170, vehicle },
    frame,
  ) as unknown as Drawn;
};
const seriesOf = (drawn: Drawn, id: string) => drawn.series.find((one) => one.id === id);
const wordsOf = (drawn: Drawn) =>
  drawn.graphic.elements.filter((one): one is TextShape => one.type === 'text');

describe('the drawing of an atlas', () => {
  it('has a cell where there are readings and nowhere else, the deeper the more', () => {
    const cells = seriesOf(draw(), 'cells');
    const filled = atlas.by_command.readings.flat().filter((n) => n > 0);
    expect(cells?.data).toHaveLength(filled.length);
    const drawn = filled.map((n, dataIndex) => ({ n, ...cells!.renderItem({ dataIndex }).style }));
    const [least, most] = [drawn.toSorted((a, b) => a.n - b.n)[0], drawn.toSorted((a, b) => b.n - a.n)[0]];
    expect(most?.opacity).toBeCloseTo(0.42);
    expect(least?.opacity).toBeLessThan(0.2);
  });

  it('places a cell between its edges', () => {
    const cells = seriesOf(draw(), 'cells')!;
    const index = cells.data.findIndex((one) => JSON.stringify(one) === '[60,15]');
    const { x, y, width, height } = cells.renderItem({ dataIndex: index }).shape;
    // 60 to 65 % of 40 to 100 over 808 px from 40; 15 to 20 of 0 to 205 rpm over 384 px up from 414.
    expect(x).toBeCloseTo(40 + (20 / 60) * 808 + 0.5);
    expect(width).toBeCloseTo((5 / 60) * 808 - 1);
    expect(y).toBeCloseTo(414 - (20 / 205) * 384);
    expect(height).toBeCloseTo((5 / 205) * 384);
    expect(cells.tooltip.formatter({ dataIndex: index })).toMatch(
      /^<b>60 to 65 % command<\/b><br>slip 15 to 20 rpm<br>\d/,
    );
  });

  it('names the five lines at their ends, apart from one another', () => {
    const words = wordsOf(draw()).filter((one) => /%$|middle/.test(one.style.text) && one.id !== 'x-title');
    expect(words.map((one) => one.style.text)).toEqual(['95 %', '75 %', 'middle', '25 %', '5 %']);
    for (const [i, one] of words.entries())
      if (i > 0) expect(one.y - (words[i - 1]?.y ?? 0)).toBeGreaterThanOrEqual(15.9);
  });

  it('names no line on the limit, and the limit where the lines lie low', () => {
    const wordsAt = (p95: number, frame = frameOf(900, 460)) => {
      const steps = atlas.by_command.quantiles;
      const plane = { ...atlas.by_command, quantiles: steps.map((one) => ({ ...one, p95 })) };
      const drawn = atlasOption({ axis: 'command', plane, limitRpm: 170, vehicle: null }, frame);
      return wordsOf(drawn as unknown as Drawn);
    };
    // 170 of 205 rpm over 384 px up from 414 is at 95.6.
    const limitPx = 414 - (170 / 205) * 384;
    for (const p95 of [165, 169, 171, 175]) {
      const own = wordsAt(p95).find(({ id }) => id === 'p95-words');
      expect(Math.abs((own?.y ?? limitPx) - limitPx)).toBeGreaterThanOrEqual(9.9);
      expect((own?.y ?? 0) < limitPx).toBe(p95 > 170);
    }
    const limitOf = (drawn: Drawn) => wordsOf(drawn).find(({ id }) => id === 'limit-words')?.style.align;
    expect(limitOf(draw('command'))).toBe('right');
    expect(limitOf(draw('fluid'))).toBe('left');
  });

  it('lets a line leave the plot where it goes beyond the scale', () => {
    const [first, ...rest] = atlas.by_command.quantiles;
    const plane = { ...atlas.by_command, quantiles: [{ ...first!, p95: 420 }, ...rest] };
    const drawn = atlasOption({ axis: 'command', plane, limitRpm: 170, vehicle: null }, frameOf(900, 460));
    expect(seriesOf(drawn as unknown as Drawn, 'p95')?.data[0]).toEqual([42.5, 420]);
  });

  it('breaks a line where a step has no readings', () => {
    const plane = {
      ...atlas.by_command,
      quantiles: atlas.by_command.quantiles.filter(({ x }) => x !== 62.5),
    };
    const drawn = atlasOption({ axis: 'command', plane, limitRpm: 170, vehicle: null }, frameOf(900, 460));
    const middle = seriesOf(drawn as unknown as Drawn, 'p50')?.data as [number, number | null][];
    expect(middle.filter(([, rpm]) => rpm === null)).toEqual([[62.5, null]]);
  });

  it('draws no line through a step that few vehicles stand behind, but where there are no more', () => {
    const quantiles = atlas.by_command.quantiles.map((one) => ({
      ...one,
      vehicles: one.x === 62.5 ? 19 : 60,
    }));
    const dataOf = (plane: typeof atlas.by_command) =>
      seriesOf(
        atlasOption(
          { axis: 'command', plane, limitRpm: 170, vehicle: null },
          frameOf(900, 460),
        ) as unknown as Drawn,
        'p50',
      )?.data as [number, number | null][];
    expect(dataOf({ ...atlas.by_command, quantiles }).filter(([, rpm]) => rpm === null)).toEqual([
      [62.5, null],
    ]);
    const two = quantiles.map((one) => ({ ...one, vehicles: 2 }));
    expect(dataOf({ ...atlas.by_command, quantiles: two }).filter(([, rpm]) => rpm === null)).toEqual([]);
  });

  it('lays a vehicle on top, the newest strongest, and what is beyond the scale at its edge', () => {
    const points = seriesOf(draw(), 'vehicle')?.data as {
      value: [number, number];
      symbol: string;
      itemStyle: { opacity: number };
    }[];
    expect(points).toHaveLength(12);
    expect(points.at(-1)).toMatchObject({ symbol: 'triangle', value: [84, 205], itemStyle: { opacity: 1 } });
    expect(points[0]?.itemStyle.opacity).toBeCloseTo(0.12);
    expect(seriesOf(draw('command', null), 'vehicle')).toBeUndefined();
  });

  it('keeps a unit number from being read as markup', () => {
    const tell = seriesOf(draw('command', '<b>&'), 'vehicle')?.tooltip.formatter;
    expect(tell?.({ dataIndex: 0 })).toContain('&lt;b&gt;&amp;, 2026-01-05');
  });

  it('has round ticks in the degrees of the reader', () => {
    const { axisTick, axisLabel } = draw('fluid', null, frameOf(900, 460, fahrenheit)).xAxis;
    expect(axisTick.customValues.map(axisLabel.formatter)).toEqual([
      '140',
      '150',
      '160',
      '170',
      '180',
      '190',
      '200',
      '210',
      '220',
      '230',
    ]);
  });

  it('says how many readings the scale leaves out', () => {
    expect(wordsOf(draw()).map((one) => one.style.text)).toContain(
      'slip, rpm; 42 readings lie above the scale',
    );
  });
});

it('says how many vehicles stand behind a line', () => {
  expect(sayLines(atlas.by_command)).toBe('Lines: where at least 20 of 60 vehicles have readings.');
  const few = atlas.by_command.quantiles.map((one) => ({ ...one, vehicles: 3 }));
  expect(sayLines({ quantiles: few })).toContain('at least 3 of 3 vehicles');
  expect(sayLines({ quantiles: few.map((one) => ({ ...one, n: 19 })) })).toMatch(/^No lines/);
  expect(sayLines({ quantiles: few.map((one) => ({ ...one, vehicles: 1 })) })).toBe(
    'Lines: of one vehicle alone.',
  );
});

it('gives the same figures as tables, the newest stretch on top', () => {
  const [platform, own] = listAtlasNumbers(
    { axis: 'command', plane: atlas.by_command, vehicle: '204' },
    frameOf(900).units,
  );
  expect(platform?.rows[0]).toEqual(['40 to 45', '15.5', '19.5', '21.5', '24.5', '51.5', '400', '60']);
  expect(own?.rows[0]).toEqual(['2026-03-01', '315,500', '84.0', '254.0', '23']);
});
