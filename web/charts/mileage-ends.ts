import { setAsideWords } from '#server/contract/set-aside-words.ts';
import type { SeriesFit } from '#server/contract/vehicle.ts';
import { driftUnit, formatDrift, formatRpm } from '#web/format/format-rpm.ts';
import type { Units } from '#web/format/units.ts';
import type { MileagePlot } from './mileage-plot.ts';
import { currentFit } from './mileage-view.ts';
import { sayBand } from './say-band.ts';
import { label, line, type Shape } from './shapes.ts';
import { spreadLabels } from './spread-labels.ts';
import { textWidth } from './text-width.ts';

interface End {
  id: string;
  yPx: number;
  text: string;
  strong: boolean;
  color: string;
}

const lineHeightPx = 17;

/** Names at the ends of the lines: limit, slip now, baseline; at the right of the plot, or inside a narrow one. */
export function drawEnds(plot: MileagePlot): Shape[] {
  const { layout, frame, rightPx, bottomPx } = plot;
  const { look } = frame;
  if (layout.isNarrow) return listEnds(plot).map((end) => drawInside(plot, end));
  const spread = spreadLabels(listEnds(plot), lineHeightPx, {
    topPx: layout.main.top + 2,
    bottomPx: bottomPx - 4,
  });
  return spread.flatMap((end) => [
    line(`${end.id}-leader`, 'band', [rightPx + 2, end.yPx], [rightPx + 12, end.placedPx], {
      stroke: look.hairlineStrong,
    }),
    label(
      end.id,
      { text: end.text, x: rightPx + 16, y: end.placedPx, color: end.color, strong: end.strong },
      look,
    ),
  ]);
}

/** Above its line: at the right if what is to come leaves room there, else at the left. */
function drawInside({ view, toX, layout, rightPx, frame }: MileagePlot, end: End): Shape {
  const { look } = frame;
  const roomAhead = rightPx - Math.max(toX(view.nowKm), layout.main.left);
  const isLeft = end.id === 'limit-words' || roomAhead < textWidth(end.text, look.smallPx) * 0.4;
  const liftPx = isLeft && end.id === 'baseline-words' ? 24 : 11;
  return label(
    end.id,
    {
      text: end.text,
      x: isLeft ? layout.main.left + 3 : rightPx - 3,
      y: end.yPx - liftPx,
      color: end.color,
      strong: end.strong,
      align: isLeft ? 'left' : 'right',
    },
    look,
  );
}

function listEnds(plot: MileagePlot): End[] {
  const { view, toY, frame } = plot;
  const { look } = frame;
  const ends: End[] = [];
  if (view.isReference)
    ends.push({
      id: 'limit-words',
      yPx: toY(view.series.limit_rpm),
      text: `limit ${formatRpm(view.series.limit_rpm)}${view.hasOwnLimit ? '' : ', assumed'}`,
      strong: true,
      color: look.ink,
    });
  const fit = currentFit(view);
  if (fit !== undefined && fit.baseline_rpm.estimate < view.topRpm)
    ends.push({
      id: 'baseline-words',
      yPx: toY(fit.baseline_rpm.estimate),
      text: `baseline ${formatRpm(fit.baseline_rpm.estimate)}`,
      strong: false,
      color: look.inkSoft,
    });
  return ends;
}

/** Each strip with its command band and its own drift; each row of what was set aside with its reason. */
export function drawStripNames(plot: MileagePlot): Shape[] {
  const { view, layout, frame, rightPx } = plot;
  const { look, units } = frame;
  const life = view.chosenLife ?? view.lastLife;
  const shapes: Shape[] = [];
  const title = (id: string, y: number, text: string) =>
    shapes.push(label(id, { text, x: layout.main.left, y, color: look.inkSoft }, look));
  if (view.strips.length > 0) title('strips-title', layout.stripTitleY, 'slip by command, rpm');
  view.strips.forEach((strip, i) => {
    const rect = layout.strips[i];
    if (rect === undefined) return;
    const fit = strip.fits.find((one) => one.life === life);
    const isChosen = strip.band === view.shown.band;
    const name = { text: sayBand(strip), color: isChosen ? look.accent : look.ink, strong: isChosen };
    const rate = fit === undefined ? 'too few' : sayDrift(fit.drift_rpm_per_1000km, units);
    if (layout.isNarrow) {
      shapes.push(
        label(`strip-${strip.band}`, { ...name, x: layout.main.left, y: rect.top - 9 }, look),
        label(
          `rate-${strip.band}`,
          { text: rate, color: look.inkSoft, x: rightPx, y: rect.top - 9, align: 'right' },
          look,
        ),
      );
      return;
    }
    const middle = rect.top + rect.height / 2;
    shapes.push(
      label(`strip-${strip.band}`, { ...name, x: rightPx + 16, y: middle - 9 }, look),
      label(`rate-${strip.band}`, { text: rate, color: look.inkSoft, x: rightPx + 16, y: middle + 9 }, look),
    );
  });
  if (layout.setAside.length > 0) title('set-aside-title', layout.setAsideTitleY, 'readings set aside');
  for (const { reason, rect } of layout.setAside)
    shapes.push(
      label(
        `reason-${reason}`,
        layout.isNarrow
          ? { text: setAsideWords[reason], x: layout.main.left, y: rect.top - 7, color: look.inkSoft }
          : {
              text: setAsideWords[reason],
              x: rightPx + 16,
              y: rect.top + rect.height / 2,
              color: look.inkSoft,
            },
        look,
      ),
    );
  return shapes;
}

const sayDrift = (drift: SeriesFit['drift_rpm_per_1000km'], units: Units): string =>
  drift === null ? 'no drift' : `${formatDrift(drift.estimate, units)} ${driftUnit(units)}`;
