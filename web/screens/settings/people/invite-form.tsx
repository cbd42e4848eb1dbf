import { type FormEvent, useEffect, useRef, useState } from 'react';
import type { OfferedAddress } from '#server/contract/people.ts';
import type { Role } from '#server/contract/words.ts';
import { ProblemError } from '#web/api/problem-error.ts';
import { useInvite } from '#web/api/use-people.ts';
import settingsStyles from '#web/screens/settings/settings.module.css';
import { Button } from '#web/ui/button.tsx';
import { findFieldError } from '#web/ui/find-field-error.ts';
import styles from '#web/ui/form.module.css';
import { ProblemNote } from '#web/ui/problem-note.tsx';
import { TextField } from '#web/ui/text-field.tsx';
import { checkDepots, reachOf } from './check-depots.ts';
import { DepotChoice } from './depot-choice.tsx';
import { RoleChoice } from './role-choice.tsx';

interface Props {
  onOffered: (offered: OfferedAddress) => void;
  onLeave: () => void;
}

export function InviteForm({ onOffered, onLeave }: Props) {
  const invite = useInvite();
  const form = useRef<HTMLFormElement>(null);
  const [name, setName] = useState('');
  const [email, setEmail] = useState('');
  const [role, setRole] = useState<Role>('planner');
  const [depots, setDepots] = useState<string[] | null>(null);
  const [wrongDepots, setWrongDepots] = useState<string>();
  useEffect(() => form.current?.querySelector('input')?.focus(), []);

  const submit = (event: FormEvent) => {
    event.preventDefault();
    const reach = reachOf(role, depots);
    const fault = checkDepots(reach);
    setWrongDepots(fault);
    if (fault === undefined)
      invite.mutate(
        { name: name.trim(), email: email.trim(), role, depots: reach },
        { onSuccess: onOffered },
      );
  };
  const { error } = invite;
  const isTaken = error instanceof ProblemError && error.status === 409;
  const wrongEmail = isTaken ? error.detail : findFieldError(error, 'email');
  const wrongName = findFieldError(error, 'name');
  return (
    <form ref={form} className={settingsStyles.sheet} onSubmit={submit} aria-labelledby="invite-title">
      <h2 id="invite-title">Invite somebody</h2>
      {invite.isError && wrongEmail === undefined && wrongName === undefined && <ProblemNote error={error} />}
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
          <TextField
            label="E-mail"
            hint="The person signs in with it. Nothing is sent to it."
            error={wrongEmail}
            type="email"
            autoComplete="off"
            autoCapitalize="none"
            spellCheck={false}
            maxLength={254}
            required
            value={email}
            onChange={setEmail}
          />
        </div>
        <RoleChoice value={role} onChange={setRole} />
        <DepotChoice role={role} value={depots} error={wrongDepots} onChange={setDepots} />
      </div>
      <div className={styles.buttons}>
        <Button type="submit" kind="main" disabled={invite.isPending}>
          Make the one-time address
        </Button>
        <Button kind="quiet" onClick={onLeave}>
          Leave it
        </Button>
      </div>
    </form>
  );
}
