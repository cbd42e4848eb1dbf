import { Link } from '@tanstack/react-router';
import type { EarlierJob, Packet } from '#server/contract/packets.ts';
import type { Life } from '#server/contract/vehicle.ts';
import { usePacketAccess } from '#web/api/packet-access.ts';
import { formatDate } from '#web/format/format-date.ts';
import { formatOdometer } from '#web/format/format-km.ts';
import { formatRpm } from '#web/format/format-rpm.ts';
import type { Units } from '#web/format/units.ts';
import { useUnits } from '#web/ui/use-units.ts';
import styles from './before-section.module.css';
import { stepNames } from './packet-words.ts';
import { VerdictMark } from './verdict-mark.tsx';

/** What was in this vehicle before, and what came of the same flag here and on its sisters. */
export function BeforeSection({ packet }: { packet: Packet }) {
  const units = useUnits();
  return (
    <>
      <div className={styles.part}>
        <h3>Converters of this vehicle</h3>
        {packet.lives.length === 0 && <p className={styles.soft}>None is registered.</p>}
        <ul className={styles.lines}>
          {packet.lives.map((life) => (
            <li key={life.life}>
              <strong>Life {life.life}</strong>, {sayLife(life, packet.now.odometer_km, units)}
            </li>
          ))}
        </ul>
      </div>
      <Jobs title="Earlier jobs on this vehicle" none="No earlier job is known." jobs={packet.earlier} />
      <Jobs
        title="On vehicles of the same platform"
        none="No job on another vehicle of this platform is known yet."
        jobs={packet.sisters}
      />
    </>
  );
}

export function sayLife(life: Life, odometerKm: number | null, units: Units): string {
  const { source, fitted_km, removed_km, ended, mode, supplier, run_km } = life;
  const endKm = removed_km ?? odometerKm;
  const parts = [
    source === null ? 'unit not registered' : `${source} unit`,
    ...(supplier === null || supplier === '' ? [] : [`from ${supplier}`]),
    ...(run_km ? [`had run ${formatOdometer(run_km, units)} before`] : []),
    `fitted at ${formatOdometer(fitted_km, units)}`,
    ...(endKm === null
      ? []
      : [
          `${removed_km === null ? 'has run' : 'ran'} ${formatOdometer(Math.max(0, endKm - fitted_km), units)}`,
        ]),
    ...(ended === null
      ? removed_km === null
        ? ['still in the vehicle']
        : []
      : [[ended, mode].filter((word) => word !== null && word !== '').join(': ')]),
  ];
  return parts.join(', ');
}

function Jobs({ title, none, jobs }: { title: string; none: string; jobs: readonly EarlierJob[] }) {
  const units = useUnits();
  const isOwn = usePacketAccess().secret === null;
  return (
    <div className={styles.part}>
      <h3>{title}</h3>
      {jobs.length === 0 && <p className={styles.soft}>{none}</p>}
      <ul className={styles.jobs}>
        {jobs.map((job) => (
          <li key={`${job.packet} ${job.closed_at} ${job.vehicle}`} className={styles.job}>
            <p>
              {job.vehicle !== null && (
                <>
                  {job.packet !== null && isOwn ? (
                    <Link to="/packets/$id" params={{ id: String(job.packet) }}>
                      {job.vehicle}
                    </Link>
                  ) : (
                    <strong>{job.vehicle}</strong>
                  )}{' '}
                </>
              )}
              {job.words}
            </p>
            <p className={styles.soft}>
              {formatDate(job.closed_at)}, at {formatOdometer(job.odometer_km, units)}
              {job.converter_km !== null &&
                `, the converter had run ${formatOdometer(job.converter_km, units)}`}
              {job.flagged_slip_rpm !== null && `, flagged at ${formatRpm(job.flagged_slip_rpm)}`}
            </p>
            {job.findings.length > 0 && (
              <ul className={styles.found}>
                {job.findings.map(({ step, verdict, words }) => (
                  <li key={step} title={words}>
                    {stepNames[step]} <VerdictMark verdict={verdict} />
                  </li>
                ))}
              </ul>
            )}
          </li>
        ))}
      </ul>
    </div>
  );
}
