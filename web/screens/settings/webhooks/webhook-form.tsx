import { type FormEvent, useEffect, useRef, useState } from 'react';
import { type NewWebhook, toldGrades } from '#server/contract/webhooks.ts';
import { useMakeWebhook } from '#web/api/use-webhooks.ts';
import settingsStyles from '#web/screens/settings/settings.module.css';
import { Button } from '#web/ui/button.tsx';
import { findFieldError } from '#web/ui/find-field-error.ts';
import styles from '#web/ui/form.module.css';
import { ProblemNote } from '#web/ui/problem-note.tsx';
import { type WebhookDraft, WebhookFields, webhookFieldNames } from './webhook-fields.tsx';

interface Props {
  onMade: (made: NewWebhook) => void;
  onLeave: () => void;
}

export function WebhookForm({ onMade, onLeave }: Props) {
  const make = useMakeWebhook();
  const form = useRef<HTMLFormElement>(null);
  const [draft, setDraft] = useState<WebhookDraft>({ name: '', url: '', grades: [...toldGrades] });
  useEffect(() => form.current?.querySelector('input')?.focus(), []);
  const submit = (event: FormEvent) => {
    event.preventDefault();
    make.mutate(draft, { onSuccess: onMade });
  };
  const isTold = webhookFieldNames.some((field) => findFieldError(make.error, field) !== undefined);
  return (
    <form ref={form} className={settingsStyles.sheet} onSubmit={submit} aria-labelledby="webhook-title">
      <h2 id="webhook-title">New webhook</h2>
      {make.isError && !isTold && <ProblemNote error={make.error} />}
      <WebhookFields
        value={draft}
        error={make.error}
        onChange={(patch) => setDraft((before) => ({ ...before, ...patch }))}
      />
      <div className={styles.buttons}>
        <Button type="submit" kind="main" disabled={make.isPending}>
          Make the webhook
        </Button>
        <Button kind="quiet" onClick={onLeave}>
          Leave it
        </Button>
      </div>
    </form>
  );
}
