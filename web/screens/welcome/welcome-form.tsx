import { useNavigate } from '@tanstack/react-router';
import { type FormEvent, useRef, useState } from 'react';
import type { OneTimeAddress } from '#server/contract/people.ts';
import type { useOneTimePassword } from '#web/api/use-one-time.ts';
import { Button } from '#web/ui/button.tsx';
import { checkPassword, passwordRule } from '#web/ui/check-password.ts';
import { findFieldError } from '#web/ui/find-field-error.ts';
import styles from '#web/ui/form.module.css';
import { PasswordField } from '#web/ui/password-field.tsx';
import { ProblemNote } from '#web/ui/problem-note.tsx';
import { TextField } from '#web/ui/text-field.tsx';

interface Props {
  token: string;
  offered: OneTimeAddress;
  use: ReturnType<typeof useOneTimePassword>;
}

export function WelcomeForm({ token, offered, use }: Props) {
  const navigate = useNavigate();
  const secret = useRef<HTMLInputElement>(null);
  const [name, setName] = useState(offered.name ?? '');
  const [email, setEmail] = useState(offered.email ?? '');
  const [password, setPassword] = useState('');
  const [wrong, setWrong] = useState<string>();
  const isFirst = offered.purpose === 'first_admin';
  const asksName = offered.purpose !== 'reset';

  const submit = (event: FormEvent) => {
    event.preventDefault();
    const fault = checkPassword(password);
    setWrong(fault);
    if (fault !== undefined) return secret.current?.focus();
    use.mutate(
      {
        token,
        password,
        ...(asksName ? { name: name.trim() } : {}),
        ...(isFirst ? { email: email.trim() } : {}),
      },
      { onSuccess: () => void navigate({ to: '/', replace: true }) },
    );
  };

  const known = ['name', 'email', 'password'].some((field) => findFieldError(use.error, field) !== undefined);
  return (
    <form className={styles.form} onSubmit={submit}>
      {use.isError && !known && <ProblemNote error={use.error} />}
      {asksName && (
        <TextField
          label="Your name"
          hint={isFirst ? undefined : 'As others here should see it; correct it if it is wrong.'}
          error={findFieldError(use.error, 'name')}
          name="name"
          autoComplete="name"
          maxLength={120}
          required
          value={name}
          onChange={setName}
        />
      )}
      {isFirst ? (
        <TextField
          label="E-mail"
          hint="You sign in with it."
          error={findFieldError(use.error, 'email')}
          type="email"
          name="username"
          autoComplete="username"
          autoCapitalize="none"
          spellCheck={false}
          maxLength={254}
          required
          value={email}
          onChange={setEmail}
        />
      ) : (
        // For password managers, which keep a password under the name that is signed in with.
        <input
          type="text"
          name="username"
          autoComplete="username"
          value={offered.email ?? ''}
          readOnly
          hidden
        />
      )}
      <PasswordField
        label={offered.purpose === 'reset' ? 'New password' : 'Password'}
        hint={passwordRule}
        error={wrong ?? findFieldError(use.error, 'password')}
        autoComplete="new-password"
        input={secret}
        value={password}
        onChange={(text) => {
          setPassword(text);
          setWrong(undefined);
        }}
      />
      <div className={styles.buttons}>
        <Button type="submit" kind="main" disabled={use.isPending}>
          Set the password and sign in
        </Button>
      </div>
    </form>
  );
}
