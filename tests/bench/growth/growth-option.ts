import type { ChartOption } from '#web/charts/chart.tsx';
import type { Look } from '#web/charts/look.ts';
import { label, line, polyline, rect, type Shape } from '#web/charts/shapes.ts';
import { type Cost, costs, type GrowthPoint } from './growth-point.ts';
import { sayMs } from './write-table.ts';

const TOP_PX = 64;
const FOOT_PX = 52;
const LEFT_PX = 64;
const NAME_PX = 236;
const GAP_PX = 18;
const SIZES = [1, 3, 10];
const titles = { vehicles: 'more vehicles', history: 'more history of each' } as const;

/**
 * Processor time of what new data and screens cost, against the size of the fleet and of its history, both axes logarithmic: a level
 * line is a cost that does not grow, the dashed one a cost that grows as the size does.
 */
export function growthOption(
  points: readonly GrowthPoint[],
  { look, widthPx, heightPx }: { look: Look; widthPx: number; heightPx: number },
): ChartOption {
  const values = points.flatMap(({ processorMs }) => Object.values(processorMs)).filter((one) => one > 0);
  const low = Math.floor(Math.log10(Math.min(...values)));
  const high = Math.ceil(Math.log10(Math.max(...values)));
  const ticks = Array.from({ length: high - low + 1 }, (_, i) => low + i);
  const bottom = heightPx - FOOT_PX;
  const toY = (ms: number) => bottom - ((Math.log10(ms) - low) / Math.max(1, high - low)) * (bottom - TOP_PX);
  const plotPx = (widthPx - LEFT_PX - NAME_PX - GAP_PX) / 2;
  const text = (id: string, words: Parameters<typeof label>[1]) => label(id, words, look);
  const shapes: Shape[] = [
    rect(
      'paper',
      'ground',
      { x: 0, y: 0, width: widthPx, height: heightPx },
      { fill: look.paper, stroke: look.hairline },
    ),
    text('title', {
      text: 'Processor time, ms',
      x: 14,
      y: 20,
      color: look.ink,
      strong: true,
    }),
    ...ticks.map((tick) =>
      text(`tick-${tick}`, {
        text: sayMs(10 ** tick),
        x: LEFT_PX - 10,
        y: toY(10 ** tick),
        color: look.inkSoft,
        align: 'right',
      }),
    ),
    ...(['vehicles', 'history'] as const).flatMap((grows, i) => {
      const left = LEFT_PX + i * (plotPx + GAP_PX);
      const toX = (times: number) => left + 12 + (Math.log10(times) / Math.log10(10)) * (plotPx - 24);
      return drawPanel(
        points.filter((one) => one.grows === grows),
        {
          id: grows,
          title: titles[grows],
          left,
          right: left + plotPx,
          bottom,
          isLast: i === 1,
          toX,
          toY,
          ticks,
        },
        look,
      );
    }),
  ];
  return { textStyle: { fontFamily: look.fontFamily }, graphic: { elements: shapes } };
}

interface Panel {
  id: string;
  title: string;
  left: number;
  right: number;
  bottom: number;
  isLast: boolean;
  toX: (times: number) => number;
  toY: (ms: number) => number;
  ticks: readonly number[];
}

function drawPanel(points: readonly GrowthPoint[], panel: Panel, look: Look): Shape[] {
  const { id, left, right, bottom, toX, toY } = panel;
  const names = Object.keys(costs) as Cost[];
  const inks = new Map(names.map((name, i) => [name, look.groups[i] ?? look.ink]));
  const sorted = points.toSorted((a, b) => a.times - b.times);
  const [first, last] = [sorted[0], sorted.at(-1)];
  const bySize = first === undefined ? 1 : Math.min(...Object.values(first.processorMs));
  const placed = last === undefined ? new Map<Cost, number>() : spreadNames(names, last, toY);
  return [
    label(`${id}-title`, { text: panel.title, x: left, y: 46, color: look.ink }, look),
    ...panel.ticks.map((tick) =>
      line(`${id}-line-${tick}`, 'ground', [left, toY(10 ** tick)], [right, toY(10 ** tick)], {
        stroke: look.hairline,
      }),
    ),
    line(`${id}-size`, 'band', [toX(1), toY(bySize)], [toX(10), toY(10 * bySize)], {
      stroke: look.hairlineStrong,
      lineDash: [5, 4],
    }),
    ...SIZES.map((times) =>
      label(
        `${id}-times-${times}`,
        { text: `${times}×`, x: toX(times), y: bottom + 16, color: look.inkSoft, align: 'center' },
        look,
      ),
    ),
    ...names.flatMap((name): Shape[] => {
      const stroke = inks.get(name) ?? look.ink;
      const places = sorted.map((one): [number, number] => [toX(one.times), toY(one.processorMs[name])]);
      const end = last?.processorMs[name];
      return [
        polyline(`${id}-${name}`, 'over', places, { stroke, lineWidth: 2 }),
        ...places.map(([x, y], i) =>
          rect(`${id}-${name}-${i}`, 'over', { x: x - 3, y: y - 3, width: 6, height: 6 }, { fill: stroke }),
        ),
        ...(panel.isLast && end !== undefined
          ? [
              label(
                `${id}-${name}-name`,
                { text: costs[name], x: right + 6, y: placed.get(name) ?? toY(end), color: stroke },
                look,
              ),
            ]
          : []),
      ];
    }),
    ...(panel.isLast
      ? []
      : [
          label(
            'size-name',
            { text: 'dashed: grows as the size does', x: left, y: bottom + 38, color: look.inkSoft },
            look,
          ),
        ]),
  ];
}

const LINE_PX = 17;

/** Names at the ends of their lines, moved down as far as they would lie on each other. */
function spreadNames(
  names: readonly Cost[],
  last: GrowthPoint,
  toY: (ms: number) => number,
): Map<Cost, number> {
  const placed = new Map<Cost, number>();
  let free = Number.NEGATIVE_INFINITY;
  for (const name of names.toSorted((a, b) => last.processorMs[b] - last.processorMs[a])) {
    const y = Math.max(free, toY(last.processorMs[name]));
    placed.set(name, y);
    free = y + LINE_PX;
  }
  return placed;
}
