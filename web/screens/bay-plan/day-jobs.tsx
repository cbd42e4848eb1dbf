import type { Booking } from '#server/contract/bookings.ts';
import type { VehicleDetail } from '#server/contract/vehicle.ts';
import { useFleetNames } from '#web/api/use-fleet-names.ts';
import { GradeMark } from '#web/ui/grade-mark.tsx';
import { gradeMeaning } from '#web/ui/grade-words.ts';
import styles from './day-sheet.module.css';

interface Props {
  bookings: readonly Booking[];
  details: ReadonlyMap<string, VehicleDetail>;
}

/** A line for each vehicle: when, what it is, why it is here, and room to write. */
export function DayJobs({ bookings, details }: Props) {
  const names = useFleetNames();
  return (
    <table className={styles.jobs}>
      <thead>
        <tr>
          <th scope="col">Time</th>
          <th scope="col">Vehicle</th>
          <th scope="col">Why, and what to know</th>
          <th scope="col">Remarks</th>
        </tr>
      </thead>
      <tbody>
        {bookings.map((one) => {
          const grade = one.grade ?? 'unknown';
          const why = details.get(one.vehicle)?.assessment?.reasons[0];
          return (
            <tr key={one.id} data-done={one.state === 'done' || undefined}>
              <td className={styles.time}>
                <strong>{one.from}</strong> to {one.to} <span className={styles.inBay}>bay {one.bay}</span>
              </td>
              <th scope="row">
                <span className={styles.unit}>{one.vehicle}</span> <GradeMark grade={grade} />
                {one.platform !== null && (
                  <span className={styles.platform}>{names.platform(one.platform)}</span>
                )}
              </th>
              <td className={styles.why}>
                {grade === 'hold' && <strong>Hold: {gradeMeaning.hold}. </strong>}
                {why}
                {one.note !== null && (
                  <span className={styles.note}>
                    <b>Note: </b>
                    {one.note}
                  </span>
                )}
              </td>
              <td className={styles.remarks}>{one.state === 'done' ? (one.reason ?? 'done') : ''}</td>
            </tr>
          );
        })}
      </tbody>
    </table>
  );
}
