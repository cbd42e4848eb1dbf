import type { VehicleSeries } from '#server/contract/vehicle.ts';
import { formatKmRange } from '#web/format/format-km.ts';
import { clipBand } from './clip-band.ts';
import type { MileagePlot } from './mileage-plot.ts';
import { label, line, polygon, polyline, rect, type Shape } from './shapes.ts';
import { textWidth } from './text-width.ts';

type Forecast = NonNullable<VehicleSeries['forecast']>;

const bands = [
  { id: 'fan-95', low: 'p2_5', high: 'p97_5', opacity: 0.13 },
  { id: 'fan-80', low: 'p10', high: 'p90', opacity: 0.15 },
  { id: 'fan-50', low: 'p25', high: 'p75', opacity: 0.2 },
] as const;

/** Nested bands of 50, 80 and 95 % into the kilometres to come, in the tone of the grade. */
export function drawForecast(plot: MileagePlot): Shape[] {
  const { forecast } = plot.view.series;
  if (forecast === null || !plot.view.isReference) return [];
  const tone = plot.frame.look.grade[plot.view.grade];
  const shapes: Shape[] = [];
  for (const band of bands) {
    const edges = clipped(plot, forecast, band.low, band.high);
    if (edges.length < 2) continue;
    const upper = edges.map((edge): [number, number] => [plot.toX(edge.x), plot.toY(edge.high)]);
    const lower = edges.map((edge): [number, number] => [plot.toX(edge.x), plot.toY(edge.low)]);
    shapes.push(
      polygon(band.id, 'band', [...upper, ...lower.reverse()], { fill: tone, opacity: band.opacity }),
    );
  }
  const middle = clipped(plot, forecast, 'p50', 'p50')
    .filter((edge) => edge.high < plot.view.topRpm)
    .map((edge): [number, number] => [plot.toX(edge.x), plot.toY(edge.high)]);
  if (middle.length > 1)
    shapes.push(polyline('fan-middle', 'over', middle, { stroke: tone, lineWidth: 1.5, lineDash: [5, 3] }));
  return [...shapes, ...drawCrossing(plot, forecast)];
}

function clipped(
  plot: MileagePlot,
  forecast: Forecast,
  low: (typeof bands)[number]['low'] | 'p50',
  high: (typeof bands)[number]['high'] | 'p50',
) {
  return clipBand(
    forecast.points.map((point) => ({ x: point.odometer_km, low: point[low], high: point[high] })),
    {
      left: plot.range.fromKm,
      right: plot.range.toKm,
      low: plot.view.lowRpm,
      high: plot.view.topRpm,
    },
  );
}

const thickPx = 9;

/** The distance rail laid on the limit itself: p10 to p90 thick, p50 notched, where the fan meets it. */
function drawCrossing(plot: MileagePlot, forecast: Forecast): Shape[] {
  const { view, frame, range, rightPx } = plot;
  const { p10, p50, p90 } = forecast.km_to_limit;
  if (p10 === null || p90 === 0) return [];
  const fromKm = Math.max(view.nowKm + p10, range.fromKm);
  const toKm = Math.min(p90 === null ? range.toKm : view.nowKm + p90, range.toKm);
  if (toKm <= fromKm) return [];
  const y = plot.toY(view.series.limit_rpm);
  const left = plot.toX(fromKm);
  const right = plot.toX(toKm);
  const tone = frame.look.grade[view.grade];
  const shapes: Shape[] = [
    rect(
      'crossing',
      'over',
      { x: left, y: y - thickPx / 2, width: Math.max(right - left, 2), height: thickPx },
      {
        fill: tone,
      },
    ),
  ];
  if (p50 !== null && plot.isInRange(view.nowKm + p50)) {
    const x = plot.toX(view.nowKm + p50);
    shapes.push(
      line('crossing-middle', 'over', [x, y - thickPx / 2 - 1], [x, y + thickPx / 2 + 1], {
        stroke: frame.look.paper,
        lineWidth: 2.5,
      }),
    );
  }
  const text = formatKmRange(p10, p90, frame.units);
  const half = textWidth(text, frame.look.smallPx) / 2 + 4;
  // Clear of the line that marks now, where there is room.
  const x = Math.min(Math.max((left + right) / 2, plot.toX(view.nowKm) + half), rightPx - half);
  shapes.push(
    label(
      'crossing-words',
      { text, x, y: y - thickPx / 2 - 10, color: tone, align: 'center', strong: true },
      frame.look,
    ),
  );
  return shapes;
}
