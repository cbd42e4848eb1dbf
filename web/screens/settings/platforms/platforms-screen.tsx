import { getRouteApi } from '@tanstack/react-router';
import { usePlatforms } from '#web/api/use-fleet.ts';
import { ListedScreen } from '#web/screens/settings/listed-screen.tsx';
import { newPlatform } from './platform-draft.ts';
import { PlatformForm } from './platform-form.tsx';
import { PlatformsTable } from './platforms-table.tsx';

const route = getRouteApi('/settings/platforms');

/** Limits, costs and expected life of each vehicle and transmission type. */
export function PlatformSettingsScreen() {
  const { open } = route.useSearch();
  const navigate = route.useNavigate();
  const show = (id: string | undefined) =>
    void navigate({ search: id === undefined ? {} : { open: id }, replace: true, resetScroll: false });
  return (
    <ListedScreen
      title="Platforms"
      one="platform"
      lead="A platform is a vehicle and transmission type with its limit, its costs and the point at which slip is compared. What a change would do to the list is shown before it is saved."
      none="No platform yet. Until a vehicle has one, a limit of 150 rpm is assumed for it."
      listed={usePlatforms()}
      table={(platforms) => (
        <PlatformsTable
          platforms={platforms}
          open={open}
          onToggle={(id) => show(open === id ? undefined : id)}
        />
      )}
      form={(handlers) => <PlatformForm stored={newPlatform} {...handlers} />}
      onMade={show}
    />
  );
}
