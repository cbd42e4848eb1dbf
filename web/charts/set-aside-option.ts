import type { SetAsideShares } from '#server/contract/intake.ts';
import { setAsideWords } from '#server/contract/set-aside-words.ts';
import { type SetAsideReason, setAsideReasons } from '#server/contract/words.ts';
import { formatPercent } from '#web/format/format-percent.ts';
import type { ChartOption } from './chart.tsx';
import type { Frame } from './frame.ts';
import type { NumbersTable } from './numbers.ts';
import { label } from './shapes.ts';
import { spreadLabels } from './spread-labels.ts';
import { axisTooltip, firstIndex } from './tooltip.ts';

export type GatewayShares = SetAsideShares['gateways'][number];
export interface SetAsideScale {
  /** end of the scale of all panels, a share */
  top: number;
  /** in the order in which they are stacked */
  reasons: readonly SetAsideReason[];
}

export const setAsideHeightPx = 190;
const topPx = 12;
const footPx = 26;
const leftPx = 42;
const rightPx = 160;
const namedReasons = 4;
/** Ends of the scale whose half is round too. */
const roundTops = [0.02, 0.04, 0.1, 0.2, 0.4, 0.6, 0.8, 1];
const rest = 'other reasons';

const shareOf = (month: GatewayShares['months'][number], reason: SetAsideReason): number =>
  month.readings === 0 ? 0 : (month.set_aside[reason] ?? 0) / month.readings;
const totalOf = (month: GatewayShares['months'][number]): number =>
  setAsideReasons.reduce((sum, reason) => sum + shareOf(month, reason), 0);

/** One scale and one order of reasons for all gateways, so that they compare by eye. */
export function scaleSetAside(gateways: readonly GatewayShares[]): SetAsideScale {
  const months = gateways.flatMap((gateway) => gateway.months);
  const sums = setAsideReasons.map((reason) => ({
    reason,
    n: months.reduce((sum, month) => sum + (month.set_aside[reason] ?? 0), 0),
  }));
  const most = Math.max(0.01, ...months.map(totalOf));
  return {
    top: roundTops.find((one) => one >= most) ?? 1,
    reasons: sums
      .filter(({ n }) => n > 0)
      .sort((a, b) => b.n - a.n)
      .map(({ reason }) => reason),
  };
}

interface Layer {
  name: string;
  shares: (number | null)[];
}

function stackLayers({ months }: GatewayShares, { reasons }: SetAsideScale): Layer[] {
  const named = reasons.slice(0, namedReasons);
  const others = reasons.slice(namedReasons);
  const share = (of: readonly SetAsideReason[]) =>
    months.map((month) =>
      month.readings === 0 ? null : of.reduce((sum, reason) => sum + shareOf(month, reason), 0),
    );
  return [
    ...named.map((reason) => ({ name: setAsideWords[reason], shares: share([reason]) })),
    ...(others.length === 0 ? [] : [{ name: rest, shares: share(others) }]),
  ];
}

/** Share of a gateway's readings that was set aside, by month, stacked by reason; the reasons are named beside the last month. */
export function setAsideOption(gateway: GatewayShares, scale: SetAsideScale, frame: Frame): ChartOption {
  const { look, widthPx } = frame;
  const layers = stackLayers(gateway, scale);
  const text = { color: look.inkSoft, fontFamily: look.fontFamily, fontSize: look.smallPx };
  const inks = [look.ink, look.accent, ...look.groups.slice(2)];
  const inkOf = (i: number) => (layers[i]?.name === rest ? look.hairlineStrong : (inks[i] ?? look.inkSoft));
  return {
    textStyle: { fontFamily: look.fontFamily },
    grid: { left: leftPx, right: rightPx, top: topPx, bottom: footPx },
    tooltip: { ...axisTooltip(look), formatter: (items) => tellMonth(gateway.months[firstIndex(items)]) },
    xAxis: {
      type: 'category',
      data: gateway.months.map(({ month }) => sayMonth(month)),
      axisTick: { show: false },
      axisLine: { lineStyle: { color: look.hairlineStrong } },
      axisLabel: { ...text, hideOverlap: true },
    },
    yAxis: {
      type: 'value',
      min: 0,
      max: scale.top,
      interval: scale.top / 2,
      axisLabel: { ...text, formatter: (share: number) => formatPercent(share) },
      splitLine: { lineStyle: { color: look.hairline } },
    },
    series: layers.map(({ name, shares }, i) => ({
      id: name,
      name,
      type: 'bar' as const,
      stack: 'reasons',
      silent: true,
      barWidth: '72%',
      itemStyle: { color: inkOf(i), borderColor: look.paper, borderWidth: 0.5 },
      data: shares,
    })),
    graphic: {
      elements: nameLayers(layers, scale.top).map(({ name, placedPx: y, i }) =>
        label(`name-${i}`, { text: name, x: widthPx - rightPx + 6, y, color: inkOf(i), strong: true }, look),
      ),
    },
  };
}

/** Names beside the last month that has readings, at the height of their part, apart from each other. */
function nameLayers(layers: readonly Layer[], top: number) {
  const last = layers[0]?.shares.findLastIndex((share) => share !== null) ?? -1;
  if (last < 0) return [];
  const plotPx = setAsideHeightPx - topPx - footPx;
  let below = 0;
  const places = layers.flatMap(({ name, shares }, i) => {
    const share = shares[last] ?? 0;
    const y = topPx + plotPx * (1 - (below + share / 2) / top);
    below += share;
    return share < 0.005 ? [] : [{ name, yPx: y, i }];
  });
  return spreadLabels(places, 15, { topPx: topPx + 6, bottomPx: topPx + plotPx - 4 });
}

const monthName = new Intl.DateTimeFormat('en-GB', { month: 'short', timeZone: 'UTC' });
const longMonth = new Intl.DateTimeFormat('en-GB', { month: 'long', year: 'numeric', timeZone: 'UTC' });
const dateOf = (month: string) => new Date(`${month}-01T00:00:00Z`);
const sayMonth = (month: string): string => monthName.format(dateOf(month));

function tellMonth(month: GatewayShares['months'][number] | undefined): string {
  if (month === undefined) return '';
  const parts = setAsideReasons
    .map((reason) => ({ reason, share: shareOf(month, reason) }))
    .filter(({ share }) => share > 0)
    .sort((a, b) => b.share - a.share)
    .map(({ reason, share }) => `${setAsideWords[reason]} ${formatPercent(share)}`);
  const head =
    month.readings === 0 ? 'no readings' : `${formatPercent(totalOf(month))} of readings set aside`;
  return [`<b>${longMonth.format(dateOf(month.month))}</b>`, head, ...parts].join('<br>');
}

export const listSetAsideNumbers = (gateway: GatewayShares, { reasons }: SetAsideScale): NumbersTable[] => [
  {
    caption: `Readings of ${gateway.sender.name} set aside`,
    columns: [
      { title: 'month', kind: 'word' },
      ...['readings', 'set aside', ...reasons.map((reason) => setAsideWords[reason])].map((title) => ({
        title,
        kind: 'figure' as const,
      })),
    ],
    rows: gateway.months.map((month) => [
      month.month,
      String(month.readings),
      formatPercent(month.readings === 0 ? null : totalOf(month)),
      ...reasons.map((reason) => formatPercent(month.readings === 0 ? null : shareOf(month, reason))),
    ]),
  },
];
