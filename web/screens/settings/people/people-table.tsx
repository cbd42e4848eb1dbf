import { Fragment } from 'react';
import type { ListedPerson } from '#server/contract/people.ts';
import { useDepotName } from '#web/api/use-fleet-names.ts';
import { usePerson } from '#web/api/use-session.ts';
import { formatMoment } from '#web/format/format-date.ts';
import styles from '#web/screens/settings/settings.module.css';
import { sayDepots } from '#web/ui/say-depots.ts';
import { PersonPanel } from './person-panel.tsx';
import { sayPersonState, saySessions } from './say-person-state.ts';

interface Props {
  people: readonly ListedPerson[];
  open: string | undefined;
  onToggle: (id: string) => void;
}

export function PeopleTable({ people, open, onToggle }: Props) {
  const depotName = useDepotName();
  const self = usePerson();
  return (
    <table className={styles.table}>
      <caption className="only-spoken">People; a press on a name opens what can be changed</caption>
      <thead>
        <tr>
          <th scope="col">Name</th>
          <th scope="col">Role</th>
          <th scope="col">Depots</th>
          <th scope="col">State</th>
          <th scope="col">Last sign-in</th>
          <th scope="col" className={styles.last}>
            Signed in now
          </th>
        </tr>
      </thead>
      <tbody>
        {people.map((person) => (
          <Fragment key={person.id}>
            <tr data-off={person.state === 'closed'}>
              <td>
                <button
                  type="button"
                  className={styles.opener}
                  aria-expanded={open === person.id}
                  onClick={() => onToggle(person.id)}
                >
                  <span className={styles.openerName}>
                    {person.name}
                    {person.id === self?.id && ' (you)'}
                  </span>
                  <small>{person.email}</small>
                </button>
              </td>
              <td data-name="Role">{person.role}</td>
              <td data-name="Depots">{sayDepots(person.depots, depotName)}</td>
              <td data-name="State">{sayPersonState(person)}</td>
              <td data-name="Last sign-in">
                <span>
                  {person.signed_in_at === null ? 'never' : formatMoment(person.signed_in_at)}
                  {person.company && <small>through the company</small>}
                </span>
              </td>
              <td data-name="Signed in now" className={styles.last}>
                {saySessions(person.sessions)}
              </td>
            </tr>
            {open === person.id && (
              <tr data-kind="opened">
                <td colSpan={6} className={styles.opened}>
                  <PersonPanel person={person} isSelf={person.id === self?.id} />
                </td>
              </tr>
            )}
          </Fragment>
        ))}
      </tbody>
    </table>
  );
}
