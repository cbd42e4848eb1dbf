import type { LivesGroup } from '#server/contract/lives.ts';
import type { ChartOption } from './chart.tsx';
import type { Frame } from './frame.ts';
import { bandOpacity, inkOf } from './group-ink.ts';
import {
  errorsOf,
  type FittedUse,
  fittedUse,
  type LifeFitKind,
  paperPoints,
  placeOfShare,
} from './life-paper.ts';
import { axisTitles, layLives, nameEnds, pixelsOf, xAxisOf, yAxisOf } from './lives-plot.ts';
import { logTicks, type PaperRange, paperRange, shareTicks } from './paper-range.ts';
import { polygon } from './shapes.ts';
import { lastSeen } from './survival-steps.ts';
import { axisTooltip } from './tooltip.ts';
import type { UseAxis } from './use-axis.ts';
import { escapeHtml } from './use-tooltip.ts';

const footPx = 46;
const steps = 60;

interface Settings {
  kind: LifeFitKind;
  confidence: number;
}

/** Failures on paper on which the fitted distribution is a straight line, with its bounds. */
export function weibullPlotOption(
  groups: readonly LivesGroup[],
  axis: UseAxis,
  { kind, confidence }: Settings,
  frame: Frame,
): ChartOption {
  const { look } = frame;
  const range = paperRange(kind, groups);
  if (range === null) return {};
  const { box, names } = layLives(
    groups.map(({ name }) => name),
    frame,
    footPx,
  );
  const pixels = pixelsOf(box, range.x, range.y);
  const [from, to] = [Math.exp(range.x[0]), Math.exp(range.x[1])];
  const xTicks = logTicks(from, to, axis.one, box.width);
  const yTicks = shareTicks(kind, range, box.height);
  const errors = errorsOf(confidence);
  const drawn = groups.map((group) => ({
    points: paperPoints(group).map(({ x, failed }) => [Math.log(x), placeOfShare(kind, failed)] as const),
    fit: fitLine(kind, group, errors, range),
    last: Math.log(lastSeen(group)),
  }));
  return {
    grid: [{ id: 'paper', ...box }],
    textStyle: { fontFamily: look.fontFamily },
    tooltip: {
      ...axisTooltip(look),
      trigger: 'item',
      formatter: (item) => {
        const one = Array.isArray(item) ? item[0] : item;
        const group = groups[Number(one?.seriesName)];
        const point = group === undefined ? undefined : paperPoints(group)[one?.dataIndex ?? -1];
        return group === undefined || point === undefined
          ? ''
          : `<b>${escapeHtml(group.name)}</b><br>${sayShare(point.failed)} failed by ${axis.sayExact(point.x)}`;
      },
    },
    xAxis: [
      xAxisOf({
        look,
        range: range.x,
        ticks: xTicks.map(Math.log),
        say: (value) => sayLogTick(Math.exp(value), axis),
      }),
    ],
    yAxis: [
      yAxisOf({
        look,
        range: range.y,
        ticks: yTicks.map((share) => placeOfShare(kind, share)),
        say: (place) => sayShare(nearestOf(yTicks, (share) => Math.abs(placeOfShare(kind, share) - place))),
      }),
    ],
    series: drawn.flatMap(({ points, fit, last }, i) => {
      const { tone, dash, symbol, width } = inkOf(i, look);
      const line = (part: 'seen' | 'beyond') => ({
        type: 'line' as const,
        id: `${part}-${i}`,
        silent: true,
        clip: true,
        symbol: 'none',
        lineStyle: { color: tone, width, type: dash, opacity: part === 'seen' ? 1 : 0.4 },
        data: splitAt(fit, last)[part].map(({ x, place }) => [Math.log(x), place]),
      });
      return [
        {
          type: 'scatter' as const,
          id: `points-${i}`,
          name: String(i),
          symbol,
          symbolSize: points.length > 200 ? 4 : 7,
          itemStyle: { color: tone, borderColor: tone, opacity: 0.8 },
          data: points.map(([x, place]) => [x, place]),
        },
        line('seen'),
        line('beyond'),
      ];
    }),
    graphic: {
      elements: [
        ...axisTitles({ x: axis.title, y: 'failed' }, box, look),
        ...drawn.flatMap(({ fit }, i) =>
          fit.length < 2
            ? []
            : [
                polygon(`band-${i}`, 'band', fitBand(fit, range.x, pixels), {
                  fill: inkOf(i, look).tone,
                  opacity: bandOpacity(groups.length),
                }),
              ],
        ),
        ...nameEnds(
          drawn.flatMap(({ points }, i) => {
            const end = points.at(-1);
            if (end === undefined) return [];
            return [{ i, text: names[i] ?? [], xPx: pixels.toX(end[0]), yPx: pixels.toY(end[1]) }];
          }),
          box,
          look,
        ),
      ],
    },
  };
}

type LinePoint = FittedUse & { place: number };

function fitLine(kind: LifeFitKind, group: LivesGroup, errors: number, { y }: PaperRange): LinePoint[] {
  const line: LinePoint[] = [];
  for (let i = 0; i <= steps; i++) {
    const place = y[0] + ((y[1] - y[0]) * i) / steps;
    const fitted = fittedUse(kind, group, shareAt(kind, place), errors);
    if (fitted !== null) line.push({ ...fitted, place });
  }
  return line;
}

/** The share whose place it is; the inverse of placing, found by halving for normal deviates. */
function shareAt(kind: LifeFitKind, place: number): number {
  if (kind === 'weibull') return -Math.expm1(-Math.exp(place));
  let [low, high] = [0, 1];
  for (let round = 0; round < 60; round++) {
    const middle = (low + high) / 2;
    if (placeOfShare(kind, middle) < place) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** What was seen and what lies beyond it, joined at the last point seen. */
function splitAt(fit: readonly LinePoint[], last: number): Record<'seen' | 'beyond', readonly LinePoint[]> {
  const end = fit.filter(({ x }) => Math.log(x) <= last).length;
  return { seen: fit.slice(0, end), beyond: fit.slice(Math.max(0, end - 1)) };
}

function fitBand(
  fit: readonly LinePoint[],
  [from, to]: readonly [number, number],
  { toX, toY }: ReturnType<typeof pixelsOf>,
): [number, number][] {
  const cut = (x: number) => toX(Math.min(Math.max(Math.log(x), from), to));
  return [
    ...fit.map(({ low, place }): [number, number] => [cut(low), toY(place)]),
    ...fit.toReversed().map(({ high, place }): [number, number] => [cut(high), toY(place)]),
  ];
}

function nearestOf(all: readonly number[], distance: (one: number) => number): number {
  return all.reduce((best, one) => (distance(one) < distance(best) ? one : best), all[0] ?? 0.5);
}

const sayShare = (share: number): string => `${Number((share * 100).toPrecision(3))} %`;
const sayLogTick = (x: number, axis: UseAxis): string => {
  const shown = Number((x / axis.one).toPrecision(6));
  return axis.sayTick(shown, Number.isInteger(shown / 1000) ? 1000 : Number.isInteger(shown / 100) ? 100 : 1);
};
