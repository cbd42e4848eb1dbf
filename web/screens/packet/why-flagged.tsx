import { useCallback, useMemo, useState } from 'react';
import type { Packet } from '#server/contract/packets.ts';
import { usePacketSeries } from '#web/api/use-packet.ts';
import { formatDate } from '#web/format/format-date.ts';
import { driftUnit, formatDrift, formatRpm } from '#web/format/format-rpm.ts';
import { ConditionFigures } from '#web/screens/vehicle/condition-figures.tsx';
import { MileageFigure } from '#web/screens/vehicle/mileage-figure.tsx';
import {
  patchVehicleSearch,
  type VehicleChange,
  type VehicleSearch,
} from '#web/screens/vehicle/vehicle-search.ts';
import { Waiting } from '#web/screens/vehicle/waiting.tsx';
import { ProblemNote } from '#web/ui/problem-note.tsx';
import { useUnits } from '#web/ui/use-units.ts';
import styles from './why-flagged.module.css';

/** Reasons, pattern and codes as they stood, and the charts of the vehicle as they are. */
export function WhyFlagged({ packet }: { packet: Packet }) {
  const units = useUnits();
  const { flag } = packet;
  return (
    <>
      {flag.pattern_words !== '' && <p className={styles.pattern}>{flag.pattern_words}</p>}
      <ul className={styles.reasons}>
        {flag.reasons.map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
      <dl className={styles.facts}>
        <Fact
          name="Slip"
          value={formatRpm(flag.reference_slip_rpm)}
          note={`limit ${formatRpm(flag.limit_rpm)}`}
        />
        <Fact name="When healthy" value={formatRpm(flag.baseline_rpm)} />
        {flag.drift_rpm_per_1000km !== null && (
          <Fact
            name="Drift"
            value={formatDrift(flag.drift_rpm_per_1000km.estimate, units)}
            note={driftUnit(units)}
          />
        )}
      </dl>
      {flag.codes.length > 0 && (
        <div className={styles.codes}>
          <h3>Trouble codes</h3>
          <ul>
            {flag.codes.map(({ code, meaning, n, first_at, last_at, names_clutch }) => (
              <li key={code}>
                <strong>{code}</strong> {meaning}
                <span className={styles.soft}>
                  {n === 1 ? 'in one reading' : `in ${n} readings`}, {formatDate(first_at)}
                  {formatDate(last_at) !== formatDate(first_at) && ` to ${formatDate(last_at)}`}
                  {names_clutch && ' · names the converter clutch'}
                </span>
              </li>
            ))}
          </ul>
        </div>
      )}
      <Figures packet={packet} />
    </>
  );
}

const Fact = ({ name, value, note }: { name: string; value: string; note?: string }) => (
  <div>
    <dt>{name}</dt>
    <dd>
      {value}
      {note !== undefined && <span className={styles.soft}>{note}</span>}
    </dd>
  </div>
);

function Figures({ packet }: { packet: Packet }) {
  const { data, isPending, isError, error, refetch } = usePacketSeries(packet.id);
  // What is looked at in the chart is not what a packet's address is for.
  const [search, setSearch] = useState<VehicleSearch>({});
  const change = useCallback(
    (to: VehicleChange) => void setSearch((before) => patchVehicleSearch(before, to)),
    [],
  );
  const state = useMemo(
    () => ({ vehicle: packet.vehicle, search, change }),
    [packet.vehicle, search, change],
  );
  const { grade } = packet.now;
  const { limit_rpm } = packet.flag;
  const { platform } = packet;
  const assessment = useMemo(() => ({ grade, limit_rpm, platform }), [grade, limit_rpm, platform]);
  if (isPending) return <Waiting name="the chart" heightPx={480} />;
  if (isError && data === undefined) return <ProblemNote error={error} onRetry={() => void refetch()} />;
  return (
    <>
      <MileageFigure series={data} assessment={assessment} sentence={packet.now.sentence} state={state} />
      <div className={styles.conditions}>
        <ConditionFigures series={data} />
      </div>
    </>
  );
}
