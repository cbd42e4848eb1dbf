import { Link } from '@tanstack/react-router';
import { causeWords, outcomeWords } from '#server/contract/packet-words.ts';
import type { ListedPacket } from '#server/contract/packets.ts';
import { formatDate } from '#web/format/format-date.ts';
import { formatOdometer } from '#web/format/format-km.ts';
import { repairWords } from '#web/screens/packet/closing-view.tsx';
import { sayBooking } from '#web/screens/packet/say-booking.ts';
import { GradeMark } from '#web/ui/grade-mark.tsx';
import { useUnits } from '#web/ui/use-units.ts';
import styles from './packets-screen.module.css';

/** One open job: which vehicle, why, when, and what is to be done next. */
export function OpenRow({ packet }: { packet: ListedPacket }) {
  return (
    <li className={styles.row}>
      <Unit packet={packet} />
      <span className={styles.grade}>
        <GradeMark grade={packet.grade} />
      </span>
      <p className={styles.words}>
        <span className={styles.next}>
          {packet.next !== null && <span className={styles.label}>Next </span>}
          {packet.next ?? 'All steps are done.'}
        </span>
        <span className={styles.sentence}>{packet.sentence}</span>
      </p>
      <p className={styles.soft}>
        {packet.booking === null ? 'no booking' : sayBooking(packet.booking, packet.depot_name)}
        <br />
        opened {formatDate(packet.opened_at)},{' '}
        {packet.findings === 1 ? '1 finding' : `${packet.findings} findings`}
      </p>
    </li>
  );
}

/** One closed job: what came of it, and whether it held. */
export function ClosedRow({ packet }: { packet: ListedPacket }) {
  const units = useUnits();
  const { closing, after } = packet;
  const cause = closing?.cause_words ?? (closing?.cause == null ? null : causeWords[closing.cause]);
  return (
    <li className={styles.row}>
      <Unit packet={packet} />
      <p className={styles.words}>
        {closing !== null && (
          <span className={styles.next}>
            {outcomeWords[closing.outcome]}
            {closing.outcome === 'repaired' && cause !== null && `: ${cause}`}
          </span>
        )}
        {after !== null && (
          <span className={styles.after} data-state={after.state}>
            {repairWords[after.state]}
          </span>
        )}
        {closing !== null && closing.without_cooler !== '' && (
          <span className={styles.sentence}>closed without the cooler record that was due</span>
        )}
      </p>
      <p className={styles.soft}>
        {closing !== null && `${formatDate(closing.at)}, ${closing.by}`}
        <br />
        {closing !== null && `at ${formatOdometer(closing.odometer_km, units)}`}
      </p>
    </li>
  );
}

const Unit = ({ packet }: { packet: ListedPacket }) => (
  <p className={styles.unit}>
    <Link to="/packets/$id" params={{ id: String(packet.id) }}>
      {packet.vehicle}
    </Link>
    <span className={styles.soft}>{packet.depot_name ?? packet.depot}</span>
  </p>
);
