import { getRouteApi, Link } from '@tanstack/react-router';
import { useEffect } from 'react';
import type { PlatformMovement } from '#server/contract/movement.ts';
import { ProblemError } from '#web/api/problem-error.ts';
import { usePlatformMovement } from '#web/api/use-movement.ts';
import { formatMoment } from '#web/format/format-date.ts';
import { formatWhole } from '#web/format/format-number.ts';
import { formatRpm } from '#web/format/format-rpm.ts';
import { keepUnits } from '#web/format/keep-units.ts';
import { ProblemNote } from '#web/ui/problem-note.tsx';
import head from '#web/ui/screen-head.module.css';
import { EffectsTable } from './effects-table.tsx';
import { MovementFigure } from './movement-figure.tsx';
import styles from './platform-screen.module.css';

const route = getRouteApi('/platforms/$platform');

/** What all vehicles of one platform did together, and what that means for the list. */
export function PlatformScreen() {
  const { platform } = route.useParams();
  const { data, isPending, error, refetch } = usePlatformMovement(platform);
  const name = data?.name ?? platform;
  useEffect(() => {
    document.title = `${name} · Slipdrift`;
  }, [name]);

  if (data === undefined)
    return (
      <div className={styles.page}>
        <h1 className={head.name}>{platform}</h1>
        {isPending && (
          <p role="status" className={styles.soft}>
            Loading the platform
          </p>
        )}
        {!isPending && isUnknown(error) && (
          <p className={head.lead}>
            No platform has this id. <Link to="/platforms">Go to the platforms</Link>
          </p>
        )}
        {!isPending && !isUnknown(error) && <ProblemNote error={error} onRetry={() => void refetch()} />}
      </div>
    );
  return (
    <div className={styles.page}>
      <header className={head.head}>
        <h1 className={head.name}>{data.name}</h1>
        <p className={head.lead}>{keepUnits(data.sentence)}</p>
        <p>
          <ListLink movement={data} />
        </p>
        <p>
          <Link to="/platforms/$platform/atlas" params={{ platform: data.id ?? platform }}>
            Atlas: slip against command and temperature
          </Link>
        </p>
        <Facts movement={data} />
      </header>
      {data.state === 'learned' && (
        <>
          <MovementFigure movement={data} />
          <div className={styles.columns}>
            <section className={styles.part}>
              <h2>Steps</h2>
              {data.events.length === 0 ? (
                <p className={styles.soft}>
                  None so far: no week in which all vehicles moved by 6 rpm or more at once.
                </p>
              ) : (
                <ul className={styles.lines}>
                  {data.events.toReversed().map((event) => (
                    <li key={event.at}>{keepUnits(event.sentence)}.</li>
                  ))}
                </ul>
              )}
              <h2>Season</h2>
              <p>{keepUnits(data.season.sentence)}</p>
            </section>
            {data.effects !== null && <EffectsTable movement={data} effects={data.effects} />}
          </div>
        </>
      )}
    </div>
  );
}

const isUnknown = (error: unknown): boolean => error instanceof ProblemError && error.code === 'not_found';

/** Vehicles without a platform have no filter of their own: the list says "Which platform?" beside each. */
function ListLink({ movement: { id, vehicles } }: { movement: PlatformMovement }) {
  const count = vehicles === 1 ? '1 vehicle' : `${formatWhole(vehicles)} vehicles`;
  if (id === null) return <Link to="/">Inspection list of the whole fleet</Link>;
  return (
    <Link to="/" search={{ platform: id }}>
      Inspection list of this platform, {count}
    </Link>
  );
}

function Facts({ movement }: { movement: PlatformMovement }) {
  const { vehicles, limit_rpm, learned_from, as_of, usual } = movement;
  const facts: [string, string][] = [
    ['Vehicles', formatWhole(vehicles)],
    ['Limit', formatRpm(limit_rpm)],
    ['Learned from', as_of === null ? '–' : `${formatWhole(learned_from)} with readings`],
    [
      'Healthy slip',
      usual === null ? '–' : `${formatWhole(usual.baseline_rpm)} ± ${formatWhole(usual.spread_rpm)} rpm`,
    ],
    ['Learned', formatMoment(as_of)],
  ];
  return (
    <dl className={styles.facts}>
      {facts.map(([name, value]) => (
        <div key={name}>
          <dt>{name}</dt>
          <dd>{value}</dd>
        </div>
      ))}
    </dl>
  );
}
