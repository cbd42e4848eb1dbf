import { Link } from '@tanstack/react-router';
import { type FormEvent, useState } from 'react';
import type { ListedPerson } from '#server/contract/people.ts';
import { useChangePerson } from '#web/api/use-people.ts';
import settingsStyles from '#web/screens/settings/settings.module.css';
import { Button } from '#web/ui/button.tsx';
import { findFieldError } from '#web/ui/find-field-error.ts';
import styles from '#web/ui/form.module.css';
import { ProblemNote } from '#web/ui/problem-note.tsx';
import { TextField } from '#web/ui/text-field.tsx';
import { checkDepots, reachOf } from './check-depots.ts';
import { DepotChoice } from './depot-choice.tsx';
import { PersonActs } from './person-acts.tsx';
import { RoleChoice } from './role-choice.tsx';

/** What an admin can change about a person: name, role, depots, and whether they get in. */
export function PersonPanel({ person, isSelf }: { person: ListedPerson; isSelf: boolean }) {
  const save = useChangePerson(person.id);
  const [name, setName] = useState(person.name);
  const [role, setRole] = useState(person.role);
  const [depots, setDepots] = useState(person.depots);
  const [wrongDepots, setWrongDepots] = useState<string>();
  const reach = reachOf(role, depots);
  const isChanged =
    name.trim() !== person.name ||
    role !== person.role ||
    JSON.stringify(reach) !== JSON.stringify(person.depots);
  const submit = (event: FormEvent) => {
    event.preventDefault();
    const fault = checkDepots(reach);
    setWrongDepots(fault);
    if (fault === undefined) save.mutate({ name: name.trim(), role, depots: reach });
  };
  const wrongName = findFieldError(save.error, 'name');
  return (
    <div className={settingsStyles.sheet}>
      <form className={settingsStyles.stack} onSubmit={submit}>
        {save.isError && wrongName === undefined && <ProblemNote error={save.error} />}
        <div className={settingsStyles.columns} data-of="3">
          <div className={settingsStyles.stack}>
            <TextField
              label="Name"
              error={wrongName}
              autoComplete="off"
              maxLength={120}
              required
              value={name}
              onChange={setName}
            />
            {isSelf && (
              <p className={settingsStyles.small}>
                This is you. With another role than admin you no longer see this page.
              </p>
            )}
          </div>
          <RoleChoice value={role} onChange={setRole} />
          <DepotChoice role={role} value={depots} error={wrongDepots} onChange={setDepots} />
        </div>
        <div className={styles.buttons}>
          <Button type="submit" disabled={!isChanged || save.isPending}>
            Save the change
          </Button>
          <span className={settingsStyles.small} role="status">
            {save.isSuccess && !isChanged ? 'Saved.' : ''}
          </span>
          <Link to="/settings/changes" search={{ subject: 'person', subject_id: person.id }}>
            What was changed about {person.name}
          </Link>
        </div>
      </form>
      <PersonActs person={person} />
    </div>
  );
}
