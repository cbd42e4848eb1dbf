import { getRouteApi } from '@tanstack/react-router';
import { useDepots } from '#web/api/use-fleet.ts';
import { ListedScreen } from '#web/screens/settings/listed-screen.tsx';
import { DepotForm } from './depot-form.tsx';
import { DepotsTable } from './depots-table.tsx';

const route = getRouteApi('/settings/depots');

/** Bays, hours and special days of each depot. */
export function DepotsScreen() {
  const { open } = route.useSearch();
  const navigate = route.useNavigate();
  const show = (id: string | undefined) =>
    void navigate({ search: id === undefined ? {} : { open: id }, replace: true, resetScroll: false });
  return (
    <ListedScreen
      title="Depots"
      one="depot"
      lead="When the bays of each depot can be used. Bookings and plans keep to it."
      none="No depot yet. A vehicle can be booked once it has one."
      listed={useDepots()}
      table={(depots) => (
        <DepotsTable depots={depots} open={open} onToggle={(id) => show(open === id ? undefined : id)} />
      )}
      form={(handlers) => <DepotForm before={null} {...handlers} />}
      onMade={show}
    />
  );
}
