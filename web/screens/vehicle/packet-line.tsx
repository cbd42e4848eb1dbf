import { Link } from '@tanstack/react-router';
import { opensPackets } from '#web/api/role-rights.ts';
import { usePackets } from '#web/api/use-packets.ts';
import { usePerson } from '#web/api/use-session.ts';
import { formatDate } from '#web/format/format-date.ts';
import { OpenPacketButton } from '#web/screens/packet/open-packet-button.tsx';
import styles from './vehicle-head.module.css';

/** The job that is open on the vehicle, or the press that begins one, and the way to earlier ones. */
export function PacketLine({ vehicle, isRetired }: { vehicle: string; isRetired: boolean }) {
  const role = usePerson()?.role;
  const { data } = usePackets({ state: 'open', vehicle, limit: 1 });
  const open = data?.packets[0];
  if (role === undefined || data === undefined) return null;
  return (
    <section className={styles.packet} aria-label="Packet">
      {open !== undefined && (
        <Link className={styles.toPacket} to="/packets/$id" params={{ id: String(open.id) }}>
          Packet {open.id}, open since {formatDate(open.opened_at)}
        </Link>
      )}
      {open === undefined && !isRetired && opensPackets(role) && <OpenPacketButton vehicle={vehicle} />}
      <Link className={styles.toPacket} to="/packets" search={{ vehicle }}>
        All packets of {vehicle}
      </Link>
    </section>
  );
}
