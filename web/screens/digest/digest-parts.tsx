import { Link } from '@tanstack/react-router';
import type { Digest } from '#server/contract/digest.ts';
import { BaysAhead } from './bays-ahead.tsx';
import styles from './digest.module.css';
import { GatewayLine, VehicleLine } from './digest-line.tsx';
import { DigestPart } from './digest-part.tsx';

interface Props {
  digest: Digest;
  /** end of the scale that all rails share */
  scaleKm: number;
}

/** All parts in the order of urgency; one without lines is said in a few words in its place. */
export function DigestParts({ digest, scaleKm }: Props) {
  const { horizon_km: horizonKm, gone_quiet: quiet, uncovered_holds: uncovered, not_closed: open } = digest;
  const rail = { horizonKm, scaleKm };
  return (
    <>
      {uncovered !== null && (
        <DigestPart
          title="On hold without a day"
          none="Every vehicle on hold has a day."
          scale={rail}
          more={uncovered.length > 0 && <Link to="/bay-plan">Give them a day in the bay plan</Link>}
        >
          {uncovered.map((line) => (
            <VehicleLine key={line.vehicle} line={line} rail={rail} />
          ))}
        </DigestPart>
      )}
      <DigestPart
        title="Newly on hold"
        none="No vehicle went on hold."
        scale={(uncovered ?? []).length === 0 ? rail : null}
      >
        {digest.newly_on_hold.map((line) => (
          <VehicleLine key={line.vehicle} line={line} rail={rail} />
        ))}
      </DigestPart>
      <DigestPart
        title="Got worse"
        none={
          digest.compared_with === null
            ? 'There is no list of a week before to compare with.'
            : 'No vehicle got worse.'
        }
        scale={(uncovered ?? []).length + digest.newly_on_hold.length === 0 ? rail : null}
        more={digest.got_worse_more === 0 ? null : `and ${digest.got_worse_more} more, less grave.`}
      >
        {digest.got_worse.map((line) => (
          <VehicleLine key={line.vehicle} line={line} rail={rail} />
        ))}
      </DigestPart>
      {open !== null && (
        <DigestPart title="Over and not closed" none="Every booking that is over is closed.">
          {open.map((line) => (
            <VehicleLine key={line.booking.id} line={line} />
          ))}
        </DigestPart>
      )}
      <DigestPart
        title="Gone quiet"
        none="Nobody fell silent."
        more={quiet.vehicles_longer === 0 ? null : sayLonger(quiet)}
      >
        {[
          ...(quiet.gateways ?? []).map((gateway) => (
            <GatewayLine key={`gateway ${gateway.name}`} gateway={gateway} />
          )),
          ...quiet.vehicles.map((line) => <VehicleLine key={line.vehicle} line={line} />),
        ]}
      </DigestPart>
      <DigestPart title="Newly booked" none="Nothing was booked.">
        {digest.newly_booked.map((line) => (
          <VehicleLine key={line.booking.id} line={line} />
        ))}
      </DigestPart>
      <DigestPart title="Inspected" none="Nothing was inspected.">
        {digest.inspected.map((line) => (
          <VehicleLine key={line.booking.id} line={line} />
        ))}
      </DigestPart>
      <BaysAhead ahead={digest.ahead} />
      <footer className={styles.foot}>
        {!digest.current && (
          <p>
            What stands open now, holds without a day and bookings not closed, is in{' '}
            <Link to="/digest">the digest of this week</Link>. Rails show where vehicles stand now.
          </p>
        )}
        <p>Weeks begin on Monday, UTC, for depots in every zone; times of bookings are those of the depot.</p>
        <p>
          It can come by e-mail on Mondays: tick it on <Link to="/account">your account</Link>.
        </p>
      </footer>
    </>
  );
}

function sayLonger({ vehicles, vehicles_longer: longer }: Digest['gone_quiet']): string {
  const more = vehicles.length > 0 ? ' more' : '';
  return longer === 1
    ? `1${more} has been quiet for longer than two weeks.`
    : `${longer}${more} have been quiet for longer than two weeks.`;
}
