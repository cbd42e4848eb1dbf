import { Link } from '@tanstack/react-router';
import type { Gateways } from '#server/contract/intake.ts';
import { formatMoment } from '#web/format/format-date.ts';
import { formatWhole } from '#web/format/format-number.ts';
import { saySender } from '#web/screens/intake/say-sender.ts';
import settingsStyles from '#web/screens/settings/settings.module.css';
import { Cell, RowTable } from '#web/ui/row-table.tsx';

/** Vehicles that have stopped, though whoever brings their readings goes on. */
export function QuietVehicles({ vehicles, total }: { vehicles: Gateways['vehicles']; total: number }) {
  return (
    <section className={settingsStyles.stack}>
      <h2>Vehicles gone quiet</h2>
      {vehicles.length === 0 ? (
        <p className={settingsStyles.none}>
          None. A vehicle without readings for a week stands here, where its gateway brings others.
        </p>
      ) : (
        <RowTable label="Vehicles gone quiet">
          <thead>
            <tr>
              <th scope="col">vehicle</th>
              <th scope="col">days without</th>
              <th scope="col">last reading</th>
              <th scope="col" data-words>
                gateway
              </th>
              <th scope="col" data-words>
                where it is
              </th>
            </tr>
          </thead>
          <tbody>
            {vehicles.map((one) => (
              <tr key={one.vehicle}>
                <th scope="row">
                  <Link to="/vehicles/$vehicle" params={{ vehicle: one.vehicle }}>
                    {one.vehicle}
                  </Link>
                </th>
                <Cell label="days without">{formatWhole(one.days)}</Cell>
                <Cell label="last reading">{formatMoment(one.last_reading_at)}</Cell>
                <Cell label="gateway" isWords>
                  {saySender(one.sender)}
                </Cell>
                <Cell label="where it is" isWords>
                  {one.at_shop ? 'at the shop' : 'not known'}
                </Cell>
              </tr>
            ))}
          </tbody>
        </RowTable>
      )}
      {total > vehicles.length && (
        <p className={settingsStyles.small}>
          The {formatWhole(vehicles.length)} with the longest silence of {formatWhole(total)}.
        </p>
      )}
    </section>
  );
}
