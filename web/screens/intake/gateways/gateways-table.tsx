import { Link } from '@tanstack/react-router';
import type { Gateway } from '#server/contract/intake.ts';
import { formatMoment } from '#web/format/format-date.ts';
import { formatWhole } from '#web/format/format-number.ts';
import { formatPercent } from '#web/format/format-percent.ts';
import { saySender } from '#web/screens/intake/say-sender.ts';
import { saySpan } from '#web/screens/intake/say-span.ts';
import { Cell, RowTable } from '#web/ui/row-table.tsx';

const columns = ['usual interval', 'quiet after', 'vehicles', 'readings a day', 'refused'];

export function GatewaysTable({ gateways }: { gateways: readonly Gateway[] }) {
  return (
    <RowTable label="All gateways">
      <thead>
        <tr>
          <th scope="col">gateway</th>
          <th scope="col" data-words>
            state
          </th>
          <th scope="col">last delivery</th>
          {columns.map((name) => (
            <th key={name} scope="col">
              {name}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {gateways.map((gateway) => (
          <GatewayRow key={gateway.sender.id} gateway={gateway} />
        ))}
      </tbody>
    </RowTable>
  );
}

function GatewayRow({ gateway }: { gateway: Gateway }) {
  const {
    sender,
    last_at: last,
    usual_s: usual,
    quiet_after_s: quietAfter,
    refused_share: refused,
  } = gateway;
  return (
    <tr>
      <th scope="row">
        <Link to="/intake/deliveries" search={{ sender: sender.id }}>
          {saySender(sender)}
        </Link>
      </th>
      <Cell label="state" isWords>
        {sayState(gateway)}
      </Cell>
      <Cell label="last delivery">{formatMoment(last)}</Cell>
      <Cell label="usual interval">{usual === null ? 'not known yet' : saySpan(usual)}</Cell>
      <Cell label="quiet after">{quietAfter === null ? 'not known yet' : saySpan(quietAfter)}</Cell>
      <Cell label="vehicles">{formatWhole(gateway.vehicles)}</Cell>
      <Cell label="readings a day">{formatWhole(gateway.readings_per_day)}</Cell>
      <Cell label="refused">
        {refused !== null && refused > 0 ? (
          <Link to="/intake/refused" search={{ sender: sender.id }}>
            {formatPercent(refused)}
          </Link>
        ) : (
          formatPercent(refused)
        )}
      </Cell>
    </tr>
  );
}

function sayState({ quiet, last_at: last, ended_at: ended }: Gateway): string {
  if (ended !== null) return 'key ended';
  if (last === null) return 'has not delivered yet';
  return quiet ? 'quiet' : 'delivers';
}
