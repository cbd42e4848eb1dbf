import type { BayPlan } from '#server/contract/bookings.ts';
import { type Draft, useProposal } from '#web/api/use-plan.ts';
import { formatDay, formatHours, formatWholeDay } from '#web/format/format-day.ts';
import { formatPercent } from '#web/format/format-percent.ts';
import { Button } from '#web/ui/button.tsx';
import { ChoiceLine } from '#web/ui/choice-lines.tsx';
import styles from './beside.module.css';
import { findRoom } from './find-room.ts';
import { formatMoney } from './format-money.ts';
import { listTaken, toDraftItem } from './plan-items.ts';
import { TimeFields, type Times } from './time-fields.tsx';

/** One proposed inspection: why it is worth a bay day, and another place for it by form. */
export function DraftPanel({ draft, plan, onBack }: { draft: Draft; plan: BayPlan; onBack: () => void }) {
  const { proposal, changeDrafts } = useProposal();
  const drafts = proposal?.drafts ?? [];
  const countedTo = proposal?.plan.counted_to ?? plan.to;
  const change = (patch: Partial<Draft>) =>
    changeDrafts((one) => (one.vehicle === draft.vehicle ? { ...one, ...patch } : one));
  const times: Times = {
    depot: draft.depot,
    day: draft.day,
    bay: String(draft.bay),
    from: draft.from,
    hours: String(draft.hours),
  };
  const fault = findFault(draft, plan, drafts);
  const retime = (next: Times) => {
    const place = { depot: next.depot, day: next.day, bay: Number(next.bay) || 1 };
    const hours = Number(next.hours) || draft.hours;
    const room = lookFor({ ...draft, hours }, place, next.from || null, plan, drafts);
    const found = room?.fits === true ? room : { from: next.from || draft.from, to: draft.to };
    change({ ...place, hours, from: found.from, to: found.to, moved: true, refused: null });
  };
  return (
    <>
      <p>
        <strong>Proposed</strong> for {formatWholeDay(draft.day)}, {draft.from} to {draft.to} (
        {formatHours(draft.hours)}), bay {draft.bay}
        {draft.moved && ', moved by you'}
      </p>
      {draft.refused !== null && <p className={styles.warn}>{draft.refused}</p>}
      {fault !== null && <p className={styles.warn}>It has no place there: {fault}.</p>}
      <ChoiceLine
        type="checkbox"
        label="Book it with the others"
        checked={draft.ticked}
        onChange={() => change({ ticked: !draft.ticked })}
      />
      <p>{draft.why}</p>
      <dl className={styles.facts}>
        <div>
          <dt>Chance of failing on the road before this day</dt>
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
      <form
        className={styles.form}
        aria-label={`Move the proposal for ${draft.vehicle}`}
        onSubmit={(event) => event.preventDefault()}
      >
        <TimeFields
          times={times}
          plan={plan}
          onChange={retime}
          errorOf={() => undefined}
          usualHours={String(draft.hours)}
        />
      </form>
      <p>
        <Button kind="quiet" onClick={onBack}>
          Back to the proposal
        </Button>
      </p>
    </>
  );
}

const findFault = (draft: Draft, plan: BayPlan, drafts: readonly Draft[]): string | null => {
  const room = lookFor(draft, draft, draft.from, plan, drafts);
  return room === null || room.fits ? null : room.why;
};

function lookFor(
  draft: Draft,
  place: { depot: string; day: string; bay: number },
  from: string | null,
  plan: BayPlan,
  drafts: readonly Draft[],
) {
  const depot = plan.depots.find(({ id }) => id === place.depot);
  if (depot === undefined || !depot.days.some(({ day }) => day === place.day)) return null;
  const wish = { hours: draft.hours, from, key: toDraftItem(draft).key };
  return findRoom(depot, place, wish, listTaken(plan.bookings, drafts), plan.now);
}
