import type { MileagePlot } from './mileage-plot.ts';
import { currentFit } from './mileage-view.ts';
import { line, rect, type Shape } from './shapes.ts';

/** What lies below the data: the kilometres to come, the baselines with their intervals, onset and limit. */
export function drawGround(plot: MileagePlot): Shape[] {
  return [...drawFuture(plot), ...drawBaselines(plot), ...drawOnset(plot), ...drawLimit(plot)];
}

function drawFuture({ view, range, toX, layout, rightPx, frame }: MileagePlot): Shape[] {
  if (view.nowKm >= range.toKm) return [];
  const x = toX(Math.max(view.nowKm, range.fromKm));
  return [layout.main, ...layout.strips].map((area, i) =>
    rect(
      `future-${i}`,
      'ground',
      { x, y: area.top, width: rightPx - x, height: area.height },
      {
        fill: frame.look.paperSunk,
      },
    ),
  );
}

function drawBaselines(plot: MileagePlot): Shape[] {
  const { view, range, toX, toY, frame } = plot;
  const shown = currentFit(view);
  return view.shown.fits.flatMap((fit) => {
    const fromKm = Math.max(fit.from_km, range.fromKm);
    const toKm = Math.min(fit.onset_km?.estimate ?? fit.to_km, range.toKm);
    const isShown = fit === shown;
    const { estimate, low, high } = fit.baseline_rpm;
    const y = toY(Math.min(Math.max(estimate, view.lowRpm), view.topRpm));
    const shapes: Shape[] = [];
    if (toKm > fromKm) {
      const top = toY(Math.min(high, view.topRpm));
      shapes.push(
        rect(
          `baseline-band-${fit.life}`,
          'ground',
          {
            x: toX(fromKm),
            y: top,
            width: toX(toKm) - toX(fromKm),
            height: Math.max(toY(Math.max(low, view.lowRpm)) - top, 2),
          },
          { fill: frame.look.hairlineStrong, opacity: isShown ? 0.38 : 0.2 },
        ),
      );
    }
    if (isShown && range.toKm > fromKm)
      shapes.push(
        line(`baseline-${fit.life}`, 'ground', [toX(fromKm), y], [toX(range.toKm), y], {
          stroke: frame.look.hairlineStrong,
          lineDash: [2, 3],
        }),
      );
    return shapes;
  });
}

/** Where the rise began, with its interval as a bracket on the axis. */
function drawOnset({ view, range, toX, layout, bottomPx, frame }: MileagePlot): Shape[] {
  const onset = currentFit(view)?.onset_km ?? null;
  if (onset === null) return [];
  const fromKm = Math.max(onset.low, range.fromKm);
  const toKm = Math.min(onset.high, range.toKm);
  if (toKm <= fromKm) return [];
  return [
    rect(
      'onset-interval',
      'ground',
      { x: toX(fromKm), y: layout.main.top, width: toX(toKm) - toX(fromKm), height: layout.main.height },
      { fill: frame.look.hairline, opacity: 0.45 },
    ),
    line('onset-bracket', 'band', [toX(fromKm), bottomPx - 1.5], [toX(toKm), bottomPx - 1.5], {
      stroke: frame.look.inkSoft,
      lineWidth: 3,
    }),
  ];
}

function drawLimit({ view, toY, layout, rightPx, frame }: MileagePlot): Shape[] {
  if (!view.isReference) return [];
  const y = toY(view.series.limit_rpm);
  return [
    line('limit', 'band', [layout.main.left, y], [rightPx, y], { stroke: frame.look.ink, lineWidth: 2 }),
  ];
}
