import { useCallback, useMemo, useRef, useState } from 'react';
import type { BayPlan } from '#server/contract/bookings.ts';
import { changesBookings } from '#web/api/role-rights.ts';
import { useBayPlan } from '#web/api/use-bay-plan.ts';
import { type Draft, useProposal } from '#web/api/use-plan.ts';
import { usePerson } from '#web/api/use-session.ts';
import { AskDialog } from '#web/ui/ask-dialog.tsx';
import { ProblemNote } from '#web/ui/problem-note.tsx';
import { useMedia } from '#web/ui/use-media.ts';
import styles from './bay-plan.module.css';
import { Beside, isBesideOpen } from './beside.tsx';
import { type Complained, Complaint } from './complaint.tsx';
import { HoldsBand } from './holds-band.tsx';
import { layOutGrid } from './lay-out-grid.ts';
import { PlanGrid } from './plan-grid.tsx';
import { PlanHead } from './plan-head.tsx';
import { type Item, toBookingItem, toDraftItem } from './plan-items.ts';
import { PlanList } from './plan-list.tsx';
import { type Place, writePlace } from './plan-search.ts';
import type { BayPlanState } from './use-bay-plan-state.ts';
import { useFinger } from './use-finger.ts';
import { followClick } from './use-grid-clicks.ts';
import { useGridKeys } from './use-grid-keys.ts';
import { openItem, useGridLinks } from './use-grid-links.ts';
import { type Question, usePlanHand } from './use-plan-hand.ts';
import { WaitingStrip } from './waiting-strip.tsx';

/** The plan of some weeks: what comes first on top, the grid, and beside it what is open. */
export function PlanView({ state }: { state: BayPlanState }) {
  const { data: plan, error, isError, refetch } = useBayPlan(state.ask);
  const person = usePerson();
  const canChange = person !== null && changesBookings(person.role);
  return (
    <div className={styles.page}>
      <PlanHead state={state} plan={plan ?? null} canChange={canChange} />
      {isError && plan === undefined && <ProblemNote error={error} onRetry={() => void refetch()} />}
      {plan === undefined ? (
        !isError && <div className={styles.waiting} aria-busy="true" />
      ) : (
        <ShownPlan state={state} plan={plan} canChange={canChange} />
      )}
    </div>
  );
}

const noDrafts: readonly Draft[] = [];

function ShownPlan({ state, plan, canChange }: { state: BayPlanState; plan: BayPlan; canChange: boolean }) {
  const { search, change } = state;
  const isSmall = useMedia('(max-width: 47.99rem)');
  const { proposal, changeDrafts } = useProposal();
  const drafts = proposal?.drafts ?? noDrafts;
  const [spoken, say] = useState('');
  const [complained, setComplained] = useState<Complained | null>(null);
  const complain = useCallback((title: string, error?: unknown) => setComplained({ title, error }), []);
  const [asked, ask] = useState<Question | null>(null);
  const settle = useCallback(() => setComplained(null), []);

  const root = useRef<HTMLDivElement>(null);
  const area = useRef<HTMLDivElement>(null);
  const grid = useMemo(() => layOutGrid(plan, drafts), [plan, drafts]);
  const links = useGridLinks(search);
  const hand = usePlanHand({ plan, drafts, say, complain, settle, ask });
  const items = useMemo(() => listItems(plan, drafts), [plan, drafts]);
  const findItem = useCallback((key: string) => items.get(key), [items]);
  const onPlace = useCallback((place: Place) => change({ place: writePlace(place) }, 'step'), [change]);
  const onOpen = useCallback((item: Item) => change(openItem(item), 'step'), [change]);
  const keys = useGridKeys(root, grid, hand, {
    findItem,
    canChange,
    onPlace,
    onTick: ({ of }) =>
      changeDrafts((draft) => (draft.vehicle === of.vehicle ? { ...draft, ticked: !draft.ticked } : draft)),
  });
  useFinger(area, grid, hand, findItem);
  const openKey =
    search.open !== undefined
      ? `b${search.open}`
      : search.proposed !== undefined
        ? `p${search.proposed}`
        : null;
  const beside = isBesideOpen(search);
  return (
    <>
      <div className={styles.columns} data-beside={beside || undefined}>
        <div ref={area} className={styles.main}>
          <HoldsBand plan={plan} proposal={proposal} canChange={canChange} change={change} />
          {complained !== null && <Complaint {...complained} onClose={settle} />}
          <WaitingStrip
            plan={plan}
            hand={hand}
            links={links}
            openKey={openKey}
            canChange={canChange && !isSmall}
            onOpen={onOpen}
            onTakeUp={keys.takeUp}
          />
          {plan.depots.length === 0 ? (
            <p className={styles.none}>
              There is no depot to plan for. An admin sets depots and their bays up.
            </p>
          ) : isSmall ? (
            <PlanList grid={grid} onOpen={onOpen} links={links} />
          ) : (
            <PlanGrid
              root={root}
              grid={grid}
              hand={hand}
              keys={keys}
              links={links}
              findItem={findItem}
              openKey={openKey}
              canChange={canChange}
              onClick={(event) =>
                followClick(event, grid, { findItem, change, onPlace: canChange ? onPlace : null })
              }
            />
          )}
        </div>
        {beside && <Beside state={state} plan={plan} proposal={proposal} canChange={canChange} say={say} />}
      </div>
      {asked !== null && (
        <AskDialog
          title={`Move ${asked.vehicle} to another depot?`}
          yes={`Move it to ${asked.to}`}
          no={`Leave it at ${asked.from}`}
          kind="main"
          onNo={() => {
            ask(null);
            say(`${asked.vehicle} stays at ${asked.from}.`);
          }}
          onYes={() => {
            ask(null);
            asked.onYes();
          }}
        >
          <p>
            It is booked at {asked.from}. Somebody has to bring it to {asked.to}.
          </p>
        </AskDialog>
      )}
      <p className="only-spoken" role="status">
        {spoken}
      </p>
    </>
  );
}

function listItems(plan: BayPlan, drafts: readonly Draft[]): ReadonlyMap<string, Item> {
  const items = [
    ...[...plan.put_off, ...plan.past, ...plan.bookings].map(toBookingItem),
    ...drafts.map(toDraftItem),
  ];
  return new Map(items.map((item) => [item.key, item]));
}
