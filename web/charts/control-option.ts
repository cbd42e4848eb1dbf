import type { ChartOption } from './chart.tsx';
import { keepPeaks, traceCusum, traceEwma } from './control-paths.ts';
import type { Frame } from './frame.ts';
import type { NumbersTable } from './numbers.ts';
import { label, line, type Shape } from './shapes.ts';
import { textWidth } from './text-width.ts';
import { roundTicks } from './ticks.ts';
import { sayFigure, type TrendView } from './trend-view.ts';

const topPx = 24;
const gapPx = 30;
const footPx = 44;
const mostPlaces = 1800;
const mostNumbers = 2000;
/** Sums that grow on leave the strip here: drawn whole they would press limit and baseline into one line. */
const mostLimits = 6;

interface Strip {
  id: string;
  title: string;
  /** where there is no room for the title */
  short: string;
  paths: { id: string; name: string; values: readonly number[]; isDashed: boolean }[];
  /** limits above and below, of each value */
  limits: { id: string; values: readonly number[] }[];
  alarm: number | null;
  /** what is drawn ends here, above and below; the rest is said */
  reach?: number;
}

const sayAlarm = (alarm: number | null): string =>
  alarm === null ? 'no alarm' : `first alarm at ${sayFigure(alarm)}`;

function listStrips({ y, reply: { cusum, ewma } }: TrendView): Strip[] {
  const strips: Strip[] = [];
  if (cusum !== null) {
    const path = traceCusum(y, cusum);
    strips.push({
      id: 'cusum',
      title: `CUSUM, sums of what is beyond the baseline; ${sayAlarm(cusum.first_alarm)}`,
      short: `CUSUM; ${sayAlarm(cusum.first_alarm)}`,
      paths: [
        { id: 'high', name: 'rise', values: path.high, isDashed: false },
        { id: 'low', name: 'fall', values: path.low.map((one) => -one), isDashed: true },
      ],
      limits: [
        { id: 'upper', values: y.map(() => path.limit) },
        { id: 'lower', values: y.map(() => -path.limit) },
      ],
      alarm: cusum.first_alarm,
      reach: mostLimits * path.limit,
    });
  }
  if (ewma !== null) {
    const { average, reach } = traceEwma(y, ewma);
    strips.push({
      id: 'ewma',
      title: `EWMA, moving average; ${sayAlarm(ewma.first_alarm)}`,
      short: `EWMA; ${sayAlarm(ewma.first_alarm)}`,
      paths: [{ id: 'average', name: 'average', values: average, isDashed: false }],
      limits: [
        { id: 'upper', values: reach.map((one) => ewma.target + one) },
        { id: 'lower', values: reach.map((one) => ewma.target - one) },
      ],
      alarm: ewma.first_alarm,
    });
  }
  return strips;
}

export const controlHeight = (view: TrendView): number =>
  Number(view.reply.cusum !== null) * 130 + Number(view.reply.ewma !== null) * 130 + footPx;

/** Both control charts below each other on the axis of the series; limits are dashed, the first alarm is marked. */
export function controlOption(view: TrendView, { look, widthPx, heightPx }: Frame): ChartOption {
  const strips = listStrips(view);
  const [first, last] = [view.x[0], view.x.at(-1)];
  if (strips.length === 0 || first === undefined || last === undefined || first === last) return {};
  const each = (heightPx - footPx) / strips.length;
  const ranges = strips.map(rangeOf);
  const ticks = ranges.map(([low, high]) => roundTicks(low, high, 3));
  const left = 12 + Math.max(...ticks.flat().map((tick) => textWidth(sayFigure(tick), look.smallPx)));
  const beyond = strips.map(listBeyond);
  const right = Math.max(52, ...beyond.flat().map(({ text }) => textWidth(text, look.smallPx) + 12));
  const boxes = strips.map((_, i) => ({ top: topPx + i * each, bottom: (i + 1) * each - gapPx + topPx }));
  const toX = (x: number) => left + ((x - first) / (last - first)) * (widthPx - right - left);
  const xTicks = roundTicks(first, last, Math.max(2, (widthPx - left - right) / 90));
  const titleOf = ({ title, short }: Strip) => (textWidth(title, look.smallPx) > widthPx ? short : title);
  const text = { color: look.inkSoft, fontFamily: look.fontFamily, fontSize: look.smallPx };
  const places = (values: readonly number[]) =>
    keepPeaks(values, mostPlaces).map((i) => [view.x[i] ?? 0, values[i] ?? 0]);
  return {
    textStyle: { fontFamily: look.fontFamily },
    grid: boxes.map(({ top, bottom }) => ({ left, right, top, bottom: heightPx - bottom })),
    xAxis: strips.map((_, i) => ({
      type: 'value' as const,
      gridIndex: i,
      min: first,
      max: last,
      splitLine: { show: false },
      axisTick: { show: i === strips.length - 1, customValues: xTicks },
      axisLabel: {
        ...text,
        show: i === strips.length - 1,
        customValues: xTicks,
        formatter: (value: number) => sayFigure(value),
        hideOverlap: true,
      },
      axisLine: { onZero: false, lineStyle: { color: look.hairlineStrong } },
    })),
    yAxis: strips.map((_, i) => ({
      type: 'value' as const,
      gridIndex: i,
      min: ranges[i]?.[0] ?? 0,
      max: ranges[i]?.[1] ?? 1,
      axisTick: { show: false, customValues: ticks[i] ?? [] },
      axisLabel: { ...text, customValues: ticks[i] ?? [], formatter: (value: number) => sayFigure(value) },
      splitLine: { show: false },
    })),
    series: strips.flatMap((strip, i) => {
      const common = {
        type: 'line' as const,
        xAxisIndex: i,
        yAxisIndex: i,
        symbol: 'none',
        silent: true,
      };
      return [
        ...strip.limits.map(({ id, values }) => ({
          ...common,
          id: `${strip.id}-${id}`,
          lineStyle: { color: look.hairlineStrong, width: 1.5, type: [5, 4] },
          data: places(values),
        })),
        ...strip.paths.map(({ id, values, isDashed }) => ({
          ...common,
          id: `${strip.id}-${id}`,
          z: 4,
          lineStyle: { color: look.ink, width: 1.5, type: isDashed ? [2, 2] : ('solid' as const) },
          data: places(values),
        })),
      ];
    }),
    graphic: {
      elements: strips.flatMap((strip, i): Shape[] => {
        const box = boxes[i] ?? { top: 0, bottom: 0 };
        const [low = 0, high = 1] = ranges[i] ?? [];
        const toY = (value: number) => box.bottom - ((value - low) / (high - low)) * (box.bottom - box.top);
        const limit = strip.limits[0]?.values.at(-1) ?? 0;
        return [
          label(`${strip.id}-title`, { text: titleOf(strip), x: 0, y: box.top - 12, color: look.ink }, look),
          label(
            `${strip.id}-limit`,
            { text: 'limit', x: widthPx - right + 6, y: toY(limit), color: look.inkSoft },
            look,
          ),
          ...(beyond[i] ?? []).map(({ text, value }) =>
            label(
              `${strip.id}-beyond-${value > 0 ? 'above' : 'below'}`,
              {
                text,
                x: widthPx - right + 6,
                y: value > 0 ? box.top + 5 : box.bottom - 5,
                color: look.ink,
              },
              look,
            ),
          ),
          ...(strip.alarm === null
            ? []
            : [
                line(
                  `${strip.id}-alarm`,
                  'over',
                  [toX(strip.alarm), box.top],
                  [toX(strip.alarm), box.bottom],
                  { stroke: look.accent, lineWidth: 2 },
                ),
              ]),
          ...(i < strips.length - 1
            ? []
            : [
                label(
                  'x-title',
                  {
                    text: view.xName,
                    x: widthPx - right,
                    y: heightPx - 9,
                    color: look.inkSoft,
                    align: 'right',
                  },
                  look,
                ),
              ]),
        ];
      }),
    },
  };
}

/** Where paths go beyond the strip, and how far. */
function listBeyond({ paths, reach }: Strip): { text: string; value: number }[] {
  if (reach === undefined) return [];
  const ends = paths.flatMap(({ values }) => {
    const value = values.reduce((most, one) => (Math.abs(one) > Math.abs(most) ? one : most), 0);
    return Math.abs(value) > reach ? [value] : [];
  });
  return ends.map((value) => ({
    value,
    text: `${value > 0 ? '\u2191' : '\u2193'} ${sayFigure(Number(value.toPrecision(3)))}`,
  }));
}

function rangeOf({ paths, limits, reach = Number.POSITIVE_INFINITY }: Strip): [number, number] {
  let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const { values } of [...paths, ...limits])
    for (const value of values) {
      low = Math.min(low, value);
      high = Math.max(high, value);
    }
  [low, high] = [Math.max(low, -reach), Math.min(high, reach)];
  const margin = high > low ? 0.05 * (high - low) : 1;
  return [low - margin, high + margin];
}

export function listControlNumbers(view: TrendView): NumbersTable[] {
  const figure = (title: string) => ({ title, kind: 'figure' as const });
  return listStrips(view).map(({ title, paths, limits }) => {
    const all = [...paths, ...limits.map(({ id, values }) => ({ name: `${id} limit`, values }))];
    const places = keepPeaks(paths[0]?.values ?? [], mostNumbers);
    return {
      caption: title,
      columns: [figure(view.xName), ...all.map(({ name }) => figure(name))],
      rows: places.map((i) =>
        [view.x[i] ?? 0, ...all.map(({ values }) => Number((values[i] ?? 0).toPrecision(8)))].map(String),
      ),
    };
  });
}
