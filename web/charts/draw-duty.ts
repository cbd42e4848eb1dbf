import type { VehicleSeries } from '#server/contract/vehicle.ts';
import { formatKm } from '#web/format/format-km.ts';
import { formatTenths, formatWhole } from '#web/format/format-number.ts';
import type { Units } from '#web/format/units.ts';
import type { ChartOption } from './chart.tsx';
import type { Frame } from './frame.ts';
import type { NumbersTable } from './numbers.ts';
import { label, line, type Shape } from './shapes.ts';
import { textWidth } from './text-width.ts';
import { roundTicks } from './ticks.ts';

export type ByDuty = NonNullable<VehicleSeries['by_duty']>;
type DutyPoint = ByDuty['now'][number];

const lowestDuty = 35;
const highestDuty = 100;
const gutterPx = 14;
const yTitle = 'slip, rpm';
const leftPx = 40;
const titleY = 10;
const samplePx = 14;
const besideSamplePx = 6;
const betweenKeysPx = 16;
/** The two lines stand a little apart, so that equal ones are both seen. */
const besidePct = 0.6;

export const sayHealthy = (byDuty: ByDuty, units: Units): string =>
  `healthy, ${formatKm(byDuty.healthy_km[1] - byDuty.healthy_km[0], units)}`;
export const sayNow = (byDuty: ByDuty, units: Units): string =>
  `last ${formatKm(byDuty.now_km[1] - byDuty.now_km[0], units)}`;

/** Slip against commanded duty in the healthy part of the life and in the last kilometres, with 95 % intervals. */
export function drawDuty(byDuty: ByDuty, reference: number, frame: Frame): ChartOption {
  const { look, units, widthPx, heightPx } = frame;
  const rightPx = widthPx - gutterPx;
  const key = placeKey(
    [
      { id: 'healthy', text: sayHealthy(byDuty, units), ink: look.inkSoft, stroke: look.hairlineStrong },
      { id: 'now', text: sayNow(byDuty, units), ink: look.ink, stroke: look.ink, strong: true },
    ],
    rightPx,
    rightPx - leftPx - textWidth(yTitle, look.smallPx),
    look.smallPx,
  );
  const topPx = Math.max(...key.map((one) => one.yPx)) + 20;
  const box = { left: leftPx, top: topPx, width: rightPx - leftPx, height: heightPx - topPx - 42 };
  const top = Math.max(20, ...[...byDuty.healthy, ...byDuty.now].map((point) => point.high)) * 1.06;
  const low = Math.min(0, ...[...byDuty.healthy, ...byDuty.now].map((point) => point.low));
  const toX = (duty: number) => box.left + ((duty - lowestDuty) / (highestDuty - lowestDuty)) * box.width;
  const toY = (rpm: number) => box.top + box.height - ((rpm - low) / (top - low)) * box.height;
  const yTicks = roundTicks(low, top, box.height / 36);
  const text = { color: look.inkSoft, fontFamily: look.fontFamily, fontSize: look.smallPx };
  const axis = {
    axisTick: { show: false },
    splitLine: { lineStyle: { color: look.hairline, opacity: 0.7 } },
  };
  return {
    grid: [{ id: 'duty', ...box }],
    xAxis: [
      {
        type: 'value',
        min: lowestDuty,
        max: highestDuty,
        ...axis,
        axisTick: { show: false, customValues: [40, 60, 80, 100] },
        axisLabel: { ...text, customValues: [40, 60, 80, 100] },
        axisLine: { onZero: false, lineStyle: { color: look.hairlineStrong } },
      },
    ],
    yAxis: [
      {
        type: 'value',
        min: low,
        max: top,
        ...axis,
        axisTick: { show: false, customValues: yTicks },
        axisLabel: { ...text, customValues: yTicks },
        axisLine: { show: false },
      },
    ],
    series: [
      drawLine('healthy', shift(byDuty.healthy, -besidePct), look.hairlineStrong, look.paper),
      drawLine('now', shift(byDuty.now, besidePct), look.ink, look.ink),
    ],
    graphic: {
      elements: [
        line('reference', 'band', [toX(reference), box.top], [toX(reference), box.top + box.height], {
          stroke: look.hairlineStrong,
          lineDash: [2, 3],
        }),
        ...drawWhiskers('healthy', shift(byDuty.healthy, -besidePct), look.hairlineStrong, toX, toY),
        ...drawWhiskers('now', shift(byDuty.now, besidePct), look.ink, toX, toY),
        ...key.flatMap(({ id, text, ink, stroke, strong, xPx, yPx }) => [
          line(`${id}-sample`, 'label', [xPx, yPx], [xPx + samplePx, yPx], { stroke, lineWidth: 2 }),
          label(
            `${id}-words`,
            { text, x: xPx + samplePx + besideSamplePx, y: yPx, color: ink, strong },
            look,
          ),
        ]),
        label('y-title', { text: yTitle, x: box.left, y: titleY, color: look.inkSoft }, look),
        label(
          'x-title',
          {
            text: 'commanded duty, %',
            x: box.left + box.width,
            y: heightPx - 9,
            color: look.inkSoft,
            align: 'right',
          },
          look,
        ),
      ],
    },
  };
}

interface Key {
  id: string;
  text: string;
  ink: string;
  stroke: string;
  strong?: boolean;
}

/**
 * Both lines named above the plot and up to its right edge, for their ends may lie on one another: beside one another
 * where `widthPx` has room for them, else below one another.
 */
function placeKey(keys: readonly Key[], rightPx: number, widthPx: number, sizePx: number) {
  const widths = keys.map((one) => samplePx + besideSamplePx + textWidth(one.text, sizePx));
  const isOneRow = widths.reduce((sum, width) => sum + width + betweenKeysPx, 0) <= widthPx;
  return keys.map((one, i) => {
    const ownWidths = isOneRow ? widths.slice(i) : widths.slice(i, i + 1);
    const ownPx = ownWidths.reduce((sum, width) => sum + width, 0) + betweenKeysPx * (ownWidths.length - 1);
    return {
      ...one,
      strong: one.strong === true,
      xPx: rightPx - ownPx,
      yPx: isOneRow ? titleY : titleY + 17 * i,
    };
  });
}

const shift = (points: readonly DutyPoint[], byPct: number): DutyPoint[] =>
  points.map((point) => ({ ...point, duty_pct: point.duty_pct + byPct }));

const drawLine = (id: string, points: readonly DutyPoint[], color: string, fill: string) => ({
  id,
  type: 'line' as const,
  silent: true,
  z: 4,
  symbol: 'circle',
  symbolSize: 7,
  lineStyle: { color, width: 1.5 },
  itemStyle: { color: fill, borderColor: color, borderWidth: 1.5 },
  data: points.map((point) => [point.duty_pct, point.slip_rpm]),
});

const drawWhiskers = (
  id: string,
  points: readonly DutyPoint[],
  color: string,
  toX: (duty: number) => number,
  toY: (rpm: number) => number,
): Shape[] =>
  points.map((point, i) =>
    line(
      `${id}-whisker-${i}`,
      'band',
      [toX(point.duty_pct), toY(point.low)],
      [toX(point.duty_pct), toY(point.high)],
      {
        stroke: color,
        lineWidth: 2,
      },
    ),
  );

export function listDutyNumbers(byDuty: ByDuty, units: Units): NumbersTable[] {
  const rows = (when: string, points: readonly DutyPoint[]) =>
    points.map((point) => [
      when,
      formatWhole(point.duty_pct),
      formatTenths(point.slip_rpm),
      formatTenths(point.low),
      formatTenths(point.high),
      formatWhole(point.n),
    ]);
  return [
    {
      caption: 'Slip against commanded duty, with 95 % intervals',
      columns: [
        { title: 'when', kind: 'word' },
        { title: 'command %', kind: 'figure' },
        { title: 'slip rpm', kind: 'figure' },
        { title: 'low', kind: 'figure' },
        { title: 'high', kind: 'figure' },
        { title: 'readings', kind: 'figure' },
      ],
      rows: [...rows(sayHealthy(byDuty, units), byDuty.healthy), ...rows(sayNow(byDuty, units), byDuty.now)],
    },
  ];
}
