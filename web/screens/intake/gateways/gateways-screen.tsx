import { useEffect } from 'react';
import { useGateways } from '#web/api/use-intake.ts';
import { formatMoment } from '#web/format/format-date.ts';
import { formatWhole } from '#web/format/format-number.ts';
import styles from '#web/screens/intake/intake.module.css';
import settingsStyles from '#web/screens/settings/settings.module.css';
import { ProblemNote } from '#web/ui/problem-note.tsx';
import head from '#web/ui/screen-head.module.css';
import { GatewaysTable } from './gateways-table.tsx';
import { QuietVehicles } from './quiet-vehicles.tsx';
import { sayQuiet } from './say-quiet.ts';
import { SetAsidePanels } from './set-aside-panels.tsx';

/** Who brings readings, and who has stopped. */
export function GatewaysScreen() {
  const { data, isPending, isError, error, refetch } = useGateways();
  useEffect(() => {
    document.title = 'Gateways · Slipdrift';
  }, []);
  const quiet = (data?.gateways ?? []).filter((gateway) => gateway.quiet && gateway.ended_at === null);
  const others = (data?.gateways.length ?? 0) - quiet.length;
  return (
    <div className={settingsStyles.screen}>
      <header className={settingsStyles.head}>
        <div className={settingsStyles.words}>
          <h1>Gateways</h1>
          {data !== undefined && data.gateways.length > 0 && (
            <p>
              {quiet.length === 0
                ? `None of ${formatWhole(data.gateways.length)} is quiet.`
                : `${formatWhole(quiet.length)} quiet, ${formatWhole(others)} not.`}
            </p>
          )}
        </div>
      </header>
      {isError && data === undefined && <ProblemNote error={error} onRetry={() => void refetch()} />}
      {isPending && <p role="status">Loading the gateways</p>}
      {data !== undefined && data.gateways.length === 0 && (
        <p className={settingsStyles.none}>
          No gateway has delivered yet. An admin gives each a key under Settings; it stands here from its
          first delivery on.
        </p>
      )}
      {data !== undefined && data.gateways.length > 0 && (
        <>
          {quiet.length > 0 && (
            <ul className={styles.quiet} aria-label="Quiet gateways">
              {quiet.map((gateway) => (
                <li key={gateway.sender.id}>{sayQuiet(gateway, data.as_of)}</li>
              ))}
            </ul>
          )}
          <section className={settingsStyles.stack}>
            <h2>All gateways</h2>
            <GatewaysTable gateways={data.gateways} />
            <p className={head.reading}>
              {data.rule}{' '}
              {data.counts_from !== null &&
                `Vehicles are counted by gateway since ${formatMoment(data.counts_from)}; what came before is not in these figures.`}
            </p>
          </section>
          <SetAsidePanels />
          <QuietVehicles vehicles={data.vehicles} total={data.vehicles_total} />
        </>
      )}
    </div>
  );
}
