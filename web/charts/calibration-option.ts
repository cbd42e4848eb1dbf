import type { CalibrationBin } from '#server/contract/replay.ts';
import { formatWhole } from '#web/format/format-number.ts';
import { formatPercent } from '#web/format/format-percent.ts';
import type { ChartOption } from './chart.tsx';
import type { Frame } from './frame.ts';
import { isOff } from './judge-bin.ts';
import type { NumbersTable } from './numbers.ts';
import { label, line } from './shapes.ts';
import { axisTooltip } from './tooltip.ts';

const pads = { leftPx: 44, rightPx: 16, topPx: 30, footPx: 62 };
const ticks = [0, 0.2, 0.4, 0.6, 0.8, 1];

/** Chances as they were stated against the share that came, with its bounds; on the diagonal they agree, and a hollow dot is held away from it by its bounds. */
export function calibrationOption(
  bins: readonly CalibrationBin[],
  { look, widthPx, heightPx }: Frame,
): ChartOption {
  const { leftPx: left, topPx: top } = pads;
  const [right, foot] = [widthPx - pads.rightPx, heightPx - pads.footPx];
  const toX = (share: number) => left + share * (right - left);
  const toY = (share: number) => foot - share * (foot - top);
  const shown = bins.filter((bin) => bin.n > 0);
  const told = shown.filter((bin) => bin.seen !== null);
  const most = Math.sqrt(Math.max(1, ...shown.map((bin) => bin.vehicles)));
  const text = { color: look.inkSoft, fontFamily: look.fontFamily, fontSize: look.smallPx };
  const axis = {
    type: 'value' as const,
    min: 0,
    max: 1,
    axisTick: { show: false, customValues: ticks },
    axisLabel: { ...text, customValues: ticks, formatter: (share: number) => formatWhole(100 * share) },
    splitLine: { show: false },
  };
  return {
    grid: { left, right: pads.rightPx, top, bottom: pads.footPx },
    textStyle: { fontFamily: look.fontFamily },
    tooltip: { ...axisTooltip(look), trigger: 'item' },
    xAxis: { ...axis, axisLine: { onZero: false, lineStyle: { color: look.hairlineStrong } } },
    yAxis: { ...axis, axisLine: { show: false }, splitLine: { lineStyle: { color: look.hairline } } },
    series: [
      {
        id: 'bins',
        type: 'scatter',
        z: 5,
        itemStyle: { color: look.ink, opacity: 1 },
        data: told.map((bin) => ({
          value: [bin.stated, bin.seen ?? 0],
          symbolSize: 6 + 8 * (Math.sqrt(bin.vehicles) / most),
          ...(isOff(bin) ? { itemStyle: { color: look.paper, borderColor: look.ink, borderWidth: 2 } } : {}),
        })),
        tooltip: {
          formatter: ({ dataIndex }: { dataIndex: number }) => {
            const bin = told[dataIndex];
            return bin === undefined ? '' : tellBin(bin);
          },
        },
      },
    ],
    graphic: {
      elements: [
        line('diagonal', 'ground', [toX(0), toY(0)], [toX(1), toY(1)], {
          stroke: look.hairlineStrong,
          lineDash: [4, 4],
        }),
        label(
          'diagonal-words',
          { text: 'as stated', x: toX(0.9) - 10, y: toY(0.92), color: look.inkSoft, align: 'right' },
          look,
        ),
        ...told.map((bin, i) =>
          line(
            `bounds-${i}`,
            'band',
            [toX(bin.stated), toY(bin.low ?? bin.seen ?? 0)],
            [toX(bin.stated), toY(bin.high ?? bin.seen ?? 0)],
            {
              stroke: look.inkSoft,
              lineWidth: 2,
            },
          ),
        ),
        ...placeCounts(shown, toX).map(({ bin, x, i }) =>
          label(
            `count-${i}`,
            { text: formatWhole(bin.n), x, y: foot + 34, color: look.inkFaint, align: 'center' },
            look,
          ),
        ),
        label('y-title', { text: 'came within the horizon, %', x: 0, y: 10, color: look.inkSoft }, look),
        label(
          'count-title',
          { text: 'small figures: looks', x: 0, y: heightPx - 9, color: look.inkFaint },
          look,
        ),
        label(
          'x-title',
          { text: 'chance stated, %', x: right, y: heightPx - 9, color: look.inkSoft, align: 'right' },
          look,
        ),
      ],
    },
  };
}

const countGapPx = 44;

/** Counts stand below their bins where they have room; those of the fewest looks give way. */
function placeCounts(bins: readonly CalibrationBin[], toX: (share: number) => number) {
  const taken: number[] = [];
  return bins
    .map((bin, i) => ({ bin, i, x: toX(bin.stated) }))
    .toSorted((a, b) => b.bin.n - a.bin.n)
    .filter(({ x }) => {
      const isFree = taken.every((one) => Math.abs(one - x) >= countGapPx);
      if (isFree) taken.push(x);
      return isFree;
    });
}

const tellBin = ({ from, to, n, vehicles, seen, low, high }: CalibrationBin): string =>
  [
    `<b>Chance ${formatPercent(from)} to ${formatPercent(to)}</b>`,
    `came: ${formatPercent(seen)}${low === null || high === null ? '' : ` (${formatPercent(low)} to ${formatPercent(high)})`}`,
    `${formatWhole(n)} looks at ${formatWhole(vehicles)} vehicles`,
  ].join('<br>');

export function listCalibrationNumbers(bins: readonly CalibrationBin[]): NumbersTable[] {
  const figure = (title: string) => ({ title, kind: 'figure' as const });
  return [
    {
      caption: 'Stated chances against what came',
      columns: [
        { title: 'chance', kind: 'word' },
        ...['stated %', 'came %', 'low %', 'high %', 'looks', 'vehicles'].map(figure),
      ],
      rows: bins.map((bin) => [
        `${formatPercent(bin.from)} to ${formatPercent(bin.to)}`,
        ...[bin.stated, bin.seen, bin.low, bin.high].map((share) =>
          share === null ? '–' : (100 * share).toFixed(1),
        ),
        formatWhole(bin.n),
        formatWhole(bin.vehicles),
      ]),
    },
  ];
}
