import { Link } from '@tanstack/react-router';
import type { Packet } from '#server/contract/packets.ts';
import { usePacketAccess } from '#web/api/packet-access.ts';
import { formatMoment } from '#web/format/format-date.ts';
import { formatOdometer } from '#web/format/format-km.ts';
import { keepUnits } from '#web/format/keep-units.ts';
import head from '#web/ui/distance-head.module.css';
import { DistanceRail } from '#web/ui/distance-rail.tsx';
import { GradeMark } from '#web/ui/grade-mark.tsx';
import { sayMeaning } from '#web/ui/grade-words.ts';
import { scaleForHorizon } from '#web/ui/rail-geometry.ts';
import { RailScale } from '#web/ui/rail-scale.tsx';
import { useUnits } from '#web/ui/use-units.ts';
import styles from './packet-head.module.css';
import { PaperButtons } from './paper-buttons.tsx';
import { sayBooking } from './say-booking.ts';

/** Which vehicle, why it is here, how far the limit is, when it is booked, and what the planner wrote. */
export function PacketHead({ packet }: { packet: Packet }) {
  const units = useUnits();
  const isOwn = usePacketAccess().secret === null;
  const { flag, now } = packet;
  const scaleKm = scaleForHorizon(flag.horizon_km, units);
  const place = [
    packet.platform_name ?? packet.platform,
    packet.depot_name ?? packet.depot,
    packet.vin && `VIN ${packet.vin}`,
  ];
  return (
    <header className={`${head.head} ${styles.head}`}>
      <div className={head.stack}>
        <p className={head.label}>
          Packet {packet.id}, {packet.state}
        </p>
        <div className={head.nameLine}>
          <h1 className={head.name}>{packet.vehicle}</h1>
          <p className={head.grade}>
            <GradeMark grade={flag.grade} />
            <span className={head.soft}>{sayMeaning(flag.grade)}</span>
          </p>
        </div>
        <p className={head.soft}>{place.filter((part) => part !== null && part !== '').join(' · ')}</p>
        <p className={head.sentence}>{keepUnits(flag.sentence)}</p>
        {packet.note !== null && packet.note !== '' && (
          <div className={styles.note}>
            <span className={head.label}>Note of the planner</span>
            <p>{packet.note}</p>
          </div>
        )}
      </div>
      <div className={head.stack}>
        <p className={head.label}>Distance to limit, when the packet was opened</p>
        <DistanceRail
          size="head"
          distance={flag.km_to_limit}
          grade={flag.grade}
          horizonKm={flag.horizon_km}
          scaleKm={scaleKm}
        />
        <div className={head.scale}>
          <RailScale horizonKm={flag.horizon_km} scaleKm={scaleKm} />
        </div>
        <dl className={styles.facts}>
          <div>
            <dt>Booking</dt>
            <dd>{packet.booking === null ? 'none' : sayBooking(packet.booking, packet.depot_name)}</dd>
          </div>
          <div>
            <dt>Opened</dt>
            <dd>
              {formatMoment(packet.opened_at)}, {packet.opened_by}
            </dd>
          </div>
          <div>
            <dt>Odometer, last reading</dt>
            <dd>
              {formatOdometer(now.odometer_km, units)}
              {now.last_reading_at !== null && `, ${formatMoment(now.last_reading_at)}`}
            </dd>
          </div>
          {now.sentence !== flag.sentence && now.sentence !== '' && (
            <div className={styles.wholeFact}>
              <dt>Now</dt>
              <dd>
                <GradeMark grade={now.grade} /> {keepUnits(now.sentence)}
              </dd>
            </div>
          )}
        </dl>
      </div>
      <div className={styles.tools}>
        <PaperButtons packet={packet} />
        {isOwn && (
          <Link className={styles.link} to="/vehicles/$vehicle" params={{ vehicle: packet.vehicle }}>
            Vehicle {packet.vehicle}
          </Link>
        )}
      </div>
    </header>
  );
}
