import type { Plan } from '#server/contract/plan.ts';
import { formatDay } from '#web/format/format-day.ts';
import { formatMoney } from '#web/format/format-money.ts';
import { formatTenths } from '#web/format/format-number.ts';
import { formatPercent } from '#web/format/format-percent.ts';
import styles from './proposal.module.css';

/** What the fleet is expected to pay without and with the proposal, on one scale, and how good the proposal is. */
export function ProposalFigures({ plan }: { plan: Plan }) {
  const most = Math.max(plan.risk_without, plan.risk_with + plan.inspection_cost, 1);
  return (
    <section className={styles.figures} aria-label="Expected cost">
      <h3>
        Expected cost by {formatDay(plan.counted_to)} <span className={styles.unit}>in your currency</span>
      </h3>
      <dl className={styles.costs}>
        <Cost name="Without" road={plan.risk_without} inspections={0} most={most} />
        <Cost name="With" road={plan.risk_with} inspections={plan.inspection_cost} most={most} />
      </dl>
      <p className={styles.soft}>
        Failures on the road, thick; inspections with lost days, {formatMoney(plan.inspection_cost)},
        outlined.
        {plan.already_booked.vehicles.length > 0 &&
          ` The ${plan.already_booked.vehicles.length} that have a day already are counted in both.`}
      </p>
      <p className={styles.soft}>
        {plan.optimal ? 'Proved to be the best plan' : sayGap(plan.gap)}, found in{' '}
        {formatSeconds(plan.seconds)}.
      </p>
    </section>
  );
}

function Cost({
  name,
  road,
  inspections,
  most,
}: {
  name: string;
  road: number;
  inspections: number;
  most: number;
}) {
  const share = (cost: number) => `${Math.max(0, cost / most) * 100}%`;
  return (
    <div>
      <dt>{name}</dt>
      <dd>
        <span className={styles.cost} aria-hidden="true">
          <span className={styles.road} style={{ width: share(road) }} />
          {inspections > 0 && <span className={styles.inspections} style={{ width: share(inspections) }} />}
        </span>
        <span className={styles.sum}>{formatMoney(road + inspections)}</span>
      </dd>
    </div>
  );
}

export const sayGap = (gap: number | null): string =>
  gap === null
    ? 'How far it is from the best is not known'
    : `At most ${formatPercent(gap)} of what can be avoided is missing`;

const formatSeconds = (seconds: number): string =>
  seconds < 0.95 ? 'under a second' : `${formatTenths(seconds)} s`;
