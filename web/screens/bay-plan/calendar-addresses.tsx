import { useState } from 'react';
import { useEndFeed, useFeed, useMakeFeed } from '#web/api/use-feed.ts';
import { useOwnDepots } from '#web/api/use-own-depots.ts';
import { formatMoment } from '#web/format/format-date.ts';
import { AskDialog } from '#web/ui/ask-dialog.tsx';
import { Button } from '#web/ui/button.tsx';
import { CopyLine } from '#web/ui/copy-line.tsx';
import { ProblemNote } from '#web/ui/problem-note.tsx';
import { SelectField } from '#web/ui/select-field.tsx';
import styles from './beside.module.css';

/** Secret addresses at which calendars fetch what is booked at a depot. */
export function CalendarAddresses({ chosen }: { chosen: string | null }) {
  const depots = useOwnDepots();
  const [picked, setPicked] = useState(chosen);
  const depot = depots.find(({ id }) => id === picked) ?? depots[0];
  return (
    <>
      <p className={styles.soft}>
        A calendar program that is given a depot’s address shows its bookings and fetches them again by
        itself: for the foreman’s phone, or a screen in the workshop. It can change nothing here. Whoever has
        the address reads the bookings, so treat it as a password.
      </p>
      {depot === undefined ? (
        <p>There is no depot yet.</p>
      ) : (
        <>
          <SelectField
            label="Depot"
            value={depot.id}
            options={depots.map(({ id, name }) => ({ value: id, label: name }))}
            onChange={setPicked}
          />
          <FeedOfDepot key={depot.id} depot={depot.id} name={depot.name} />
        </>
      )}
    </>
  );
}

function FeedOfDepot({ depot, name }: { depot: string; name: string }) {
  const feed = useFeed(depot);
  const make = useMakeFeed(depot);
  const end = useEndFeed(depot);
  const [asks, setAsks] = useState<'renew' | 'end' | null>(null);
  const error = feed.error ?? make.error ?? end.error;
  const has = feed.data !== undefined && feed.data.made_at !== null;
  return (
    <section className={styles.form} aria-label={`Calendar address of ${name}`} aria-busy={feed.isPending}>
      {error !== null && <ProblemNote error={error} />}
      {make.data !== undefined && has && (
        <div className={styles.once}>
          <p>
            <strong>Copy it now:</strong> it is shown this once.
          </p>
          <CopyLine name={`Calendar address of ${name}`} value={make.data.address} />
        </div>
      )}
      {feed.data !== undefined &&
        (has ? (
          <p>
            Made {formatMoment(feed.data.made_at)} by {feed.data.made_by}.{' '}
            {feed.data.used_at === null
              ? 'No calendar has fetched it yet.'
              : `Last fetched ${formatMoment(feed.data.used_at)}.`}
          </p>
        ) : (
          <p>{name} has no address.</p>
        ))}
      {feed.data !== undefined && (
        <div className={styles.buttons}>
          <Button
            kind={has ? 'plain' : 'main'}
            disabled={make.isPending}
            onClick={() => (has ? setAsks('renew') : make.mutate())}
          >
            {has ? 'Renew' : 'Make an address'}
          </Button>
          {has && (
            <Button kind="grave" disabled={end.isPending} onClick={() => setAsks('end')}>
              End
            </Button>
          )}
        </div>
      )}
      {asks !== null && (
        <AskDialog
          title={asks === 'renew' ? `A new address for ${name}?` : `End the address of ${name}?`}
          yes={asks === 'renew' ? 'Make a new one' : 'End it'}
          onNo={() => setAsks(null)}
          onYes={() => {
            setAsks(null);
            if (asks === 'renew') make.mutate();
            else end.mutate(undefined, { onSuccess: () => make.reset() });
          }}
        >
          <p>
            Calendars that have the address of now get nothing any more
            {asks === 'renew' && ' until they are given the new one'}.
          </p>
        </AskDialog>
      )}
    </section>
  );
}
