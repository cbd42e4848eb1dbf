import { useCallback, useMemo } from 'react';
import type { TrendReply } from '#server/contract/analysis.ts';
import { leastTrendPoints } from '#server/contract/workbench-words.ts';
import { Chart } from '#web/charts/chart.tsx';
import { controlHeight, controlOption, listControlNumbers } from '#web/charts/control-option.ts';
import type { Frame } from '#web/charts/frame.ts';
import { listTrendNumbers, trendOption } from '#web/charts/trend-option.ts';
import { viewTrend } from '#web/charts/trend-view.ts';
import { DeclinedList } from './declined-list.tsx';
import { FigureTables } from './figure-tables.tsx';
import { listTrendFigures, sayTrend, trendNames } from './figures/list-trend-figures.ts';
import styles from './workbench.module.css';

interface Props {
  x: readonly number[];
  y: readonly number[];
  names: { x: string; y: string };
  /** name of the table, for files and pictures */
  name: string;
  reply: TrendReply;
}

/** A series with all that the server says of it. */
export function SeriesResults({ x, y, names, name, reply }: Props) {
  const view = useMemo(
    () => viewTrend({ x, y, xName: names.x, yName: names.y, reply }),
    [x, y, names.x, names.y, reply],
  );
  const draw = useCallback((frame: Frame) => trendOption(view, frame), [view]);
  const drawControl = useCallback((frame: Frame) => controlOption(view, frame), [view]);
  const told =
    reply.n < leastTrendPoints
      ? [
          `A trend takes at least ${leastTrendPoints} points, and most figures more; there ${reply.n === 1 ? 'is 1' : `are ${reply.n}`}.`,
        ]
      : sayTrend(reply, names);
  const figures = listTrendFigures(reply);
  // One place has no width to be drawn over.
  const isDrawn = view.x[0] !== view.x.at(-1);
  const declined = Object.entries(reply.declined).map(([part, why]) => ({
    ...why,
    what: trendNames[part as keyof TrendReply['declined']],
  }));
  const hasControl = reply.cusum !== null || reply.ewma !== null;
  return (
    <>
      <div className={styles.lines}>
        {told.map((sentence) => (
          <p key={sentence}>{sentence}</p>
        ))}
      </div>
      {isDrawn && (
        <Chart
          title={
            <div>
              <h2>
                {names.y} against {names.x}
              </h2>
              {(reply.theil_sen !== null || reply.hinge !== null) && (
                <p className={styles.reading}>
                  The shade about Theil-Sen is what its slope may be; the upright one is where the rise may
                  have begun.
                </p>
              )}
            </div>
          }
          label={`${names.y} against ${names.x}, ${reply.n} ${reply.n === 1 ? 'point' : 'points'}. ${told.join(' ')}`}
          selection={name}
          draw={draw}
          height={400}
          numbers={() => listTrendNumbers(view)}
        />
      )}
      {hasControl && (
        <Chart
          title={
            <div>
              <h2>Control charts</h2>
              <p className={styles.reading}>
                Both watch the values against the healthy start of the series. Beyond the dashed limit is an
                alarm.
              </p>
            </div>
          }
          label={`CUSUM and EWMA of ${names.y}.`}
          selection={name}
          draw={drawControl}
          height={controlHeight(view)}
          numbers={() => listControlNumbers(view)}
        />
      )}
      {figures.rows.length > 0 && <FigureTables tables={[figures]} reply={reply} name={name} />}
      <DeclinedList lines={declined} />
    </>
  );
}
