import { type FormEvent, useState } from 'react';
import { useDepots } from '#web/api/use-fleet.ts';
import { useOwnDepots } from '#web/api/use-own-depots.ts';
import { useSendToShop } from '#web/api/use-shop.ts';
import { Button } from '#web/ui/button.tsx';
import { FieldFrame } from '#web/ui/field-frame.tsx';
import { findFieldError } from '#web/ui/find-field-error.ts';
import formStyles from '#web/ui/form.module.css';
import { ProblemNote } from '#web/ui/problem-note.tsx';
import { SelectField } from '#web/ui/select-field.tsx';
import styles from './at-shop.module.css';

const longestNote = 500;

/** Puts the vehicle on the list of a shop, with a word on what it is to look at. */
export function SendToShop({ vehicle, depot }: { vehicle: string; depot: string | null }) {
  const [isOpen, setOpen] = useState(false);
  if (!isOpen)
    return (
      <p>
        <Button onClick={() => setOpen(true)}>Send to a shop</Button>
      </p>
    );
  return <ShopForm vehicle={vehicle} depot={depot} onLeave={() => setOpen(false)} />;
}

interface FormProps {
  vehicle: string;
  depot: string | null;
  onLeave: () => void;
}

function ShopForm({ vehicle, depot, onLeave }: FormProps) {
  const isKnown = useDepots().data !== undefined;
  const depots = useOwnDepots();
  const send = useSendToShop(vehicle);
  const [chosen, setChosen] = useState<string | null>(null);
  const [note, setNote] = useState('');
  const picked = chosen ?? depots.find(({ id }) => id === depot)?.id ?? depots[0]?.id ?? null;
  const wrongNote = findFieldError(send.error, 'note');
  const submit = (event: FormEvent) => {
    event.preventDefault();
    const words = note.trim();
    if (picked !== null) send.mutate({ depot: picked, note: words === '' ? null : words });
  };
  if (isKnown && picked === null)
    return (
      <p className={styles.how}>
        There is no depot to send it to. An admin sets depots up.{' '}
        <Button kind="quiet" onClick={onLeave}>
          Leave it
        </Button>
      </p>
    );
  return (
    <form className={formStyles.form} onSubmit={submit} aria-label={`Send ${vehicle} to a shop`}>
      {send.isError && wrongNote === undefined && <ProblemNote error={send.error} />}
      <SelectField
        label="Shop of"
        value={picked ?? ''}
        options={depots.map(({ id, name }) => ({ value: id, label: name }))}
        onChange={setChosen}
      />
      <FieldFrame
        label="Note for the shop"
        hint={`What to look at first, where the vehicle stands. ${longestNote - note.length} characters left.`}
        error={wrongNote}
      >
        {(control) => (
          <textarea
            {...control}
            rows={3}
            maxLength={longestNote}
            value={note}
            onChange={(event) => setNote(event.target.value)}
          />
        )}
      </FieldFrame>
      <div className={formStyles.buttons}>
        <Button type="submit" kind="main" disabled={send.isPending || picked === null}>
          Send to this shop
        </Button>
        <Button kind="quiet" onClick={onLeave}>
          Leave it
        </Button>
      </div>
    </form>
  );
}
