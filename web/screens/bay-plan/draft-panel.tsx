import type { BayPlan } from '#server/contract/bookings.ts';
import { type Draft, useProposal } from '#web/api/use-plan.ts';
import { formatDay, formatHours, formatWholeDay } from '#web/format/format-day.ts';
import { formatMoney } from '#web/format/format-money.ts';
import { formatPercent } from '#web/format/format-percent.ts';
import { Button } from '#web/ui/button.tsx';
import { ChoiceLine } from '#web/ui/choice-lines.tsx';
import styles from './beside.module.css';
import { DraftMoveForm } from './draft-move-form.tsx';

interface Props {
  draft: Draft;
  plan: BayPlan;
  say: (words: string) => void;
  onBack: () => void;
}

/** One proposed inspection: why it is worth a bay day, and another place for it by form. */
export function DraftPanel({ draft, plan, say, onBack }: Props) {
  const { proposal, changeDrafts } = useProposal();
  const countedTo = proposal?.plan.counted_to ?? plan.to;
  const change = (patch: Partial<Draft>) =>
    changeDrafts((one) => (one.vehicle === draft.vehicle ? { ...one, ...patch } : one));
  const depot = plan.depots.find(({ id }) => id === draft.depot)?.name ?? draft.depot;
  return (
    <>
      <p>
        <strong>Proposed</strong> for {formatWholeDay(draft.day)}, {draft.from} to {draft.to} (
        {formatHours(draft.hours)}), {depot}, bay {draft.bay}
        {draft.moved && ', moved by you'}
      </p>
      {draft.refused !== null && <p className={styles.warn}>{draft.refused}</p>}
      <ChoiceLine
        type="checkbox"
        label="Book it with the others"
        checked={draft.ticked}
        onChange={() => change({ ticked: !draft.ticked })}
      />
      <p>{draft.why}</p>
      <dl className={styles.facts}>
        <div>
          <dt>Chance of failing on the road before this day{draft.moved && ', as it was proposed'}</dt>
          <dd>{formatPercent(draft.chance_before)}</dd>
        </div>
        <div>
          <dt>by {formatDay(countedTo)}, if nobody looks</dt>
          <dd>{formatPercent(draft.chance_by_end)}</dd>
        </div>
        <div>
          <dt>Expected cost avoided</dt>
          <dd>{formatMoney(draft.cost_avoided)}</dd>
        </div>
      </dl>
      <DraftMoveForm
        key={`${draft.depot} ${draft.day} ${draft.bay} ${draft.from}`}
        draft={draft}
        drafts={proposal?.drafts ?? []}
        plan={plan}
        onMoved={(moved) => {
          change({ ...moved, moved: true, ticked: true, refused: null });
          say(`${draft.vehicle} moved within the proposal: ${formatDay(moved.day)}, ${moved.from}.`);
        }}
      />
      <p>
        <Button kind="quiet" onClick={onBack}>
          Back to the proposal
        </Button>
      </p>
    </>
  );
}
