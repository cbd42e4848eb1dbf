import { useState } from 'react';
import type { AtShop as Sent } from '#server/contract/vehicle.ts';
import { sendsToShop } from '#web/api/role-rights.ts';
import { usePerson } from '#web/api/use-session.ts';
import { useCallBack } from '#web/api/use-shop.ts';
import { formatMoment } from '#web/format/format-date.ts';
import { AskDialog } from '#web/ui/ask-dialog.tsx';
import { Button } from '#web/ui/button.tsx';
import { ProblemNote } from '#web/ui/problem-note.tsx';
import styles from './at-shop.module.css';
import { SendToShop } from './send-to-shop.tsx';

interface Props {
  vehicle: string;
  depot: string | null;
  shop: Sent | null;
}

/** Whether a shop has the vehicle on its list, why, and what can be done about it. */
export function AtShop({ vehicle, depot, shop }: Props) {
  const person = usePerson();
  const callBack = useCallBack(vehicle);
  const [asks, setAsks] = useState(false);
  if (person === null) return null;
  const maySend = sendsToShop(person.role);
  if (shop === null) return maySend ? <SendToShop vehicle={vehicle} depot={depot} /> : null;
  const since = formatMoment(shop.sent_at);
  return (
    <section className={styles.note} aria-label="At the shop">
      {person.role === 'shop' ? (
        <>
          {shop.note !== null && <p className={styles.words}>{shop.note}</p>}
          <p className={styles.how}>
            Sent to {shop.depot_name} by {shop.sent_by}, {since}
            {shop.note === null && '. No note came with it.'}
          </p>
        </>
      ) : (
        <>
          <p className={styles.how}>
            <strong>At the shop of {shop.depot_name}</strong> since {since}, sent by {shop.sent_by}
            {shop.note === null && ', without a note'}
          </p>
          {shop.note !== null && <p className={styles.words}>{shop.note}</p>}
        </>
      )}
      {maySend && (
        <p>
          <Button disabled={callBack.isPending} onClick={() => setAsks(true)}>
            Call back
          </Button>
        </p>
      )}
      {callBack.isError && <ProblemNote error={callBack.error} />}
      {asks && (
        <AskDialog
          title={`Call ${vehicle} back?`}
          yes="Call back"
          kind="main"
          onNo={() => setAsks(false)}
          onYes={() => {
            setAsks(false);
            callBack.mutate();
          }}
        >
          <p>
            The shop of {shop.depot_name} no longer sees the vehicle. The note is then only in the changes.
          </p>
        </AskDialog>
      )}
    </section>
  );
}
