import { getRouteApi, Link } from '@tanstack/react-router';
import { useEffect, useMemo } from 'react';
import type { Atlas } from '#server/contract/atlas.ts';
import { ProblemError } from '#web/api/problem-error.ts';
import { useAtlas } from '#web/api/use-atlas.ts';
import { formatUtcDate } from '#web/format/format-date.ts';
import { keepUnits } from '#web/format/keep-units.ts';
import { ProblemNote } from '#web/ui/problem-note.tsx';
import head from '#web/ui/screen-head.module.css';
import styles from './atlas.module.css';
import { AtlasChoices } from './atlas-choices.tsx';
import { AtlasFigure } from './atlas-figure.tsx';
import { type AtlasPatch, parseAtlasSearch, patchAtlasSearch, usualDays } from './atlas-search.ts';
import { sayAtlas, sayBasis } from './say-atlas.ts';

const route = getRouteApi('/platforms/$platform/atlas');

/** Slip of a whole platform against command and temperature. */
export function AtlasScreen() {
  const { platform } = route.useParams();
  const raw = route.useSearch();
  const search = useMemo(() => parseAtlasSearch({ ...raw }), [raw]);
  const navigate = route.useNavigate();
  const { data, isPending, error, refetch } = useAtlas(platform, {
    days: search.days ?? usualDays,
    vehicle: search.vehicle,
  });
  const name = data?.platform.name ?? platform;
  useEffect(() => {
    document.title = `Atlas of ${name} · Slipdrift`;
  }, [name]);
  const change = (patch: AtlasPatch) =>
    void navigate({
      to: '/platforms/$platform/atlas',
      params: { platform },
      search: (before) => patchAtlasSearch(before, patch),
      replace: true,
      resetScroll: false,
    });
  const isUnknown = error instanceof ProblemError && error.code === 'not_found';
  // Asking for the same vehicle again would be refused again.
  const isRefused = error instanceof ProblemError && error.code === 'invalid_request';
  return (
    <div className={styles.page}>
      <header className={head.head}>
        {!isUnknown && (
          <p>
            <Link to="/platforms/$platform" params={{ platform }}>
              {name}
            </Link>
          </p>
        )}
        <h1 className={head.name}>Atlas of {name}</h1>
        {data !== undefined && error === null && (
          <p className={head.lead}>{sayAtlas(data, search.vehicle ?? null)}</p>
        )}
        {isPending && <p role="status">Loading the atlas</p>}
        {isUnknown && (
          <p className={head.lead}>
            No platform has this id. <Link to="/platforms">Go to the platforms</Link>
          </p>
        )}
        {!isUnknown && <AtlasChoices search={search} choices={data?.choices ?? []} onChange={change} />}
        {search.vehicle !== undefined && data !== undefined && error === null && (
          <p>
            <Link to="/vehicles/$vehicle" params={{ vehicle: search.vehicle }}>
              Vehicle {search.vehicle}
            </Link>
          </p>
        )}
        {error !== null && !isUnknown && (
          <ProblemNote error={error} {...(isRefused ? {} : { onRetry: () => void refetch() })} />
        )}
      </header>
      {data !== undefined && error === null && data.stretches > 0 && (
        <Planes atlas={data} vehicle={data.by_command.vehicle === null ? null : (search.vehicle ?? null)} />
      )}
      {data !== undefined && error === null && <Steps atlas={data} />}
    </div>
  );
}

function Planes({ atlas, vehicle }: { atlas: Atlas; vehicle: string | null }) {
  const { by_command, by_fluid, platform, from, to } = atlas;
  const days = from !== null && to !== null ? `${formatUtcDate(from)} to ${formatUtcDate(to)}` : '';
  const common = {
    limitRpm: platform.limit_rpm,
    vehicle,
    selection: days,
    dataTo: to === null ? '' : formatUtcDate(to),
    sentence: sayAtlas(atlas, vehicle),
  };
  return (
    <>
      <p className={head.reading}>
        {days !== '' && `${days}. `}
        {sayBasis(atlas)}
      </p>
      <div className={styles.columns}>
        <AtlasFigure axis="command" plane={by_command} {...common} />
        {by_fluid === null ? (
          <section className={styles.part}>
            <h2>Slip against fluid temperature</h2>
            <p>No feed of these vehicles has a fluid temperature.</p>
          </section>
        ) : (
          <AtlasFigure axis="fluid" plane={by_fluid} {...common} />
        )}
      </div>
    </>
  );
}

function Steps({ atlas: { events } }: { atlas: Atlas }) {
  return (
    <section className={styles.part}>
      <h2>What all did at once</h2>
      {events.length === 0 ? (
        <p>No step so far: no week in which all vehicles of this platform moved by 6 rpm or more at once.</p>
      ) : (
        <>
          <ul className={styles.lines}>
            {events.toReversed().map((event) => (
              <li key={event.at}>{keepUnits(event.sentence)}.</li>
            ))}
          </ul>
          <p className={head.reading}>
            Readings before and after a step lie so far apart here. The inspection list takes the step out of
            each vehicle before it judges it.
          </p>
        </>
      )}
    </section>
  );
}
