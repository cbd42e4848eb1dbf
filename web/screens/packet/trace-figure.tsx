import { useCallback } from 'react';
import type { RoadTrace } from '#server/contract/test-steps.ts';
import { Chart } from '#web/charts/chart.tsx';
import type { Frame } from '#web/charts/frame.ts';
import { listTraceDutyNumbers, listTraceNumbers } from '#web/charts/list-trace-numbers.ts';
import { traceDutyOption } from '#web/charts/trace-duty-option.ts';
import { traceOption } from '#web/charts/trace-option.ts';
import { formatWhole } from '#web/format/format-number.ts';
import { sayLength, saySteady, sumAside } from './say-set-aside.ts';
import styles from './trace-figure.module.css';

const heightPx = 320;

/** A recorded road test: slip over time, slip against command, what was set aside, and what was noticed of the file. */
export function TraceFigure({ trace }: { trace: RoadTrace }) {
  const drawTime = useCallback((frame: Frame) => traceOption(trace, frame), [trace]);
  const drawDuty = useCallback((frame: Frame) => traceDutyOption(trace, frame), [trace]);
  const steady = saySteady(trace);
  return (
    <div className={styles.figure}>
      <div className={styles.charts}>
        <Chart
          title={<h4>Slip over the drive</h4>}
          label={`Slip over the time of the road test. ${steady} ${sayLevels(trace)}`}
          draw={drawTime}
          height={heightPx}
          numbers={({ units }) => listTraceNumbers(trace, units)}
        />
        <Chart
          title={<h4>Slip by command</h4>}
          label={`Slip of each steady stretch against its command. ${sayLevels(trace)} ${sayRange(trace)}`}
          draw={drawDuty}
          height={heightPx}
          numbers={({ units }) => listTraceDutyNumbers(trace, units)}
        />
      </div>
      <TraceWords trace={trace} steady={steady} />
    </div>
  );
}

function TraceWords({ trace, steady }: { trace: RoadTrace; steady: string }) {
  const { file, rows, seconds_between_rows: step, told } = trace;
  const aside = sumAside(trace);
  return (
    <div className={styles.words}>
      <div>
        <p>
          {steady}
          {aside.length > 0 && ' Not looked at:'}
        </p>
        {aside.length > 0 && (
          <dl>
            {aside.map(({ says, seconds }) => [
              <dt key={says}>{says}</dt>,
              <dd key={`${says} seconds`}>{sayLength(seconds)}</dd>,
            ])}
          </dl>
        )}
      </div>
      <div>
        <p>
          {file.name}, {formatWhole(rows)} rows, {sayStep(step)}
        </p>
        {told.map((one) => (
          <p key={one}>{one}</p>
        ))}
        {trace.healthy.length === 0 && <p>{sayRange(trace)}</p>}
      </div>
    </div>
  );
}

const sayStep = (seconds: number): string =>
  seconds > 0 && seconds < 1 ? `${formatWhole(1 / seconds)} a second` : `one every ${formatWhole(seconds)} s`;

function sayLevels({ steady, limit_rpm }: RoadTrace): string {
  const limit = `The limit is ${formatWhole(limit_rpm)} rpm.`;
  const most = steady.toSorted((a, b) => b.slip_rpm - a.slip_rpm)[0];
  if (most === undefined) return limit;
  return `The most slip is ${formatWhole(most.slip_rpm)} rpm at ${formatWhole(most.duty_pct)} % command, held for ${formatWhole(most.to_s - most.from_s)} s. ${limit}`;
}

const sayRange = ({ healthy }: RoadTrace): string =>
  healthy.length === 0
    ? 'No healthy range is known of this platform yet.'
    : 'The shade holds 95 % of the healthy vehicles of this platform.';
