import { useState } from 'react';
import { type Proposal, type Settled, useAccept, useProposal } from '#web/api/use-plan.ts';
import { AskDialog } from '#web/ui/ask-dialog.tsx';
import { Button } from '#web/ui/button.tsx';
import { ProblemNote } from '#web/ui/problem-note.tsx';
import styles from './beside.module.css';
import { keepFocus, useKeptFocus } from './margin.tsx';

const mostNamed = 6;

/** Books what is ticked. Where a vehicle on hold would stay without a day, that is said before. */
export function AcceptPart({ proposal, say }: { proposal: Proposal; say: (words: string) => void }) {
  const { drafts, plan } = proposal;
  const { changeDrafts } = useProposal();
  const accept = useAccept();
  useKeptFocus();
  const [asks, setAsks] = useState(false);
  const ticked = drafts.filter((draft) => draft.ticked);
  const leftHolds = [
    ...plan.uncovered_holds,
    ...drafts.filter((draft) => !draft.ticked && draft.grade === 'hold').map(({ vehicle }) => vehicle),
  ];
  const isAll = ticked.length === drafts.length;
  const send = () => {
    setAsks(false);
    accept.mutateAsync(ticked).then(
      (settled) => {
        say(saySettled(settled));
        keepFocus();
      },
      () => undefined,
    );
  };
  const refused = drafts.filter((draft) => draft.refused !== null);
  return (
    <>
      {refused.length > 0 && (
        <div className={styles.warn} role="alert">
          <p>
            <strong>
              {refused.length === 1 ? '1 could not be booked' : `${refused.length} could not be booked`}
            </strong>{' '}
            and {refused.length === 1 ? 'stays' : 'stay'} in the proposal:
          </p>
          <ul>
            {refused.map((draft) => (
              <li key={draft.vehicle}>
                {draft.vehicle}: {draft.refused}
              </li>
            ))}
          </ul>
        </div>
      )}
      {accept.isError && <ProblemNote error={accept.error} />}
      <div className={styles.buttons}>
        <Button
          kind="main"
          disabled={accept.isPending || ticked.length === 0}
          onClick={() => (leftHolds.length > 0 ? setAsks(true) : send())}
        >
          {isAll ? `Book all ${ticked.length}` : `Book ${ticked.length} of ${drafts.length}`}
        </Button>
        <Button kind="quiet" onClick={() => changeDrafts((draft) => ({ ...draft, ticked: !isAll }))}>
          {isAll ? 'Tick none' : 'Tick all'}
        </Button>
      </div>
      {asks && (
        <AskDialog
          title={
            leftHolds.length === 1
              ? '1 vehicle on hold stays without a day'
              : `${leftHolds.length} vehicles on hold stay without a day`
          }
          yes={`Book ${ticked.length}`}
          no="Back to the proposal"
          kind="main"
          onNo={() => setAsks(false)}
          onYes={send}
        >
          <p>
            {nameSome(leftHolds)} must not be dispatched before inspection, and{' '}
            {leftHolds.length === 1 ? 'stays' : 'stay'} on top of the bay plan until a day is found.
          </p>
        </AskDialog>
      )}
    </>
  );
}

const nameSome = (names: readonly string[]): string =>
  names.length <= mostNamed
    ? names.join(', ')
    : `${names.slice(0, mostNamed).join(', ')} and ${names.length - mostNamed} more`;

const saySettled = ({ booked, refused }: Settled): string =>
  [
    `${booked.length} booked.`,
    ...refused.map(({ vehicle, message }) => `${vehicle} was not: ${message}`),
  ].join(' ');
