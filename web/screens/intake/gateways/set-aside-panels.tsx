import { useCallback, useMemo } from 'react';
import type { SetAsideShares } from '#server/contract/intake.ts';
import { useSetAsideShares } from '#web/api/use-intake.ts';
import { Chart } from '#web/charts/chart.tsx';
import type { Frame } from '#web/charts/frame.ts';
import {
  type GatewayShares,
  listSetAsideNumbers,
  type SetAsideScale,
  scaleSetAside,
  setAsideHeightPx,
  setAsideOption,
} from '#web/charts/set-aside-option.ts';
import { formatWhole } from '#web/format/format-number.ts';
import { formatPercent } from '#web/format/format-percent.ts';
import styles from '#web/screens/intake/intake.module.css';
import { saySender } from '#web/screens/intake/say-sender.ts';
import settingsStyles from '#web/screens/settings/settings.module.css';
import { ProblemNote } from '#web/ui/problem-note.tsx';
import head from '#web/ui/screen-head.module.css';

const mostPanels = 12;

/** How much of what each gateway brought was set aside, month by month: a panel each, all on one scale. */
export function SetAsidePanels() {
  const { data, isPending, isError, error, refetch } = useSetAsideShares();
  const shown = useMemo(() => (data === undefined ? [] : chooseShown(data)), [data]);
  const scale = useMemo(() => scaleSetAside(shown), [shown]);
  const rest = (data?.gateways.length ?? 0) - shown.length;
  return (
    <section className={settingsStyles.stack}>
      <div>
        <h2>Set aside, by reason</h2>
        <p className={head.reading}>
          Share of the readings of each month that were no steady lockup, all gateways on one scale. A gateway
          whose share grows may have lost a signal. Usable readings count for the month in which their stretch
          ends.
        </p>
      </div>
      {isError && data === undefined && <ProblemNote error={error} onRetry={() => void refetch()} />}
      {isPending && <p role="status">Adding up what was set aside</p>}
      {data !== undefined && shown.length === 0 && (
        <p className={settingsStyles.none}>
          Nothing yet: a month stands here once readings of a gateway have been assessed.
        </p>
      )}
      <div className={styles.panels}>
        {shown.map((gateway) => (
          <SetAsidePanel key={gateway.sender.id} gateway={gateway} scale={scale} />
        ))}
      </div>
      {rest > 0 && (
        <p className={settingsStyles.small}>
          The {formatWhole(shown.length)} with most readings; {formatWhole(rest)} more have fewer.
        </p>
      )}
    </section>
  );
}

function SetAsidePanel({ gateway, scale }: { gateway: GatewayShares; scale: SetAsideScale }) {
  const draw = useCallback((frame: Frame) => setAsideOption(gateway, scale, frame), [gateway, scale]);
  const numbers = useCallback(() => listSetAsideNumbers(gateway, scale), [gateway, scale]);
  return (
    <Chart
      title={<h3>{saySender(gateway.sender)}</h3>}
      label={`Share set aside of ${gateway.sender.name}: ${sayLast(gateway)}.`}
      draw={draw}
      height={setAsideHeightPx}
      numbers={numbers}
    />
  );
}

const readingsOf = ({ months }: GatewayShares): number =>
  months.reduce((sum, { readings }) => sum + readings, 0);

const chooseShown = ({ gateways }: SetAsideShares): GatewayShares[] =>
  gateways
    .toSorted((a, b) => readingsOf(b) - readingsOf(a))
    .slice(0, mostPanels)
    .sort((a, b) => a.sender.name.localeCompare(b.sender.name, 'en'));

function sayLast({ months }: GatewayShares): string {
  const last = months.findLast(({ readings }) => readings > 0);
  if (last === undefined) return 'no readings';
  const n = Object.values(last.set_aside).reduce((sum, count) => sum + count, 0);
  return `${formatPercent(n / last.readings)} in ${last.month}`;
}
