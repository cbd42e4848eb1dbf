import { type FormEvent, useState } from 'react';
import { ProblemError } from '#web/api/problem-error.ts';
import { usePasswordChange } from '#web/api/use-account.ts';
import { Button } from '#web/ui/button.tsx';
import { checkPassword, passwordRule } from '#web/ui/check-password.ts';
import { findFieldError } from '#web/ui/find-field-error.ts';
import formStyles from '#web/ui/form.module.css';
import { PasswordField } from '#web/ui/password-field.tsx';
import { ProblemNote } from '#web/ui/problem-note.tsx';
import styles from './account-screen.module.css';

export function PasswordForm({ email }: { email: string }) {
  const change = usePasswordChange();
  const [current, setCurrent] = useState('');
  const [password, setPassword] = useState('');
  const [wrong, setWrong] = useState<string>();
  const submit = (event: FormEvent) => {
    event.preventDefault();
    const fault = checkPassword(password);
    setWrong(fault);
    if (fault !== undefined) return;
    change.mutate(
      { current, password },
      {
        onSuccess: () => {
          setCurrent('');
          setPassword('');
        },
      },
    );
  };
  const wrongCurrent = sayWrongCurrent(change.error);
  const wrongNew = wrong ?? findFieldError(change.error, 'password');
  return (
    <section className={styles.part} aria-labelledby="password-title">
      <h2 id="password-title">Password</h2>
      <form className={formStyles.form} onSubmit={submit}>
        {change.isSuccess && (
          <p className={formStyles.done} role="status">
            The password is changed. You stay signed in here; everywhere else you are signed out.
          </p>
        )}
        {change.isError && wrongCurrent === undefined && wrongNew === undefined && (
          <ProblemNote error={change.error} />
        )}
        <input type="text" name="username" autoComplete="username" value={email} readOnly hidden />
        <PasswordField
          label="Password now"
          autoComplete="current-password"
          error={wrongCurrent}
          value={current}
          onChange={setCurrent}
        />
        <PasswordField
          label="New password"
          hint={passwordRule}
          error={wrongNew}
          autoComplete="new-password"
          value={password}
          onChange={(text) => {
            setPassword(text);
            setWrong(undefined);
          }}
        />
        <div className={formStyles.buttons}>
          <Button type="submit" disabled={change.isPending}>
            Change the password
          </Button>
        </div>
      </form>
    </section>
  );
}

function sayWrongCurrent(error: unknown): string | undefined {
  const said = findFieldError(error, 'current');
  if (said !== undefined) return said;
  return error instanceof ProblemError && error.status === 401 ? 'This is not your password.' : undefined;
}
