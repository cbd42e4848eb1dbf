import { describe, expect, it } from 'vitest';
import { makeDetail } from '#tests/browser/fixtures/vehicle-answers.ts';
import { vehicleCases } from '#tests/browser/fixtures/vehicle-cases.ts';
import { makeSeries } from '#tests/browser/fixtures/vehicle-series.ts';
import { frameOf } from '#tests/helpers/chart-frame.ts';
import type { Units } from '#web/format/units.ts';
import { drawMileage } from './draw-mileage.ts';
import { layMileage } from './mileage-layout.ts';
import { type MileageView, viewMileage } from './mileage-view.ts';
import type { Shape, TextShape } from './shapes.ts';
import { textWidth } from './text-width.ts';

const names = Object.keys(vehicleCases).filter((name) => name !== 'heavy');
const widths = [358, 700, 1216, 1830];

function viewOf(name: string, band: string | null = null): MileageView {
  const one = vehicleCases[name]!;
  const view = viewMileage(makeSeries(one), makeDetail(one).assessment, { band, life: null });
  if (view === null) throw new Error(`${name} has no stretches`);
  return view;
}

function draw(name: string, widthPx = 1216, units?: Units, range?: MileageView['whole']) {
  const view = viewOf(name);
  const option = drawMileage(view, range ?? view.first, frameOf(widthPx, 900, units));
  const { elements } = option.graphic as { elements: Shape[] };
  const shape = (id: string) => elements.find((one) => one.id === id);
  const words = elements.filter((one): one is TextShape => one.type === 'text');
  const seriesIds = (option.series as { id: string }[]).map((one) => one.id);
  return { view, option, elements, shape, words, seriesIds };
}

const boxOf = (one: TextShape) => {
  const width = textWidth(one.style.text, one.style.fontSize) * 0.94;
  const left =
    one.style.align === 'left' ? one.x : one.style.align === 'right' ? one.x - width : one.x - width / 2;
  return { left, right: left + width, top: one.y - 7, bottom: one.y + 7, text: one.style.text };
};

describe('drawMileage', () => {
  it.each(names.flatMap((name) => widths.map((width) => [name, width] as const)))(
    'lets no label of %s cover another or leave the drawing at %i px',
    (name, width) => {
      const whole = viewOf(name).whole;
      for (const range of [undefined, whole, { fromKm: whole.toKm - 9000, toKm: whole.toKm }]) {
        const { words, view } = draw(name, width, undefined, range);
        const { heightPx } = layMileage(view, width);
        const boxes = words.map(boxOf);
        for (const box of boxes) {
          expect(box.left, box.text).toBeGreaterThanOrEqual(-1);
          expect(box.right, box.text).toBeLessThanOrEqual(width + 1);
          expect(box.top, box.text).toBeGreaterThanOrEqual(-2);
          expect(box.bottom, box.text).toBeLessThanOrEqual(heightPx);
        }
        boxes.forEach((one, i) => {
          for (const other of boxes.slice(i + 1)) {
            const isApart =
              one.right <= other.left ||
              other.right <= one.left ||
              one.bottom <= other.top ||
              other.bottom <= one.top;
            expect(isApart, `${one.text} | ${other.text}`).toBe(true);
          }
        });
      }
    },
  );

  it('nests the bands of the forecast and colours them by grade', () => {
    const { shape } = draw('drifting');
    const heights = ['fan-50', 'fan-80', 'fan-95'].map((id) => {
      const fan = shape(id);
      if (fan?.type !== 'polygon') throw new Error(`${id} is missing`);
      expect(fan.style.fill).toBe('--grade-book');
      const ys = fan.shape.points.filter(([x]) => x === fan.shape.points[4]?.[0]).map(([, y]) => y);
      return Math.max(...ys) - Math.min(...ys);
    });
    expect(heights[0]).toBeLessThan(heights[1]!);
    expect(heights[1]).toBeLessThan(heights[2]!);
  });

  it('lays the distance on the limit, from p10 to p90 after now', () => {
    const { shape, view } = draw('drifting');
    const bar = shape('crossing');
    const limit = shape('limit');
    if (bar?.type !== 'rect' || limit?.type !== 'line') throw new Error('crossing or limit is missing');
    expect(bar.shape.y + bar.shape.height / 2).toBeCloseTo(limit.shape.y1);
    const perPx = (view.first.toKm - view.first.fromKm) / layMileage(view, 1216).main.width;
    expect(bar.shape.width * perPx).toBeCloseTo(5200 - 1900, 0);
  });

  it('keeps every strip on the pixels of the large plot', () => {
    const { option } = draw('lives');
    const grids = option.grid as { left: number; width: number }[];
    expect(new Set(grids.map((grid) => `${grid.left} ${grid.width}`)).size).toBe(1);
    const axes = option.xAxis as { min: number; max: number }[];
    expect(new Set(axes.map((axis) => `${axis.min} ${axis.max}`)).size).toBe(1);
  });

  it('draws no forecast and no bar for a steady vehicle', () => {
    const { shape } = draw('steady');
    expect(shape('fan-80')).toBeUndefined();
    expect(shape('crossing')).toBeUndefined();
    expect(shape('limit')).toBeDefined();
  });

  it('draws no bar on a limit that is passed, but what lies ahead of it', () => {
    const { shape } = draw('past');
    expect(shape('crossing')).toBeUndefined();
    expect(shape('fan-80')).toBeDefined();
  });

  it('never carries a fit over the border of a life', () => {
    const { option, view } = draw('lives');
    const fits = (option.series as { id: string; data: [number, number][] }[]).filter((one) =>
      one.id.startsWith('fit-main-'),
    );
    expect(fits).toHaveLength(3);
    for (const life of view.series.lives) {
      const fit = fits.find((one) => one.id === `fit-main-${life.life}`);
      const kms = fit?.data.map(([km]) => km) ?? [];
      expect(Math.min(...kms)).toBeGreaterThanOrEqual(life.fitted_km);
      expect(Math.max(...kms)).toBeLessThanOrEqual(life.removed_km ?? view.nowKm);
    }
  });

  it('says that a limit without a platform is assumed', () => {
    const { words } = draw('bare');
    expect(words.map((one) => one.style.text)).toContain('limit 150\u00a0rpm, assumed');
  });

  it('puts the axis into miles', () => {
    const { option, words, view } = draw('drifting', 1216, { distance: 'mi', temperature: 'F' });
    const [axis] = option.xAxis as { max: number }[];
    expect(axis?.max).toBeCloseTo(view.first.toKm / 1.609344, 3);
    expect(words.map((one) => one.style.text)).toContain('odometer, thousand mi');
    expect(words.map((one) => one.style.text)).toContain('now 230,655\u00a0mi');
  });

  it('shows a chosen band in place of the reference, without limit and forecast', () => {
    const view = viewOf('drifting', '40-55');
    const option = drawMileage(view, view.whole, frameOf(1216));
    const ids = (option.graphic as { elements: Shape[] }).elements.map((one) => one.id);
    expect(ids).not.toContain('limit');
    expect(ids).not.toContain('fan-80');
    expect(view.topRpm).toBeGreaterThan(Math.max(...view.shown.points.map((point) => point.slip_rpm)));
  });

  it('marks each stretch by its weight and each set-aside tick by its count', () => {
    const { option } = draw('little');
    const series = option.series as { id: string; data: { symbolSize: number | number[] }[] }[];
    const dots = series.find((one) => one.id === 'dots-main')?.data ?? [];
    expect(dots).toHaveLength(viewOf('little').shown.points.length);
    expect(new Set(dots.map((dot) => dot.symbolSize)).size).toBeGreaterThan(1);
    expect(series.find((one) => one.id === 'ticks-rug')?.data.length).toBe(
      viewOf('little').series.set_aside.length,
    );
  });
});

describe('viewMileage', () => {
  it('is null where no stretch was ever summarised', () => {
    const series = makeSeries(vehicleCases.steady!);
    const bare = { ...series, series: series.series.map((one) => ({ ...one, points: [] })) };
    expect(viewMileage(bare, null, { band: null, life: null })).toBeNull();
  });

  it('shows the rise first: it and what is to come take near half of the width', () => {
    const view = viewOf('drifting');
    const onset = 358_300;
    expect((view.first.toKm - onset) / (view.first.toKm - view.first.fromKm)).toBeCloseTo(0.45);
    expect(viewOf('steady').first).toEqual(viewOf('steady').whole);
  });

  it('never leaves an empty end: the axis stops with the forecast', () => {
    const view = viewOf('heavy');
    expect(view.whole.toKm).toBeLessThanOrEqual(view.series.forecast?.points.at(-1)?.odometer_km ?? 0);
  });
});
