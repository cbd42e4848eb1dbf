import { useNavigate } from '@tanstack/react-router';
import { useCallback } from 'react';
import type { Outlook } from '#server/contract/ranking.ts';
import { Chart } from '#web/charts/chart.tsx';
import type { Frame } from '#web/charts/frame.ts';
import type { Look } from '#web/charts/look.ts';
import { outlookLegend, outlookNumbers, outlookOption } from '#web/charts/outlook-option.ts';
import styles from './outlook-figure.module.css';
import { sayCover } from './say-cover.ts';

const heightPx = 196;

/** When limits are reached, week by week, against the bay days that are free. */
export function OutlookFigure({ outlook }: { outlook: Outlook | null }) {
  const navigate = useNavigate();
  const draw = useCallback(
    (frame: Frame) => (outlook === null ? {} : outlookOption(outlook, frame)),
    [outlook],
  );
  const numbers = useCallback(() => (outlook === null ? [] : [outlookNumbers(outlook)]), [outlook]);
  const legend = useCallback((look: Look) => outlookLegend(outlook, look), [outlook]);
  const says = outlook === null ? '\u00a0' : sayCover(outlook);
  return (
    <Chart
      title={<h2 className={styles.title}>{says}</h2>}
      legend={legend}
      label={`Vehicles that reach their limit, week by week, against free bay days. ${says}.`}
      draw={draw}
      numbers={numbers}
      height={heightPx}
      onPick={(vehicle) => {
        if (vehicle !== '') void navigate({ to: '/vehicles/$vehicle', params: { vehicle } });
      }}
    />
  );
}
