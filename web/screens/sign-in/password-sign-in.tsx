import { type FormEvent, useEffect, useRef, useState } from 'react';
import { useSignIn } from '#web/api/use-session.ts';
import { Button } from '#web/ui/button.tsx';
import formStyles from '#web/ui/form.module.css';
import { PasswordField } from '#web/ui/password-field.tsx';
import { ProblemNote } from '#web/ui/problem-note.tsx';
import { TextField } from '#web/ui/text-field.tsx';
import { sayRefusedSignIn } from './say-refused-sign-in.ts';
import styles from './sign-in-screen.module.css';

interface Props {
  takesFocus: boolean;
  /** Another way of signing in stands before it. */
  isSecond: boolean;
}

export function PasswordSignIn({ takesFocus, isSecond }: Props) {
  const signIn = useSignIn();
  const form = useRef<HTMLFormElement>(null);
  const secret = useRef<HTMLInputElement>(null);
  const [email, setEmail] = useState('');
  const [password, setPassword] = useState('');
  useEffect(() => {
    if (takesFocus) form.current?.querySelector('input')?.focus();
  }, [takesFocus]);

  const submit = (event: FormEvent) => {
    event.preventDefault();
    signIn.mutate(
      { email: email.trim(), password },
      {
        onError: () => {
          secret.current?.focus();
          secret.current?.select();
        },
      },
    );
  };
  const refused = signIn.isError ? sayRefusedSignIn(signIn.error) : null;
  return (
    <form ref={form} className={formStyles.form} onSubmit={submit}>
      {isSecond && <h2>With e-mail and password</h2>}
      {refused !== null && (
        <div className={formStyles.wrong} role="alert">
          <p>
            <strong>{refused.title}</strong>
          </p>
          <p>{refused.next}</p>
        </div>
      )}
      {signIn.isError && refused === null && <ProblemNote error={signIn.error} />}
      <TextField
        label="E-mail"
        type="email"
        name="username"
        autoComplete="username"
        autoCapitalize="none"
        spellCheck={false}
        inputMode="email"
        maxLength={254}
        required
        value={email}
        onChange={setEmail}
      />
      <PasswordField
        label="Password"
        autoComplete="current-password"
        input={secret}
        value={password}
        onChange={setPassword}
      />
      <div className={formStyles.buttons}>
        <Button type="submit" kind={isSecond ? 'plain' : 'main'} disabled={signIn.isPending}>
          Sign in
        </Button>
      </div>
      <p className={styles.hint}>
        Password forgotten? An admin gives you a one-time address with which you set a new one.
      </p>
    </form>
  );
}
