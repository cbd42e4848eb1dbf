import { formatKm, formatOdometer, toReaderDistance } from '#web/format/format-km.ts';
import { formatWhole } from '#web/format/format-number.ts';
import type { Units } from '#web/format/units.ts';
import type { MileagePlot } from './mileage-plot.ts';
import { currentFit } from './mileage-view.ts';
import { type LaneLabel, placeInLanes } from './place-in-lanes.ts';
import { sayBand } from './say-band.ts';
import { sayBorder } from './say-life.ts';
import { label, line, type Shape } from './shapes.ts';
import { textWidth } from './text-width.ts';

interface Mark extends LaneLabel {
  km: number;
  kind: 'now' | 'life' | 'onset' | 'horizon' | 'event';
}

/** Upright marks, named above the plot where they fit: now, where lives began, onset, horizon, fleet events. */
export function drawMarks(plot: MileagePlot): Shape[] {
  const { layout, frame, rightPx } = plot;
  const { look } = frame;
  const marks = listMarks(plot).filter((mark) => plot.isInRange(mark.km));
  const bounds = { leftPx: layout.main.left - 8, rightPx: layout.isNarrow ? frame.widthPx : rightPx + 160 };
  const title = sayWhatIsShown(plot);
  const titleRight = layout.main.left + textWidth(title, look.smallPx) + 12;
  const placed = placeInLanes(marks, layout.lanes, bounds, look.smallPx, [
    { lane: 0, fromPx: 0, toPx: titleRight },
  ]);
  const shapes: Shape[] = [
    label(
      'y-title',
      {
        text: title,
        x: layout.main.left,
        y: layout.main.top - 8,
        color: look.inkSoft,
      },
      look,
    ),
  ];
  for (const mark of marks) {
    const words = placed.find((one) => one.id === mark.id);
    const top = layout.main.top - (words === undefined ? 0 : (words.lane + 1) * layout.laneHeight - 4);
    shapes.push(...drawStem(plot, mark, top));
    if (words === undefined) continue;
    shapes.push(
      label(
        `${mark.id}-words`,
        {
          text: words.text,
          x: words.align === 'left' ? mark.xPx + 4 : mark.xPx - 4,
          y: top + layout.laneHeight / 2 - 3,
          color: mark.kind === 'event' || mark.kind === 'horizon' ? look.inkFaint : look.ink,
          align: words.align,
          strong: mark.kind === 'now',
        },
        look,
      ),
    );
  }
  return shapes;
}

const sayWhatIsShown = ({ view, layout }: MileagePlot): string => {
  const command = view.isReference ? `${formatWhole(view.series.reference.duty_pct)} %` : sayBand(view.shown);
  return layout.isNarrow ? 'rpm' : `slip at ${command} command, rpm`;
};

/** In the order of what matters most, should there be no room for all. */
function listMarks({ view, toX, frame }: MileagePlot): Mark[] {
  const { units } = frame;
  const { series } = view;
  const at = (km: number) => ({ km, xPx: toX(km) });
  const marks: Mark[] = [
    {
      id: 'now',
      kind: 'now',
      ...at(view.nowKm),
      texts: [`now ${formatOdometer(view.nowKm, units)}`, 'now'],
    },
  ];
  const onset = currentFit(view)?.onset_km;
  if (onset != null)
    marks.push({
      id: 'onset',
      kind: 'onset',
      ...at(onset.estimate),
      texts: [`rise began near ${sayNear(onset.estimate, units)}`, 'rise began', 'rise'],
    });
  for (const life of series.lives)
    if (life.fitted_km > view.whole.fromKm)
      marks.push({
        id: `life-${life.life}`,
        kind: 'life',
        ...at(life.fitted_km),
        texts: sayBorder(life, units),
      });
  if (view.isReference && series.forecast !== null)
    marks.push({
      id: 'horizon',
      kind: 'horizon',
      ...at(view.nowKm + series.horizon_km),
      texts: [`horizon ${formatKm(series.horizon_km, units)}`, 'horizon'],
    });
  series.fleet_events.forEach((event, i) => {
    if (event.odometer_km === null) return;
    const size = `${event.size_rpm > 0 ? '+' : ''}${formatWhole(event.size_rpm)} rpm`;
    marks.push({
      id: `event-${i}`,
      kind: 'event',
      ...at(event.odometer_km),
      texts: [`whole platform ${size}, taken out`, `platform ${size}`, size],
    });
  });
  return marks;
}

/** To the hundred: an onset is not known to the kilometre. */
const sayNear = (km: number, units: Units): string =>
  `${formatWhole(Math.round(toReaderDistance(km, units) / 100) * 100)} ${units.distance}`;

/** In each plot by itself, so that no line runs through the words between them. */
function drawStem(plot: MileagePlot, mark: Mark, top: number): Shape[] {
  const { layout, frame, bottomPx } = plot;
  const { look } = frame;
  const x = Math.round(mark.xPx) + 0.5;
  const inMain = (style: Parameters<typeof line>[4]) => line(mark.id, 'band', [x, top], [x, bottomPx], style);
  const inAll = (style: Parameters<typeof line>[4]) => [
    inMain(style),
    ...[...layout.strips, ...layout.setAside.map((row) => row.rect)].map((rect, i) =>
      line(`${mark.id}-${i}`, 'band', [x, rect.top], [x, rect.top + rect.height], style),
    ),
  ];
  switch (mark.kind) {
    case 'now':
      return inAll({ stroke: look.ink });
    case 'life':
      return inAll({ stroke: look.hairlineStrong, lineWidth: 1.5 });
    case 'onset':
      return [inMain({ stroke: look.inkSoft })];
    case 'horizon':
      return [inMain({ stroke: look.hairlineStrong, lineDash: [1.5, 3] })];
    case 'event':
      return drawEvent(plot, mark, top);
  }
}

/** A step of the whole platform, as high as it was on the scale of the plot. */
function drawEvent({ view, frame, layout, toY, bottomPx }: MileagePlot, mark: Mark, top: number): Shape[] {
  const index = Number(mark.id.slice('event-'.length));
  const size = view.series.fleet_events[index]?.size_rpm ?? 0;
  const x = Math.round(mark.xPx) + 0.5;
  const { look } = frame;
  const foot = bottomPx;
  return [
    line(mark.id, 'band', [x, top], [x, layout.main.top + 8], { stroke: look.hairlineStrong }),
    line(`${mark.id}-size`, 'band', [x, foot], [x, toY(Math.abs(size))], {
      stroke: look.hairlineStrong,
      lineWidth: 4,
    }),
  ];
}
