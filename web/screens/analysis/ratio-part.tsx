import { useCallback, useMemo } from 'react';
import type { LivesReply } from '#server/contract/lives.ts';
import { Chart } from '#web/charts/chart.tsx';
import type { Frame } from '#web/charts/frame.ts';
import { hazardRatioOption, listRatioNumbers, ratioHeight } from '#web/charts/hazard-ratio-option.ts';
import { formatPercent } from '#web/format/format-percent.ts';
import { sayChance } from '#web/format/say-chance.ts';
import parts from '#web/ui/parts.module.css';
import head from '#web/ui/screen-head.module.css';
import { useUnits } from '#web/ui/use-units.ts';
import { readRatio, sayRatio } from './exposure-words.ts';
import type { PictureSource } from './figure-props.ts';
import styles from './figures.module.css';

/** Rule of thumb: fewer failures for each exposure make hazard ratios unsteady. */
const fewestForEach = 10;

interface Props {
  cox: NonNullable<LivesReply['cox']>;
  confidence: number;
  source: PictureSource;
  /** whether exposures are columns of somebody's table, in units of their own */
  isOwn?: boolean;
  /** what is failing: 'converters' */
  who: string;
  /** what is to be known of these exposures */
  caution?: string;
}

/** Hazard ratios with their bounds, drawn and in words. */
export function RatioPart({ cox, confidence, source, isOwn = false, who, caution = '' }: Props) {
  const units = useUnits();
  const rows = useMemo(
    () => cox.terms.map((term) => readRatio(term, isOwn ? null : units)),
    [cox, units, isOwn],
  );
  const draw = useCallback((frame: Frame) => hazardRatioOption(rows, frame), [rows]);
  const numbers = useCallback(() => listRatioNumbers(rows), [rows]);
  return (
    <section className={parts.part}>
      <Chart
        title={
          <div>
            <h2>Exposures that go with failing</h2>
            <p className={head.reading}>
              How many times as often {who} fail at the same use, for a usual step of each exposure, the
              others being equal. The stroke holds {formatPercent(confidence)}; where it crosses 1 no
              difference can be told.
            </p>
          </div>
        }
        label={`Hazard ratios. ${rows.map(sayRatio).join('. ')}.`}
        draw={draw}
        height={ratioHeight(rows.length)}
        numbers={numbers}
        {...source}
      />
      <ul className={styles.lines}>
        {rows.map((row) => (
          <li key={row.name}>{sayRatio(row)}</li>
        ))}
      </ul>
      <p className={head.reading}>
        From {cox.n} {who} with {cox.events} failures; without any effect of exposures chance alone would show
        as much {sayChance(cox.p)}. {caution}
        {cox.events < fewestForEach * rows.length &&
          ` With fewer than ${fewestForEach} failures for each exposure, take them as hints.`}
      </p>
    </section>
  );
}
