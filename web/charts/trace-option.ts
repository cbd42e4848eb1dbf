import type { RoadTrace } from '#server/contract/test-steps.ts';
import { formatElapsed } from '#web/format/format-elapsed.ts';
import { formatTenths, formatWhole } from '#web/format/format-number.ts';
import type { ChartOption } from './chart.tsx';
import type { Frame } from './frame.ts';
import type { Look } from './look.ts';
import { type Box, placeFree } from './place-free.ts';
import { label, line, rect, type Shape } from './shapes.ts';
import { textWidth } from './text-width.ts';
import { roundTicks } from './ticks.ts';
import { axisTooltip, firstIndex } from './tooltip.ts';
import { layOutTrace, type TracePlot } from './trace-plot.ts';

const lineHeightPx = 17;
const asideTop = 5;
const asideHeight = 5;
/** More levels than these have no room for their unit; the axis names it. */
const mostWithUnit = 4;
/** Spans shorter than this would not be seen. */
const leastPx = 1.5;

/**
 * A recorded road test: slip over time, dark where it was steady, with the level of each steady stretch; the command as a
 * shade behind it, set-aside time along the axis.
 */
export function traceOption(trace: RoadTrace, frame: Frame): ChartOption {
  const { look, widthPx, heightPx } = frame;
  const plot = layOutTrace(trace, frame);
  const { box, width, height } = plot;
  const text = { color: look.inkSoft, fontFamily: look.fontFamily, fontSize: look.smallPx };
  const slipTicks = roundTicks(plot.low, plot.top, height / 44);
  const plain = { type: 'line' as const, symbol: 'none', connectNulls: false };
  const isSteady = trace.seconds.map((at) => trace.steady.some((one) => at >= one.from_s && at < one.to_s));
  const grid = { left: box.left, top: box.top, width, height };
  return {
    grid: [{ id: 'trace', ...grid }],
    textStyle: { fontFamily: look.fontFamily },
    tooltip: { ...axisTooltip(look), formatter: (items) => tellRow(trace, firstIndex(items)) },
    xAxis: [
      {
        type: 'value',
        min: plot.fromS,
        max: plot.toS,
        splitLine: { show: false },
        axisLine: { onZero: false, lineStyle: { color: look.hairlineStrong } },
        axisTick: { show: false, customValues: plot.timeTicks },
        axisLabel: {
          ...text,
          customValues: plot.timeTicks,
          margin: asideTop + asideHeight + 9,
          formatter: (seconds: number) => formatElapsed(seconds),
        },
      },
    ],
    yAxis: [
      {
        type: 'value',
        min: plot.low,
        max: plot.top,
        axisTick: { show: false, customValues: slipTicks },
        splitLine: { lineStyle: { color: look.hairline, opacity: 0.7 } },
        axisLabel: { ...text, customValues: slipTicks, formatter: (rpm: number) => formatWhole(rpm) },
        axisLine: { show: false },
      },
      {
        type: 'value',
        min: 0,
        max: 100,
        position: 'right',
        axisTick: { show: false, customValues: [0, 50, 100] },
        splitLine: { show: false },
        axisLabel: { ...text, color: look.inkFaint, customValues: [0, 50, 100] },
        axisLine: { show: false },
      },
    ],
    series: [
      {
        ...plain,
        id: 'command',
        yAxisIndex: 1,
        silent: true,
        z: 0,
        lineStyle: { width: 0 },
        areaStyle: { color: look.hairline, opacity: 0.55, origin: 0 },
        data: trace.seconds.map((at, i) => [at, trace.duty_pct[i] ?? null]),
      },
      {
        ...plain,
        id: 'slip',
        z: 3,
        clip: true,
        lineStyle: { color: look.hairlineStrong, width: 1 },
        itemStyle: { color: look.hairlineStrong },
        data: trace.seconds.map((at, i) => [at, trace.slip_rpm[i] ?? null]),
      },
      {
        ...plain,
        id: 'steady',
        silent: true,
        z: 4,
        clip: true,
        lineStyle: { color: look.ink, width: 1 },
        data: trace.seconds.map((at, i) => [at, isSteady[i] === true ? (trace.slip_rpm[i] ?? null) : null]),
      },
    ],
    graphic: {
      elements: [
        ...drawTitles(plot, widthPx, heightPx, look),
        ...drawAside(trace, plot, look),
        ...drawLevels(trace, plot, look),
      ],
    },
  };
}

function drawTitles(plot: TracePlot, widthPx: number, heightPx: number, look: Look): Shape[] {
  const { box, beyondRpm } = plot;
  const command = 'command, %';
  const room = widthPx - textWidth(command, look.smallPx) - 24;
  const title =
    [
      ...(beyondRpm === null ? [] : [`slip, rpm; off the scale up to ${formatWhole(beyondRpm)}`]),
      'slip, rpm',
    ].find((one) => textWidth(one, look.smallPx) <= room) ?? 'rpm';
  return [
    label('y-title', { text: title, x: 0, y: 10, color: look.inkSoft }, look),
    label('command-title', { text: command, x: widthPx, y: 10, color: look.inkFaint, align: 'right' }, look),
    label(
      'x-title',
      {
        text: 'time into the recording, min:s',
        x: box.right,
        y: heightPx - 9,
        color: look.inkSoft,
        align: 'right',
      },
      look,
    ),
  ];
}

/** What was set aside, as ticks below the axis; a gap is as empty there as it is above. */
function drawAside({ set_aside, gaps }: RoadTrace, plot: TracePlot, look: Look): Shape[] {
  const { box, toX } = plot;
  const y = box.bottom + asideTop;
  const shapes: Shape[] = set_aside
    .filter(({ reason }) => reason !== 'gap')
    .map(({ from_s, to_s }, i) =>
      rect(
        `aside-${i}`,
        'band',
        { x: toX(from_s), y, width: Math.max(leastPx, toX(to_s) - toX(from_s)), height: asideHeight },
        { fill: look.hairlineStrong, opacity: 0.55 },
      ),
    );
  if (shapes.length > 0)
    shapes.push(
      label(
        'aside-words',
        { text: 'aside', x: box.left - 7, y: y + asideHeight / 2, color: look.inkFaint, align: 'right' },
        look,
      ),
    );
  gaps.forEach(({ from_s, to_s }, i) => {
    for (const [end, at] of [
      ['from', from_s],
      ['to', to_s],
    ] as const)
      shapes.push(
        line(`gap-${i}-${end}`, 'band', [toX(at), box.top], [toX(at), box.bottom], {
          stroke: look.hairlineStrong,
          lineDash: [1.5, 3],
        }),
      );
    const words = `${formatWhole(to_s - from_s)} s lost`;
    if (textWidth(words, look.smallPx) + 6 <= toX(to_s) - toX(from_s))
      shapes.push(
        label(
          `gap-${i}-words`,
          {
            text: words,
            x: (toX(from_s) + toX(to_s)) / 2,
            y: box.bottom - 11,
            color: look.inkFaint,
            align: 'center',
          },
          look,
        ),
      );
  });
  return shapes;
}

/** The limit, and the level of each steady stretch; those with the most slip are named first, the others where room is. */
function drawLevels(trace: RoadTrace, plot: TracePlot, look: Look): Shape[] {
  const { steady, limit_rpm } = trace;
  const { box, toX, toY } = plot;
  /** Where the slip itself runs between two places, so that no word covers it. */
  const findEnvelope = (left: number, right: number, y: number) => {
    let [aboveY, belowY] = [y - 3, y + 3];
    trace.seconds.forEach((at, i) => {
      const [x, slip] = [toX(at), trace.slip_rpm[i]];
      if (slip == null || x < left - 2 || x > right + 2) return;
      aboveY = Math.min(aboveY, toY(slip));
      belowY = Math.max(belowY, toY(slip));
    });
    return { aboveY, belowY };
  };
  const limitY = Math.round(toY(limit_rpm)) + 0.5;
  const shapes: Shape[] = [
    line('limit', 'over', [box.left, limitY], [box.right, limitY], {
      stroke: look.grade.hold,
      lineDash: [5, 3],
    }),
  ];
  const bars = steady.map((one) => {
    const y = toY(Math.min(one.slip_rpm, plot.top));
    return { left: toX(one.from_s), right: toX(one.to_s), top: y - 3, bottom: y + 3 };
  });
  const taken: Box[] = [...bars];
  const limitWords = `limit ${formatWhole(limit_rpm)}`;
  const limitWidth = textWidth(limitWords, look.smallPx);
  // Without a free place it stands at the right end all the same: the line must have its name.
  const limitAt = (right: boolean, above: boolean) =>
    boxOf(right ? box.right - limitWidth - 4 : box.left + 4, limitY + (above ? -9 : 10), limitWidth);
  const ends = [limitAt(false, true), limitAt(true, true), limitAt(false, false), limitAt(true, false)];
  const limitBox = placeFree(ends, box, taken) ?? ends[1];
  if (limitBox !== undefined) {
    taken.push(limitBox, { left: box.left, right: box.right, top: limitY - 2, bottom: limitY + 2 });
    shapes.push(
      label(
        'limit-words',
        { text: limitWords, x: limitBox.left, y: middleOf(limitBox), color: look.grade.hold },
        look,
      ),
    );
  }
  const unit = steady.length > mostWithUnit ? '' : ' rpm';
  steady
    .map((one, i) => ({ one, i, bar: bars[i] }))
    .toSorted((a, b) => b.one.slip_rpm - a.one.slip_rpm)
    .forEach(({ one, i, bar }) => {
      if (bar === undefined) return;
      const y = (bar.top + bar.bottom) / 2;
      shapes.push(
        line(`steady-${i}`, 'over', [bar.left, y], [Math.max(bar.right, bar.left + 2), y], {
          stroke: look.ink,
          lineWidth: 4,
        }),
      );
      const place = placeFree(
        [`${formatWhole(one.slip_rpm)}${unit}`].flatMap((words) => {
          const width = textWidth(words, look.smallPx);
          const middle = (bar.left + bar.right - width) / 2;
          const lefts = [middle, bar.left, bar.right - width].map((left) =>
            Math.min(Math.max(left, box.left + 2), box.right - width - 2),
          );
          return lefts.flatMap((left) => {
            const { aboveY, belowY } = findEnvelope(left, left + width, y);
            return [aboveY - 10, belowY + 10].map((at) => ({ ...boxOf(left, at, width), words }));
          });
        }),
        box,
        taken,
      );
      if (place === null) return;
      shapes.push(
        label(
          `steady-${i}-words`,
          { text: place.words, x: place.left, y: middleOf(place), color: look.ink, strong: true },
          look,
        ),
      );
    });
  return shapes;
}

const boxOf = (left: number, middleY: number, width: number): Box => ({
  left,
  right: left + width,
  top: middleY - lineHeightPx / 2,
  bottom: middleY + lineHeightPx / 2,
});
const middleOf = ({ top, bottom }: Box): number => (top + bottom) / 2;

function tellRow(trace: RoadTrace, i: number): string {
  const at = trace.seconds[i];
  const [slip, duty] = [trace.slip_rpm[i], trace.duty_pct[i]];
  if (at === undefined) return '';
  const isIn = (one: { from_s: number; to_s: number }) => at >= one.from_s && at < one.to_s;
  const aside = trace.set_aside.find(isIn);
  const steady = trace.steady.find(isIn);
  return [
    `<b>${formatElapsed(at)}</b>`,
    ...(slip == null || duty == null ? [] : [`${formatTenths(slip)} rpm at ${formatWhole(duty)} % command`]),
    ...(steady === undefined ? [] : [`steady for ${formatWhole(steady.to_s - steady.from_s)} s`]),
    ...(aside === undefined ? [] : [`set aside: ${aside.says}`]),
  ].join('<br>');
}
