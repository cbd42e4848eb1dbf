import { usePackets } from '#web/api/use-packets.ts';
import { useRanking } from '#web/api/use-ranking.ts';
import { OpenPacketButton } from '#web/screens/packet/open-packet-button.tsx';
import { GradeMark } from '#web/ui/grade-mark.tsx';
import styles from './packets-screen.module.css';

const ask = {};
const mostOpen = 200;

/** What was sent to the shop and has no packet yet, with the press that opens one. */
export function SentWithoutPacket() {
  const sent = useRanking(ask).data?.pages.flatMap(({ rows }) => rows);
  const open = usePackets({ state: 'open', limit: mostOpen }).data?.packets;
  if (sent === undefined || open === undefined) return null;
  const known = new Set(open.map(({ vehicle }) => vehicle));
  const rows = sent.filter(({ vehicle }) => !known.has(vehicle));
  if (rows.length === 0) return null;
  return (
    <section className={styles.jobs} aria-labelledby="jobs-sent">
      <h2 id="jobs-sent">
        Sent to you, no packet yet<span className={styles.count}> {rows.length}</span>
      </h2>
      <ul className={styles.list}>
        {rows.map(({ vehicle, grade, reasons, missing }) => (
          <li key={vehicle} className={styles.row}>
            <p className={styles.unit}>
              <strong>{vehicle}</strong>
            </p>
            <span className={styles.grade}>
              <GradeMark grade={grade} />
            </span>
            <p className={styles.words}>{reasons[0] ?? missing[0] ?? ''}</p>
            <p>
              <OpenPacketButton vehicle={vehicle} />
            </p>
          </li>
        ))}
      </ul>
    </section>
  );
}
