import { useNavigate } from '@tanstack/react-router';
import { useCallback } from 'react';
import type { Outlook } from '#server/contract/ranking.ts';
import { Chart } from '#web/charts/chart.tsx';
import type { Frame } from '#web/charts/frame.ts';
import { hasBayDaysInSight, outlookNumbers, outlookOption } from '#web/charts/outlook-option.ts';
import styles from './outlook-figure.module.css';
import { sayCover } from './say-cover.ts';

const heightPx = 196;
const drawnGrades = ['hold', 'book', 'watch'] as const;

/** When limits are reached, week by week, against the bay days that are free. */
export function OutlookFigure({ outlook }: { outlook: Outlook | null }) {
  const navigate = useNavigate();
  const draw = useCallback(
    (frame: Frame) => (outlook === null ? {} : outlookOption(outlook, frame)),
    [outlook],
  );
  const numbers = useCallback(() => (outlook === null ? [] : [outlookNumbers(outlook)]), [outlook]);
  const says = outlook === null ? '\u00a0' : sayCover(outlook);
  return (
    <Chart
      title={
        <div>
          <h2 className={styles.title}>{says}</h2>
          <ul className={styles.legend}>
            <li>
              {drawnGrades.map((grade) => (
                <span key={grade} className={styles.mark} data-grade={grade} />
              ))}
              a vehicle (hold, book, watch) in the week of its median
            </li>
            <li>
              <span className={styles.mark} data-seen-to /> with a day, or inspected
            </li>
            <li>
              <span className={styles.bar} /> expected, the others
            </li>
            {outlook !== null && hasBayDaysInSight(outlook) && (
              <li>
                <span className={styles.line} /> free bay days
              </li>
            )}
          </ul>
        </div>
      }
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
