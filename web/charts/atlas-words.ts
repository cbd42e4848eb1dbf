import type { AtlasPlane } from '#server/contract/atlas.ts';
import { formatWhole } from '#web/format/format-number.ts';
import { temperatureUnit } from '#web/format/format-temperature.ts';
import { type AtlasAsked, type AtlasPlot, quantiles } from './atlas-plot.ts';
import { soundQuantiles } from './atlas-quantiles.ts';
import type { Frame } from './frame.ts';
import type { Look } from './look.ts';
import { label, line, type Shape } from './shapes.ts';
import { spreadLabels } from './spread-labels.ts';
import { textWidth } from './text-width.ts';

const labelGapPx = 16;

/** The limit, and what the axes are called. */
export function nameAxes(
  { axis, limitRpm, plane }: AtlasAsked,
  plot: AtlasPlot,
  { look, units, heightPx }: Frame,
): Shape[] {
  const y = Math.round(plot.toY(limitRpm)) + 0.5;
  const title = axis === 'fluid' ? `fluid temperature, ${temperatureUnit(units)}` : 'command, %';
  const atRight = isLowerAtRight(plane);
  return [
    line('limit', 'over', [plot.left, y], [plot.right, y], { stroke: look.ink, lineWidth: 1.25 }),
    label(
      'limit-words',
      {
        text: `limit ${formatWhole(limitRpm)} rpm`,
        x: atRight ? plot.right - 6 : plot.left + 6,
        y: y - 10,
        color: look.ink,
        align: atRight ? 'right' : 'left',
      },
      look,
    ),
    label('y-title', { text: nameSlip(plane, plot, look), x: 0, y: 10, color: look.inkSoft }, look),
    label(
      'x-title',
      { text: title, x: plot.right, y: heightPx - 9, color: look.inkSoft, align: 'right' },
      look,
    ),
  ];
}

/** The words of the limit stand where the lines lie low. */
function isLowerAtRight(plane: AtlasPlane): boolean {
  const sound = soundQuantiles(plane);
  return (sound.at(-1)?.p95 ?? 0) < (sound[0]?.p95 ?? 0);
}

/** With how much the scale leaves out, as far as there is room. */
function nameSlip({ above }: AtlasPlane, { right }: AtlasPlot, { smallPx }: Look): string {
  if (above === 0) return 'slip, rpm';
  const readings = above === 1 ? '1 reading lies' : `${formatWhole(above)} readings lie`;
  const long = `slip, rpm; ${readings} above the scale`;
  return textWidth(long, smallPx) < right ? long : `slip, rpm; ${formatWhole(above)} above the scale`;
}

/** Each line named at its right end, beside the limit and not on it. */
export function nameQuantiles({ plane, limitRpm }: AtlasAsked, plot: AtlasPlot, look: Look): Shape[] {
  const last = soundQuantiles(plane).at(-1);
  if (last === undefined) return [];
  const ends = quantiles.map(({ key, text, tone }) => ({ key, text, tone, yPx: plot.toY(last[key]) }));
  const limitPx = plot.toY(limitRpm);
  const above = ends.filter(({ yPx }) => yPx < limitPx);
  const below = ends.filter(({ yPx }) => yPx >= limitPx);
  return [
    ...spreadLabels(above, labelGapPx, { topPx: plot.top, bottomPx: limitPx - 10 }),
    ...spreadLabels(below, labelGapPx, { topPx: limitPx + 10, bottomPx: plot.foot - 9 }),
  ].map(({ key, text, tone, placedPx }) =>
    label(
      `${key}-words`,
      {
        text,
        x: Math.min(plot.toX(last.x) + 8, plot.right + 4),
        y: placedPx,
        color: look[tone],
        strong: tone === 'ink',
      },
      look,
    ),
  );
}
