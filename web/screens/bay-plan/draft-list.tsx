import type { BayPlan } from '#server/contract/bookings.ts';
import { type Draft, useProposal } from '#web/api/use-plan.ts';
import { formatDay } from '#web/format/format-day.ts';
import { formatPercent } from '#web/format/format-percent.ts';
import { GradeMark } from '#web/ui/grade-mark.tsx';
import { TickBox } from '#web/ui/tick-box.tsx';
import styles from './proposal.module.css';

interface Props {
  drafts: readonly Draft[];
  plan: BayPlan;
  /** last day for which risk is counted */
  to: string;
  onOpen: (vehicle: string) => void;
}

/** What is proposed, day by day, each to be ticked or not. */
export function DraftList({ drafts, plan, to, onOpen }: Props) {
  const { changeDrafts } = useProposal();
  const names = new Map(plan.depots.map(({ id, name }) => [id, name]));
  const sorted = drafts.toSorted((a, b) => `${a.day} ${a.from}`.localeCompare(`${b.day} ${b.from}`));
  return (
    <section aria-label="Proposed inspections">
      <h3>Proposed</h3>
      <ul className={styles.drafts}>
        {sorted.map((draft) => (
          <li key={draft.vehicle} data-ticked={draft.ticked}>
            <TickBox
              label={`Book ${draft.vehicle}`}
              checked={draft.ticked}
              onChange={() =>
                changeDrafts((one) => (one.vehicle === draft.vehicle ? { ...one, ticked: !one.ticked } : one))
              }
            />
            <span className={styles.mark}>
              <GradeMark grade={draft.grade} withWord={false} />
            </span>
            <button
              type="button"
              className={styles.unitLink}
              title={draft.vehicle}
              onClick={() => onOpen(draft.vehicle)}
            >
              {draft.vehicle}
            </button>
            <span className={styles.when}>
              {formatDay(draft.day)}, {draft.from}
              <small>
                {names.get(draft.depot) ?? draft.depot}, bay {draft.bay}
                {draft.moved && ', moved'}
              </small>
            </span>
            <span
              className={styles.chance}
              title={`chance of failing on the road by ${formatDay(to)}, if nobody looks`}
            >
              {formatPercent(draft.chance_by_end)}
            </span>
          </li>
        ))}
      </ul>
      <p className={styles.soft}>
        The share is the chance of failing on the road by {formatDay(to)}, if nobody looks.
      </p>
    </section>
  );
}
