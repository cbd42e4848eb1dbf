import { column, type NotebookView, vehicleColumns } from './view.ts';

const [vehicle, , platform] = vehicleColumns;

export const bookingsView: NotebookView = {
  name: 'bookings',
  meaning: 'Planned inspections',
  from: 'public.bookings b join public.vehicles v on v.key = b.vehicle',
  order: 'b.id',
  narrow: {
    platform: 'v.platform',
    depot: 'b.depot',
    since: {
      meaning: 'bookings changed on that day or later',
      condition: (parameter) => `b.changed_at >= ${parameter}`,
    },
  },
  columns: [
    column('booking', 'long', '', 'number of the booking', 'b.id'),
    vehicle,
    platform,
    column('depot', 'text', '', 'depot that it is booked into', 'b.depot'),
    column('state', 'text', '', 'booked, put_off, cancelled or done', 'b.state'),
    column('bay', 'integer', '', 'number of the bay within the depot, from 1', 'b.bay'),
    column('day', 'day', '', "in the depot's own time", 'b.day'),
    column('starts_at', 'instant', '', 'moment from which it has the bay', 'b.starts_at'),
    column('ends_at', 'instant', '', 'moment until which it has the bay', 'b.ends_at'),
    column('hours', 'double', 'h', 'how long a bay is to be taken; null: as the platform takes', 'b.hours'),
    column('created_at', 'instant', '', 'when it was made', 'b.created_at'),
    column('changed_at', 'instant', '', 'when it was last changed', 'b.changed_at'),
  ],
};

export const packetsView: NotebookView = {
  name: 'packets',
  meaning: 'Visits to a shop and what came of them; without files, links and free text',
  from: 'public.packets k join public.vehicles v on v.key = k.vehicle',
  order: 'k.id',
  narrow: {
    platform: 'v.platform',
    depot: 'k.depot',
    since: {
      meaning: 'packets opened on that day or later',
      condition: (parameter) => `k.opened_at >= ${parameter}`,
    },
  },
  columns: [
    column('packet', 'long', '', 'number of the packet', 'k.id'),
    vehicle,
    platform,
    column('depot', 'text', '', 'depot whose shop does the work', 'k.depot'),
    column('state', 'text', '', 'open or closed', 'k.state'),
    column('opened_at', 'instant', '', 'when it was opened', 'k.opened_at'),
    column('closed_at', 'instant', '', 'when it was closed', 'k.closed_at'),
    column('work_at', 'instant', '', 'when the work was done', 'k.work_at'),
    column('outcome', 'text', '', 'repaired, no_fault_found or declined', 'k.outcome'),
    column('cause', 'text', '', 'what turned out to be wrong', 'k.cause'),
    column(
      'odometer_km',
      'double',
      'km',
      'mileage when the work was done, of the instrument',
      'k.odometer_km',
    ),
    column(
      'converter_km',
      'double',
      'km',
      'what the old converter had run, before its fitting here too where that is on record; null where its fitting is not known',
      'k.converter_km',
    ),
    column(
      'ended',
      'text',
      '',
      'how the old life ended: failed or preventive; null where it goes on',
      'k.ended',
    ),
    column(
      'new_life_km',
      'double',
      'km',
      'mileage at which the next life began; null where none did',
      'k.new_life_km',
    ),
    column(
      'calm_until_km',
      'double',
      'km',
      'mileage up to which the list stays calm about it, unless slip rises',
      'k.calm_until_km',
    ),
  ],
};
