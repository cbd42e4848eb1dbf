import { useEffect } from 'react';
import { usePerson } from '#web/api/use-session.ts';
import { useVehicle, useVehicleHistory, useVehicleSeries } from '#web/api/use-vehicle.ts';
import { ProblemNote } from '#web/ui/problem-note.tsx';
import { AtShop } from './at-shop.tsx';
import { AtlasLink } from './atlas-link.tsx';
import { ConditionFigures } from './condition-figures.tsx';
import { Evidence } from './evidence.tsx';
import { History } from './history.tsx';
import { VehicleHome } from './home/vehicle-home.tsx';
import { isNotFound } from './is-not-found.ts';
import { LivesTable } from './lives-table.tsx';
import { MileageFigure } from './mileage-figure.tsx';
import { NoVehicle } from './no-vehicle.tsx';
import { PacketLine } from './packet-line.tsx';
import { SetAside } from './set-aside.tsx';
import { useVehicleState } from './use-vehicle-state.ts';
import { VehicleHead } from './vehicle-head.tsx';
import styles from './vehicle-screen.module.css';
import { Waiting } from './waiting.tsx';

/** One vehicle: what its readings say, from which figures, and what happened to it. */
export function VehicleScreen() {
  const state = useVehicleState();
  const { vehicle } = state;
  const isShop = usePerson()?.role === 'shop';
  const detail = useVehicle(vehicle);
  const series = useVehicleSeries(vehicle);
  const history = useVehicleHistory(vehicle);

  useEffect(() => {
    document.title = `Vehicle ${vehicle} · Slipdrift`;
  }, [vehicle]);

  if (detail.isError && detail.data === undefined) {
    if (isNotFound(detail.error)) return <NoVehicle vehicle={vehicle} />;
    return (
      <div className={styles.page}>
        <h1>{vehicle}</h1>
        <ProblemNote error={detail.error} onRetry={() => void detail.refetch()} />
      </div>
    );
  }
  const atShop = detail.data !== undefined && (
    <AtShop key={vehicle} vehicle={vehicle} depot={detail.data.depot} shop={detail.data.shop} />
  );
  const { assessment = null, sentence = '', lives = [] } = detail.data ?? {};
  return (
    <div className={styles.page}>
      {isShop && atShop}
      <VehicleHead
        vehicle={vehicle}
        detail={detail.data ?? null}
        horizonKm={series.data?.horizon_km ?? null}
      />
      {detail.data !== undefined && (
        <PacketLine key={`packet ${vehicle}`} vehicle={vehicle} isRetired={detail.data.retired} />
      )}
      {!isShop && atShop}
      {detail.data !== undefined && <VehicleHome key={`home ${vehicle}`} detail={detail.data} />}
      {series.isError && series.data === undefined && (
        <ProblemNote error={series.error} onRetry={() => void series.refetch()} />
      )}
      {series.isPending && <Waiting name="the chart" heightPx={780} />}
      {series.data !== undefined && (
        <>
          <MileageFigure
            key={vehicle}
            series={series.data}
            assessment={assessment}
            sentence={sentence}
            state={state}
          />
          <div className={styles.columns}>
            <ConditionFigures series={series.data}>
              {detail.data !== undefined && <AtlasLink vehicle={vehicle} platform={detail.data.platform} />}
            </ConditionFigures>
            <SetAside series={series.data} />
          </div>
        </>
      )}
      <div className={styles.columns} data-kind="words">
        {detail.data !== undefined && <Evidence detail={detail.data} notes={series.data?.notes ?? []} />}
        {history.isPending && <Waiting name="the history" heightPx={240} />}
        {history.isError && history.data === undefined && (
          <ProblemNote error={history.error} onRetry={() => void history.refetch()} />
        )}
        {history.data !== undefined && (
          <History
            vehicle={history.data.vehicle}
            events={history.data.events}
            platform={detail.data?.platform ?? null}
          />
        )}
        {detail.data !== undefined && (
          <LivesTable lives={lives} odometerKm={detail.data.odometer_km} state={state} />
        )}
      </div>
    </div>
  );
}
