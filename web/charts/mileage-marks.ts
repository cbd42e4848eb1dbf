import { formatKm, formatOdometer } from '#web/format/format-km.ts';
import { formatWhole } from '#web/format/format-number.ts';
import type { MileagePlot } from './mileage-plot.ts';
import { currentFit } from './mileage-view.ts';
import { type LaneLabel, placeInLanes } from './place-in-lanes.ts';
import { sayBorder } from './say-life.ts';
import { label, line, type Shape } from './shapes.ts';

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
  const placed = placeInLanes(marks, layout.lanes, bounds, look.smallPx);
  const shapes: Shape[] = [];
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
      texts: [`rise began near ${formatKm(onset.estimate, units)}`, 'rise began', 'rise'],
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

function drawStem(plot: MileagePlot, mark: Mark, top: number): Shape[] {
  const { layout, frame, bottomPx } = plot;
  const { look } = frame;
  const x = Math.round(mark.xPx) + 0.5;
  const last = layout.setAside.at(-1)?.rect ?? layout.strips.at(-1) ?? layout.main;
  const lowest = last.top + last.height;
  switch (mark.kind) {
    case 'now':
      return [line(mark.id, 'band', [x, top], [x, lowest], { stroke: look.ink })];
    case 'life':
      return [line(mark.id, 'band', [x, top], [x, lowest], { stroke: look.hairlineStrong, lineWidth: 1.5 })];
    case 'onset':
      return [line(mark.id, 'band', [x, top], [x, bottomPx], { stroke: look.inkSoft })];
    case 'horizon':
      return [
        line(mark.id, 'band', [x, top], [x, bottomPx], { stroke: look.hairlineStrong, lineDash: [1.5, 3] }),
      ];
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
  const foot = size >= 0 ? bottomPx : Math.min(toY(0) + 0, bottomPx);
  return [
    line(mark.id, 'band', [x, top], [x, layout.main.top + 8], { stroke: look.hairlineStrong }),
    line(`${mark.id}-size`, 'band', [x, foot], [x, toY(Math.abs(size))], {
      stroke: look.hairlineStrong,
      lineWidth: 4,
    }),
  ];
}
