import { getRouteApi } from '@tanstack/react-router';
import { useEffect, useState } from 'react';
import type { OfferedAddress } from '#server/contract/people.ts';
import { usePeople } from '#web/api/use-people.ts';
import { formatWhole } from '#web/format/format-number.ts';
import { RestedField } from '#web/screens/settings/rested-field.tsx';
import styles from '#web/screens/settings/settings.module.css';
import { Button } from '#web/ui/button.tsx';
import { ProblemNote } from '#web/ui/problem-note.tsx';
import { InviteForm } from './invite-form.tsx';
import { OfferedNote } from './offered-note.tsx';
import { type PeopleSearch, parsePeopleSearch, pickPeople } from './people-search.ts';
import { PeopleTable } from './people-table.tsx';

const route = getRouteApi('/settings/people');

/** Who may sign in, as what, and for which depots. */
export function PeopleScreen() {
  const search = parsePeopleSearch({ ...route.useSearch() });
  const navigate = route.useNavigate();
  const { data, isPending, isError, error, refetch } = usePeople();
  const [isInviting, setInviting] = useState(false);
  const [offered, setOffered] = useState<OfferedAddress | null>(null);
  useEffect(() => {
    document.title = 'People · Slipdrift';
  }, []);
  const change = (patch: { [K in keyof PeopleSearch]: PeopleSearch[K] | undefined }) =>
    void navigate({
      to: '/settings/people',
      search: (before: PeopleSearch) => parsePeopleSearch({ ...before, ...patch }),
      replace: true,
      resetScroll: false,
    });
  const shown = pickPeople(data ?? [], search.q);
  return (
    <div className={styles.screen}>
      <header className={styles.head}>
        <div className={styles.words}>
          <h1>People</h1>
          <p>
            Each person has one role and works for all depots or for some. A press on a name opens what can be
            changed.
          </p>
        </div>
        {!isInviting && (
          <Button
            kind="main"
            onClick={() => {
              setOffered(null);
              setInviting(true);
            }}
          >
            Invite somebody
          </Button>
        )}
      </header>
      {isInviting && (
        <InviteForm
          onOffered={(next) => {
            setOffered(next);
            setInviting(false);
          }}
          onLeave={() => setInviting(false)}
        />
      )}
      {offered !== null && <OfferedNote offered={offered} onDone={() => setOffered(null)} />}
      {isError && data === undefined && <ProblemNote error={error} onRetry={() => void refetch()} />}
      {isPending && <p role="status">Loading the people</p>}
      {data !== undefined && (
        <div>
          <search className={styles.tools}>
            <RestedField
              label="Name, e-mail, role or state"
              placeholder="any part of it"
              value={search.q ?? ''}
              onChange={(q) => change({ q })}
            />
            <p className={styles.small} role="status">
              {shown.length === data.length
                ? `${formatWhole(data.length)} ${data.length === 1 ? 'person' : 'people'}`
                : `${formatWhole(shown.length)} of ${formatWhole(data.length)} people`}
            </p>
          </search>
          {shown.length === 0 ? (
            <p className={styles.none}>Nobody matches. {data.length} people are listed without the search.</p>
          ) : (
            <PeopleTable
              people={shown}
              open={search.open}
              onToggle={(id) => change({ open: search.open === id ? undefined : id })}
            />
          )}
        </div>
      )}
    </div>
  );
}
