import { causeWords, outcomeWords } from '#server/contract/packet-words.ts';
import type { Packet } from '#server/contract/packets.ts';
import type { Closing, RepairCheck } from '#server/contract/repair.ts';
import { formatMoment } from '#web/format/format-date.ts';
import { formatOdometer } from '#web/format/format-km.ts';
import { formatRpm } from '#web/format/format-rpm.ts';
import { useUnits } from '#web/ui/use-units.ts';
import styles from './closing-view.module.css';

/** How the job ended, what began with it, and whether slip stayed down since. */
export function ClosingView({ packet, closing }: { packet: Packet; closing: Closing }) {
  const units = useUnits();
  const cause = closing.cause_words ?? (closing.cause === null ? null : causeWords[closing.cause]);
  const facts: [string, string | null][] = [
    ['Closed', `${formatMoment(closing.at)}, ${closing.by}`],
    ['Work done', `${formatMoment(closing.work_at)}, at ${formatOdometer(closing.odometer_km, units)}`],
    ['Cause', closing.outcome === 'repaired' ? cause : null],
    ['Old converter', closing.ended],
    ['New converter life', closing.new_life === null ? null : `life ${closing.new_life} began`],
    [
      'List calm until',
      closing.calm_until_km === null
        ? null
        : `${formatOdometer(closing.calm_until_km, units)}, unless slip rises before`,
    ],
  ];
  return (
    <div className={styles.closing}>
      <p className={styles.outcome}>{outcomeWords[closing.outcome]}</p>
      {closing.reason !== '' && <p className={styles.words}>{closing.reason}</p>}
      <dl className={styles.facts}>
        {facts.map(([name, value]) =>
          value === null ? null : (
            <div key={name}>
              <dt>{name}</dt>
              <dd>{value}</dd>
            </div>
          ),
        )}
      </dl>
      {closing.without_cooler !== '' && (
        <p className={styles.without}>
          <strong>Closed without the cooler record that was due.</strong> {closing.without_cooler}
        </p>
      )}
      {packet.after !== null && <RepairView check={packet.after} />}
    </div>
  );
}

export const repairWords: Record<RepairCheck['state'], string> = {
  too_early: 'Too early to say',
  held: 'The repair held',
  not_held: 'The repair did not hold',
  unclear: 'Not clear whether the repair held',
};

function RepairView({ check }: { check: RepairCheck }) {
  const { slip_rpm: slip, healthy_rpm: healthy } = check;
  const most = Math.max(slip?.high ?? 0, healthy?.high ?? 0, 10) * 1.15;
  const share = (rpm: number) => `${Math.max(0, Math.min(1, rpm / most)) * 100}%`;
  return (
    <div className={styles.check} data-state={check.state}>
      <h3>{check.words}</h3>
      {slip !== null && (
        <>
          <svg className={styles.strip} width="100%" height="44" aria-hidden="true">
            {healthy !== null && (
              <rect className={styles.healthy} x="0" y="6" width={share(healthy.high)} height="32" />
            )}
            <line className={styles.base} x1="0" x2="100%" y1="22" y2="22" />
            <rect
              className={styles.slip}
              x={share(slip.low)}
              y="15"
              height="14"
              style={{ width: `max(2px, calc(${share(slip.high)} - ${share(slip.low)}))` }}
            />
            <line
              className={styles.notch}
              x1={share(slip.estimate)}
              x2={share(slip.estimate)}
              y1="13"
              y2="31"
            />
          </svg>
          <p className={styles.soft}>
            Slip since the work {formatRpm(slip.estimate)} ({formatRpm(slip.low)} to {formatRpm(slip.high)})
            {healthy !== null &&
              `; healthy vehicles of the platform have about ${formatRpm(healthy.usual)}, at most ${formatRpm(healthy.high)} (shaded)`}
          </p>
        </>
      )}
    </div>
  );
}
