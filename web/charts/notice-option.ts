import type { ReplayFailure, ReplayResult } from '#server/contract/replay.ts';
import { formatKm, formatKmNumber, toReaderDistance } from '#web/format/format-km.ts';
import { formatWhole } from '#web/format/format-number.ts';
import type { Units } from '#web/format/units.ts';
import type { ChartOption } from './chart.tsx';
import type { Frame } from './frame.ts';
import type { NumbersTable } from './numbers.ts';
import { label, line, rect, type Shape } from './shapes.ts';
import { roundTicks } from './ticks.ts';
import { axisTooltip } from './tooltip.ts';

export type NoticeRule = 'list' | 'slip_level' | 'weekly_rise';

const pads = { leftPx: 8, rightPx: 26, topPx: 8, footPx: 44 };
const nameFromBaselinePx = 62;
export const noticeRowPx = 96;
const dotPx = 8;

export const noticeHeight = (rows: number): number => pads.topPx + rows * noticeRowPx + pads.footPx;

const noticeOf = (one: ReplayFailure, rule: NoticeRule): number | null => one[rule]?.notice_km ?? null;

interface Asked {
  result: ReplayResult;
  rules: readonly { rule: NoticeRule; name: string }[];
  /** end of the scale */
  scaleKm: number;
}

/** How far before it came each failure was asked for, one dot each; the limit is at the left end, as on the rails. */
export function noticeOption(
  { result, rules, scaleKm }: Asked,
  { look, widthPx, heightPx, units }: Frame,
): ChartOption {
  const right = widthPx - pads.rightPx;
  const toX = (km: number) => pads.leftPx + (Math.min(km, scaleKm) / scaleKm) * (right - pads.leftPx);
  const text = { color: look.inkSoft, fontFamily: look.fontFamily, fontSize: look.smallPx };
  const ticks = ticksOf(scaleKm, units, Math.max(2, (right - pads.leftPx) / 110));
  const baseOf = (row: number) => pads.topPx + (row + 1) * noticeRowPx - 14;
  const plotPx = heightPx - pads.topPx - pads.footPx;
  const points = rules.flatMap(({ rule }, row) =>
    stackDots(
      result.came.flatMap((one) => {
        const km = noticeOf(one, rule);
        return km === null ? [] : [{ one, km, xPx: toX(km) }];
      }),
    ).map((dot) => ({ ...dot, y: baseOf(row) - 6 - dot.level * dotPx, rule })),
  );
  return {
    grid: { left: pads.leftPx, right: pads.rightPx, top: pads.topPx, bottom: pads.footPx },
    textStyle: { fontFamily: look.fontFamily },
    tooltip: { ...axisTooltip(look), trigger: 'item' },
    xAxis: {
      type: 'value',
      min: 0,
      max: scaleKm,
      axisTick: { show: false, customValues: ticks },
      axisLabel: {
        ...text,
        customValues: ticks,
        formatter: (km: number) => formatWhole(toReaderDistance(km, units)),
      },
      axisLine: { show: false },
      splitLine: { show: false },
    },
    yAxis: { type: 'value', min: 0, max: plotPx, show: false },
    series: [
      {
        id: 'dots',
        type: 'scatter',
        z: 5,
        itemStyle: { color: look.ink, borderColor: look.paper, borderWidth: 0.5, opacity: 0.9 },
        data: points.map(({ one, km, y }) => ({
          name: one.vehicle,
          value: [Math.min(km, scaleKm), pads.topPx + plotPx - y],
          symbol: km > scaleKm ? 'triangle' : 'circle',
          ...(km > scaleKm ? { symbolRotate: -90 } : {}),
          symbolSize: dotPx - 1,
        })),
        tooltip: {
          formatter: ({ dataIndex }: { dataIndex: number }) => {
            const dot = points[dataIndex];
            if (dot === undefined) return '';
            const days = dot.one[dot.rule]?.notice_days ?? 0;
            const unit = dot.one.vehicle.replaceAll('&', '&amp;').replaceAll('<', '&lt;');
            return `<b>${unit}</b><br>${formatKm(dot.km, units)}, ${formatWhole(days)} days before`;
          },
        },
      },
    ],
    graphic: {
      elements: [
        ...rules.flatMap(({ rule, name }, row) =>
          drawRail({ result, rule, name, base: baseOf(row), toX, right, scaleKm }, look, units),
        ),
        label(
          'x-title',
          {
            text: `${units.distance} of notice`,
            x: right,
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

interface Rail {
  result: ReplayResult;
  rule: NoticeRule;
  name: string;
  base: number;
  toX: (km: number) => number;
  right: number;
  scaleKm: number;
}

/** Base, limit at the left end, horizon, p10 to p90 thick, p50 notched, and in words what was found. */
function drawRail(
  { result, rule, name, base, toX, right }: Rail,
  look: Frame['look'],
  units: Units,
): Shape[] {
  const score = result.scores.find((one) => one.rule === rule);
  const spread = score?.notice_km ?? null;
  const horizon = toX(result.horizon_km);
  const middle = spread === null ? '' : `, ${formatKm(spread.p50, units)} in the middle`;
  const words = `${name}: ${formatWhole(score?.found ?? 0)} of ${formatWhole(result.failures)}${middle}`;
  return [
    line(`${rule}-base`, 'ground', [toX(0), base], [right, base], { stroke: look.hairlineStrong }),
    line(`${rule}-limit`, 'over', [toX(0), base - 12], [toX(0), base + 8], {
      stroke: look.ink,
      lineWidth: 2.5,
    }),
    line(`${rule}-horizon`, 'ground', [horizon, base - 12], [horizon, base + 8], {
      stroke: look.hairlineStrong,
      lineDash: [2, 3],
    }),
    ...(spread === null
      ? []
      : [
          rect(
            `${rule}-span`,
            'band',
            {
              x: toX(spread.p10),
              y: base - 1,
              width: Math.max(2, toX(spread.p90) - toX(spread.p10)),
              height: 6,
            },
            { fill: look.inkSoft, opacity: 0.5 },
          ),
          line(`${rule}-notch`, 'over', [toX(spread.p50), base - 3], [toX(spread.p50), base + 7], {
            stroke: look.ink,
            lineWidth: 2,
          }),
        ]),
    label(
      `${rule}-name`,
      { text: words, x: toX(0), y: base - nameFromBaselinePx, color: look.ink, strong: rule === 'list' },
      look,
    ),
  ];
}

/** Dots that would lie on one another stand above each other; high heaps grow no further than the row. */
function stackDots<T extends { xPx: number }>(dots: readonly T[]): (T & { level: number })[] {
  const mostLevels = Math.floor((nameFromBaselinePx - 22) / dotPx) + 1;
  const placed: (T & { level: number })[] = [];
  for (const dot of dots.toSorted((a, b) => a.xPx - b.xPx)) {
    const near = placed.filter((one) => dot.xPx - one.xPx < dotPx);
    const free = Array.from({ length: mostLevels }, (_, level) => level).find((level) =>
      near.every((one) => one.level !== level),
    );
    placed.push({ ...dot, level: free ?? mostLevels - 1 });
  }
  return placed;
}

function ticksOf(scaleKm: number, units: Units, about: number): number[] {
  const perKm = toReaderDistance(1, units);
  return roundTicks(0, scaleKm * perKm, about).map((shown) => shown / perKm);
}

export function listNoticeNumbers({ result, rules }: Omit<Asked, 'scaleKm'>, units: Units): NumbersTable[] {
  const figure = (title: string) => ({ title, kind: 'figure' as const });
  return [
    {
      caption: `Notice, ${units.distance}`,
      columns: [
        { title: 'vehicle', kind: 'word' },
        { title: 'came', kind: 'word' },
        ...rules.map(({ name }) => figure(name)),
      ],
      rows: result.came.map((one) => [
        one.vehicle,
        one.day,
        ...rules.map(({ rule }) => formatKmNumber(noticeOf(one, rule), units)),
      ]),
    },
  ];
}
