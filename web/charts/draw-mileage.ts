import type { BandSeries, SeriesPoint } from '#server/contract/vehicle.ts';
import { formatThousands, toReaderDistance } from '#web/format/format-km.ts';
import type { ChartOption } from './chart.tsx';
import type { Frame } from './frame.ts';
import { drawEnds, drawStripNames } from './mileage-ends.ts';
import { drawForecast } from './mileage-forecast.ts';
import { drawGround } from './mileage-ground.ts';
import type { Rect } from './mileage-layout.ts';
import { drawMarks } from './mileage-marks.ts';
import { type MileagePlot, plotMileage } from './mileage-plot.ts';
import type { KmRange, MileageView } from './mileage-view.ts';
import { label, type Shape } from './shapes.ts';
import { roundTicks } from './ticks.ts';

type Part<K extends 'grid' | 'xAxis' | 'yAxis' | 'series'> = Extract<
  ChartOption[K],
  readonly unknown[]
>[number];
type SeriesPart = Part<'series'>;

/** Slip against mileage: the large plot, a strip per command band and what was set aside, on one axis. */
export function drawMileage(view: MileageView, range: KmRange, frame: Frame): ChartOption {
  const plot = plotMileage(view, range, frame);
  const { layout } = plot;
  const areas: Area[] = [
    { id: 'main', rect: layout.main, low: view.lowRpm, top: view.topRpm, role: 'main' },
    { id: 'rug', rect: layout.rug, low: 0, top: 1, role: 'ticks' },
    ...layout.strips.map(
      (rect, i): Area => ({ id: `strip-${i}`, rect, low: 0, top: view.stripTopRpm, role: 'strip' }),
    ),
    ...layout.setAside.map(
      (row): Area => ({ id: `aside-${row.reason}`, rect: row.rect, low: 0, top: 1, role: 'ticks' }),
    ),
  ];
  const ticks = ticksOf(plot);
  const series: SeriesPart[] = [
    ...drawStretches(plot, view.shown, 'main', 1),
    ...drawFits(plot, view.shown, 'main'),
    drawTicks(plot, 'rug', layout.rug.height, view.series.set_aside),
    ...view.strips.flatMap((strip, i) => [
      ...drawStretches(plot, strip, `strip-${i}`, 0.62),
      ...drawFits(plot, strip, `strip-${i}`),
    ]),
    ...layout.setAside.map((row) =>
      drawTicks(
        plot,
        `aside-${row.reason}`,
        row.rect.height,
        view.series.set_aside.filter((one) => one.reason === row.reason),
      ),
    ),
  ];
  return {
    grid: areas.map(({ id, rect }) => ({ id, ...rect, containLabel: false, show: false })),
    xAxis: areas.map((area) => drawXAxis(plot, area, ticks)),
    yAxis: areas.map((area) => drawYAxis(plot, area)),
    series,
    graphic: { elements: drawShapes(plot) },
  };
}

interface Area {
  id: string;
  rect: Rect;
  low: number;
  top: number;
  role: 'main' | 'strip' | 'ticks';
}

function drawShapes(plot: MileagePlot): Shape[] {
  const { layout, frame, rightPx } = plot;
  const { look, units } = frame;
  return [
    ...drawGround(plot),
    ...drawForecast(plot),
    ...drawMarks(plot),
    ...drawEnds(plot),
    ...drawStripNames(plot),
    label(
      'x-title',
      {
        text: `odometer, thousand ${units.distance}`,
        x: rightPx,
        y: layout.rug.top + layout.rug.height + 28,
        color: look.inkSoft,
        align: 'right',
      },
      look,
    ),
  ];
}

const ticksOf = ({ range, frame, layout }: MileagePlot): number[] =>
  roundTicks(
    toReaderDistance(range.fromKm, frame.units),
    toReaderDistance(range.toKm, frame.units),
    layout.main.width / (layout.isNarrow ? 64 : 96),
  );

function drawXAxis({ range, frame, layout }: MileagePlot, area: Area, ticks: number[]): Part<'xAxis'> {
  const { look, units } = frame;
  const isLast = area.rect === (layout.setAside.at(-1)?.rect ?? layout.strips.at(-1));
  const hasLabels = area.role === 'main' || isLast;
  const step = (ticks[1] ?? 0) - (ticks[0] ?? 0);
  return {
    id: `x-${area.id}`,
    gridId: area.id,
    type: 'value',
    min: toReaderDistance(range.fromKm, units),
    max: toReaderDistance(range.toKm, units),
    axisLine: { show: area.role !== 'ticks', onZero: false, lineStyle: { color: look.hairlineStrong } },
    axisTick: { show: false, customValues: ticks },
    splitLine: { show: area.role !== 'ticks', lineStyle: { color: look.hairline, opacity: 0.7 } },
    axisLabel: {
      show: hasLabels,
      customValues: ticks,
      margin: area.role === 'main' ? layout.rug.height + 9 : 8,
      color: look.inkSoft,
      fontFamily: look.fontFamily,
      fontSize: look.smallPx,
      formatter: (value: number) => sayThousands(value, step),
    },
  };
}

/** Ticks closer than a thousand need a decimal: 371.5. */
function sayThousands(value: number, step: number): string {
  if (step >= 1000) return formatThousands(value, { distance: 'km', temperature: 'C' });
  return (value / 1000).toFixed(step >= 100 ? 1 : 2);
}

function drawYAxis({ frame, layout }: MileagePlot, area: Area): Part<'yAxis'> {
  const { look } = frame;
  const ticks =
    area.role === 'main' ? roundTicks(area.low, area.top, area.rect.height / 60) : stripTicks(area.top);
  return {
    id: `y-${area.id}`,
    gridId: area.id,
    type: 'value',
    min: area.low,
    max: area.top,
    axisLine: { show: false },
    axisTick: { show: false, customValues: ticks },
    splitLine: { show: area.role === 'main', lineStyle: { color: look.hairline, opacity: 0.7 } },
    axisLabel: {
      show: area.role !== 'ticks',
      customValues: ticks,
      margin: layout.isNarrow ? 4 : 8,
      color: look.inkSoft,
      fontFamily: look.fontFamily,
      fontSize: look.smallPx,
    },
  };
}

/** Nothing but 0 and one round value well inside: a strip is for its shape. */
function stripTicks(top: number): number[] {
  const most = top * 0.85;
  const size = 10 ** Math.floor(Math.log10(most));
  const step = [5, 2, 1].find((one) => one * size <= most) ?? 1;
  return [0, step * size];
}

/** A dot a stretch, its area the weight of its readings; lives that the reader does not look at are lighter. */
/** What lies above the top of its plot is drawn at the top edge, as a triangle. */
function drawStretches(plot: MileagePlot, band: BandSeries, area: string, scale: number): SeriesPart[] {
  const { view, range, frame } = plot;
  const { look, units } = frame;
  const life = view.chosenLife ?? view.lastLife;
  const topRpm = area === 'main' ? view.topRpm : view.stripTopRpm;
  const size = (point: SeriesPoint) => Math.min(3 + Math.sqrt(point.weight) * 0.85, 10) * scale;
  const near = band.points.filter(
    (point) => point.odometer_km >= range.fromKm && point.odometer_km <= range.toKm,
  );
  return [
    {
      id: `dots-${area}`,
      type: 'scatter',
      xAxisId: `x-${area}`,
      yAxisId: `y-${area}`,
      silent: true,
      z: 3,
      data: near.map((point) => ({
        value: [toReaderDistance(point.odometer_km, units), Math.min(point.slip_rpm, topRpm)],
        symbol: point.slip_rpm > topRpm ? 'triangle' : 'circle',
        symbolSize: size(point),
        itemStyle:
          point.life === life
            ? { color: look.ink, opacity: 0.72 }
            : { color: look.hairlineStrong, opacity: 0.6 },
      })),
    },
  ];
}

function drawFits(plot: MileagePlot, band: BandSeries, area: string): SeriesPart[] {
  const { view, frame } = plot;
  const life = view.chosenLife ?? view.lastLife;
  return band.fits
    .filter((fit) => fit.line.length > 1)
    .map((fit) => ({
      id: `fit-${area}-${fit.life}`,
      type: 'line',
      xAxisId: `x-${area}`,
      yAxisId: `y-${area}`,
      silent: true,
      z: 4,
      symbol: 'none',
      clip: true,
      lineStyle: {
        color: fit.life === life ? frame.look.ink : frame.look.hairlineStrong,
        width: area === 'main' ? 2 : 1.25,
      },
      data: fit.line.map(([km, rpm]) => [toReaderDistance(km, frame.units), rpm]),
    }));
}

/** Faint ticks, taller with more readings, so that absence is visible too. */
function drawTicks(
  { frame, range }: MileagePlot,
  area: string,
  heightPx: number,
  entries: readonly { odometer_km: number; n: number }[],
): SeriesPart {
  const most = Math.max(1, ...entries.map((one) => one.n));
  return {
    id: `ticks-${area}`,
    type: 'scatter',
    xAxisId: `x-${area}`,
    yAxisId: `y-${area}`,
    silent: true,
    z: 3,
    symbol: 'rect',
    itemStyle: { color: frame.look.hairlineStrong, opacity: area === 'rug' ? 0.7 : 0.9 },
    data: entries
      .filter((one) => one.odometer_km >= range.fromKm && one.odometer_km <= range.toKm)
      .map((one) => {
        const share = Math.max(0.25, one.n / most);
        return {
          value: [toReaderDistance(one.odometer_km, frame.units), share / 2],
          symbolSize: [1.5, heightPx * share],
        };
      }),
  };
}
