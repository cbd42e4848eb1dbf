import type { VehicleHistory } from '#server/contract/vehicle.ts';
import { useWordUnits } from '#web/api/use-word-units.ts';
import { formatDate } from '#web/format/format-date.ts';
import { formatOdometer } from '#web/format/format-km.ts';
import { useUnits } from '#web/ui/use-units.ts';
import styles from './history.module.css';
import { PlatformLink } from './platform-link.tsx';

type Event = VehicleHistory['events'][number];

interface Props {
  vehicle: string;
  events: readonly Event[];
  platform: string | null;
}

/** Everything that happened to the vehicle as one time line, newest first. */
export function History({ vehicle, events, platform }: Props) {
  const units = useUnits();
  const words = useWordUnits();
  const address = `/api/vehicles/${encodeURIComponent(vehicle)}/history`;
  return (
    <section className={styles.history}>
      <div className={styles.head}>
        <h2>History</h2>
        <a href={`${address}.csv?units=${words}`} download>
          Download CSV
        </a>
        <a href={`${address}?units=${words}`} download={`history-${vehicle}.json`}>
          JSON
        </a>
      </div>
      {events.length === 0 && <p className={styles.none}>Nothing has happened yet.</p>}
      <ol className={styles.line}>
        {events.map((event) => (
          <li key={`${event.at} ${event.kind} ${event.text}`} data-kind={event.kind}>
            <span className={styles.when}>
              <time dateTime={event.at}>{formatDate(event.at)}</time>
              {event.odometer_km !== null && <span>{formatOdometer(event.odometer_km, units)}</span>}
            </span>
            <span className={styles.what}>
              {event.text}
              {event.kind === 'fleet_event' && (
                <>
                  {'. '}
                  <PlatformLink platform={platform}>What the platform did</PlatformLink>
                </>
              )}
            </span>
          </li>
        ))}
      </ol>
    </section>
  );
}
