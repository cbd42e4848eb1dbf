import type { RoadTrace } from '#server/contract/test-steps.ts';
import { formatElapsed } from '#web/format/format-elapsed.ts';
import { formatTenths, formatWhole } from '#web/format/format-number.ts';
import { formatTemperature } from '#web/format/format-temperature.ts';
import type { Units } from '#web/format/units.ts';
import type { ChartOption } from './chart.tsx';
import type { Frame } from './frame.ts';
import type { Look } from './look.ts';
import { type Box, placeFree } from './place-free.ts';
import { label, line, polygon, polyline, type Shape } from './shapes.ts';
import { textWidth } from './text-width.ts';
import { roundTicks } from './ticks.ts';
import { axisTooltip } from './tooltip.ts';

const leftPx = 46;
const rightPx = 14;
const topPx = 30;
const footPx = 42;
const lineHeightPx = 17;
const lowestDuty = 35;
const highestDuty = 100;
const headroom = 1.22;
const mostNamed = 4;
const apartPx = 18;
const dutyTicks = [0, 20, 40, 60, 80, 100];
/** The outermost figures stand for the rest of their band. */
const beyondPct = 7.5;

/** Diameter by the time that a stretch was held: its area is its weight. */
const sizeOf = (seconds: number): number => Math.min(30, Math.max(7, 2.2 * Math.sqrt(seconds)));

/** Slip against command: each steady stretch as a dot, over the range of healthy vehicles. */
export function traceDutyOption(trace: RoadTrace, frame: Frame): ChartOption {
  const { look, units, widthPx, heightPx } = frame;
  const box = { left: leftPx, top: topPx, right: widthPx - rightPx, bottom: heightPx - footPx };
  const from = Math.min(lowestDuty, ...trace.steady.map(({ duty_pct }) => Math.floor(duty_pct / 10) * 10));
  const top =
    headroom *
    Math.max(
      trace.limit_rpm,
      ...trace.steady.map(({ slip_rpm }) => slip_rpm),
      ...trace.healthy.map(({ high_rpm }) => high_rpm),
    );
  // A dot at zero is not cut by the axis.
  const low = Math.min(-0.04 * top, ...trace.steady.map(({ slip_rpm }) => slip_rpm * 1.1));
  const plot: Plot = {
    box,
    toX: (duty) => box.left + ((duty - from) / (highestDuty - from)) * (box.right - box.left),
    toY: (rpm) => box.bottom - ((rpm - low) / (top - low)) * (box.bottom - box.top),
    from,
  };
  const xTicks = dutyTicks.filter((tick) => tick >= from);
  const yTicks = roundTicks(low, top, (box.bottom - box.top) / 44);
  const text = { color: look.inkSoft, fontFamily: look.fontFamily, fontSize: look.smallPx };
  const { trigger: _trigger, axisPointer: _pointer, ...plain } = axisTooltip(look);
  return {
    grid: [
      { id: 'duty', left: box.left, top: box.top, width: box.right - box.left, height: box.bottom - box.top },
    ],
    textStyle: { fontFamily: look.fontFamily },
    tooltip: {
      ...plain,
      trigger: 'item',
      formatter: (item) =>
        tellStretch(trace.steady[(Array.isArray(item) ? item[0] : item)?.dataIndex ?? -1], units),
    },
    xAxis: [
      {
        type: 'value',
        min: from,
        max: highestDuty,
        splitLine: { show: false },
        axisLine: { onZero: false, lineStyle: { color: look.hairlineStrong } },
        axisTick: { show: false, customValues: xTicks },
        axisLabel: { ...text, customValues: xTicks },
      },
    ],
    yAxis: [
      {
        type: 'value',
        min: low,
        max: top,
        axisTick: { show: false, customValues: yTicks },
        splitLine: { lineStyle: { color: look.hairline, opacity: 0.7 } },
        axisLabel: { ...text, customValues: yTicks, formatter: (rpm: number) => formatWhole(rpm) },
        axisLine: { show: false },
      },
    ],
    series: [
      {
        type: 'scatter',
        id: 'steady',
        z: 7,
        itemStyle: { color: look.ink, opacity: 0.6, borderColor: look.paper, borderWidth: 1 },
        data: trace.steady.map((one) => ({
          value: [one.duty_pct, one.slip_rpm],
          symbolSize: sizeOf(one.to_s - one.from_s),
        })),
      },
    ],
    graphic: {
      elements: [
        ...drawRange(trace, plot, look),
        ...drawWords(trace, plot, look),
        label('y-title', { text: 'slip, rpm', x: 0, y: 10, color: look.inkSoft }, look),
        label(
          'x-title',
          {
            text: 'commanded duty, %',
            x: box.right,
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

interface Plot {
  box: Box;
  toX: (duty: number) => number;
  toY: (rpm: number) => number;
  from: number;
}

/** The range of healthy vehicles with its middle, carried to the ends of the outermost bands. */
function drawRange({ healthy, reference_duty_pct }: RoadTrace, plot: Plot, look: Look): Shape[] {
  const { box, toX, toY } = plot;
  const shapes: Shape[] = [
    line('reference', 'band', [toX(reference_duty_pct), box.top], [toX(reference_duty_pct), box.bottom], {
      stroke: look.hairlineStrong,
      lineDash: [2, 3],
    }),
  ];
  const [first, last] = [healthy[0], healthy.at(-1)];
  if (first === undefined || last === undefined) return shapes;
  const whole = [
    { ...first, duty_pct: Math.max(plot.from, first.duty_pct - beyondPct) },
    ...healthy,
    { ...last, duty_pct: Math.min(highestDuty, last.duty_pct + beyondPct) },
  ];
  const edge = (figure: (one: (typeof whole)[number]) => number) =>
    whole.map((one): [number, number] => [toX(one.duty_pct), toY(figure(one))]);
  return [
    ...shapes,
    polygon('healthy', 'ground', [...edge((one) => one.high_rpm), ...edge((one) => one.low_rpm).reverse()], {
      fill: look.hairlineStrong,
      opacity: 0.3,
    }),
    polyline(
      'healthy-usual',
      'band',
      edge((one) => one.usual_rpm),
      { stroke: look.hairlineStrong, lineDash: [2, 3] },
    ),
  ];
}

/** Limit, range and the stretches with the most slip by name, where they cover nothing. */
function drawWords(
  { steady, healthy, limit_rpm, reference_duty_pct }: RoadTrace,
  { box, toX, toY }: Plot,
  look: Look,
): Shape[] {
  const limitY = Math.round(toY(limit_rpm)) + 0.5;
  const shapes: Shape[] = [
    line('limit', 'over', [box.left, limitY], [box.right, limitY], {
      stroke: look.grade.hold,
      lineDash: [5, 3],
    }),
  ];
  const dots = steady.map((one) => {
    const reach = sizeOf(one.to_s - one.from_s) / 2 + 2;
    const [x, y] = [toX(one.duty_pct), toY(one.slip_rpm)];
    return { left: x - reach, right: x + reach, top: y - reach, bottom: y + reach };
  });
  const taken: Box[] = [...dots, { left: box.left, right: box.right, top: limitY - 1, bottom: limitY + 1 }];
  const write = (
    id: string,
    texts: readonly string[],
    at: (width: number) => Box[],
    color: string,
    strong = false,
  ) => {
    const places = texts.flatMap((words) =>
      at(textWidth(words, look.smallPx)).map((one) => ({ ...one, words })),
    );
    const place = placeFree(places, box, taken);
    if (place === null) return;
    const y = (place.top + place.bottom) / 2;
    shapes.push(label(id, { text: place.words, x: place.left, y, color, strong }, look));
  };
  const boxAt = (left: number, y: number, width: number): Box => ({
    left,
    right: left + width,
    top: y - lineHeightPx / 2,
    bottom: y + lineHeightPx / 2,
  });
  const sides = (y: number, width: number) =>
    [box.left + 4, box.right - width - 4, (box.left + box.right - width) / 2].map((left) =>
      boxAt(left, y, width),
    );
  const named = pickNamed(dots, steady);
  const nameDot = (i: number) => {
    const [one, dot] = [steady[i], dots[i]];
    if (one === undefined || dot === undefined) return;
    const y = (dot.top + dot.bottom) / 2;
    const rpm = `${formatWhole(one.slip_rpm)} rpm`;
    write(
      `steady-${i}-words`,
      [`${rpm}, ${formatWhole(one.to_s - one.from_s)} s`, rpm],
      (width) => [
        boxAt(dot.right + 3, y, width),
        boxAt(dot.left - width - 3, y, width),
        boxAt((dot.left + dot.right - width) / 2, dot.top - 10, width),
        boxAt((dot.left + dot.right - width) / 2, dot.bottom + 10, width),
      ],
      look.ink,
      true,
    );
  };
  named.slice(0, 1).forEach(nameDot);
  write(
    'limit-words',
    [`limit ${formatWhole(limit_rpm)}`],
    (width) => [limitY - 10, limitY + 11].flatMap((y) => sides(y, width)),
    look.grade.hold,
  );
  named.slice(1).forEach(nameDot);
  const [first] = healthy;
  if (first !== undefined) {
    const above = toY(Math.max(...healthy.map(({ high_rpm }) => high_rpm))) - 11;
    write(
      'healthy-words',
      ['95 % of healthy vehicles', 'healthy vehicles', 'healthy'],
      (width) => sides(above, width),
      look.inkSoft,
    );
  }
  const referenceX = toX(reference_duty_pct);
  write(
    'reference-words',
    [`reference ${formatWhole(reference_duty_pct)} %`, `${formatWhole(reference_duty_pct)} %`],
    (width) =>
      [box.top + 10, box.bottom - 10].flatMap((y) => [
        boxAt(referenceX - width - 4, y, width),
        boxAt(referenceX + 4, y, width),
      ]),
    look.inkFaint,
  );
  return shapes;
}

/** The stretches with the most slip, without those that lie on one that is named already. */
function pickNamed(dots: readonly Box[], steady: RoadTrace['steady']): number[] {
  const named: number[] = [];
  const order = steady
    .map((_, i) => i)
    .toSorted((a, b) => (steady[b]?.slip_rpm ?? 0) - (steady[a]?.slip_rpm ?? 0));
  for (const i of order) {
    const own = dots[i];
    if (own === undefined || named.length === mostNamed) continue;
    const isNear = named.some((other) => {
      const one = dots[other];
      if (one === undefined) return false;
      return (
        Math.abs(one.left + one.right - own.left - own.right) < 2 * apartPx &&
        Math.abs(one.top + one.bottom - own.top - own.bottom) < 2 * apartPx
      );
    });
    if (!isNear) named.push(i);
  }
  return named;
}

function tellStretch(one: RoadTrace['steady'][number] | undefined, units: Units): string {
  if (one === undefined) return '';
  return [
    `<b>${formatTenths(one.slip_rpm)} rpm at ${formatWhole(one.duty_pct)} % command</b>`,
    `${formatElapsed(one.from_s)} to ${formatElapsed(one.to_s)}, ${formatWhole(one.to_s - one.from_s)} s`,
    ...(one.fluid_c === null ? [] : [`fluid ${formatTemperature(one.fluid_c, units)}`]),
  ].join('<br>');
}
