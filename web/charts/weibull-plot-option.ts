import type { LivesGroup } from '#server/contract/lives.ts';
import type { ChartOption } from './chart.tsx';
import type { Frame } from './frame.ts';
import { inkOf } from './group-ink.ts';
import { errorsOf, type LifeFitKind, paperPoints, placeOfShare } from './life-paper.ts';
import { axisTitles, layLives, nameEnds, pixelsOf, xAxisOf, yAxisOf } from './lives-plot.ts';
import { drawBounds, fitLine, splitAt } from './paper-fit.ts';
import { logTicks, paperRange, shareTicks } from './paper-range.ts';
import { lastSeen } from './survival-steps.ts';
import { axisTooltip } from './tooltip.ts';
import type { UseAxis } from './use-axis.ts';
import { escapeHtml } from './use-tooltip.ts';

const footPx = 46;

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
  const isAlone = drawn.filter(({ fit }) => fit.length > 1).length < 2;
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
          drawBounds(`band-${i}`, { fit, isAlone, range: range.x, pixels, ink: inkOf(i, look) }),
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

function nearestOf(all: readonly number[], distance: (one: number) => number): number {
  return all.reduce((best, one) => (distance(one) < distance(best) ? one : best), all[0] ?? 0.5);
}

const sayShare = (share: number): string => `${Number((share * 100).toPrecision(3))} %`;
const sayLogTick = (x: number, axis: UseAxis): string => {
  const shown = Number((x / axis.one).toPrecision(6));
  return axis.sayTick(shown, Number.isInteger(shown / 1000) ? 1000 : Number.isInteger(shown / 100) ? 100 : 1);
};
