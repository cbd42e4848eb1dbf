import { useCallback, useMemo } from 'react';
import type { FleetLivesReply } from '#server/contract/lives.ts';
import { Chart } from '#web/charts/chart.tsx';
import type { Frame } from '#web/charts/frame.ts';
import { hazardRatioOption, listRatioNumbers, ratioHeight } from '#web/charts/hazard-ratio-option.ts';
import { formatPercent } from '#web/format/format-percent.ts';
import { sayChance } from '#web/format/say-chance.ts';
import { useUnits } from '#web/ui/use-units.ts';
import { readRatio, sayRatio } from './exposure-words.ts';
import styles from './lives.module.css';

/** Rule of thumb: fewer failures for each exposure make hazard ratios unsteady. */
const fewestForEach = 10;

/** What goes with failing sooner. */
export function ExposuresPart({ reply: { cox, declined, confidence } }: { reply: FleetLivesReply }) {
  const units = useUnits();
  const rows = useMemo(() => (cox?.terms ?? []).map((term) => readRatio(term, units)), [cox, units]);
  const draw = useCallback((frame: Frame) => hazardRatioOption(rows, frame), [rows]);
  const numbers = useCallback(() => listRatioNumbers(rows), [rows]);
  if (cox === null)
    return (
      <section className={styles.part}>
        <h2>Exposures that go with failing</h2>
        <p className={styles.soft}>
          {declined.cox === undefined || declined.cox.reason === 'no covariates'
            ? 'Too few converters to tell: four in five must have an exposure, and each exposure takes five that failed.'
            : `Cannot be told: ${declined.cox.reason}. Needed: ${declined.cox.needed}; there: ${declined.cox.got}.`}
        </p>
      </section>
    );
  return (
    <section className={styles.part}>
      <Chart
        title={
          <div>
            <h2>Exposures that go with failing</h2>
            <p className={styles.reading}>
              How many times as often converters fail at the same mileage, for a usual step of each exposure,
              the others being equal. The stroke holds {formatPercent(confidence)}; where it crosses 1 no
              difference can be told.
            </p>
          </div>
        }
        label={`Hazard ratios. ${rows.map(sayRatio).join('. ')}.`}
        draw={draw}
        height={ratioHeight(rows.length)}
        numbers={numbers}
      />
      <ul className={styles.lines}>
        {rows.map((row) => (
          <li key={row.name}>{sayRatio(row)}</li>
        ))}
      </ul>
      <p className={styles.reading}>
        From {cox.n} converters with {cox.events} failures; without any effect of exposures chance alone would
        show as much {sayChance(cox.p)}. Exposures go together, hot fluid with load and hills, and two that
        are much the same can turn each other round: the figures say what goes with failing, not what causes
        it.
        {cox.events < fewestForEach * rows.length &&
          ` With fewer than ${fewestForEach} failures for each exposure, take them as hints.`}
      </p>
    </section>
  );
}
