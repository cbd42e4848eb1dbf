import { type FormEvent, useState } from 'react';
import type { Webhook } from '#server/contract/webhooks.ts';
import { useChangeWebhook, useSendTrial } from '#web/api/use-webhooks.ts';
import settingsStyles from '#web/screens/settings/settings.module.css';
import { Button } from '#web/ui/button.tsx';
import { findFieldError } from '#web/ui/find-field-error.ts';
import styles from '#web/ui/form.module.css';
import { ProblemNote } from '#web/ui/problem-note.tsx';
import { PostsLog } from './posts-log.tsx';
import { type WebhookDraft, WebhookFields, webhookFieldNames } from './webhook-fields.tsx';

interface Props {
  webhook: Webhook;
  page: number;
  onEnd: () => void;
}

/** What an admin can change about a webhook, and what it was told. */
export function WebhookPanel({ webhook, page, onEnd }: Props) {
  return (
    <div className={settingsStyles.sheet}>
      {webhook.state !== 'ended' && <WebhookChangeForm webhook={webhook} onEnd={onEnd} />}
      <PostsLog webhook={webhook} page={page} />
    </div>
  );
}

function WebhookChangeForm({ webhook, onEnd }: Omit<Props, 'page'>) {
  const save = useChangeWebhook(webhook.id);
  const trial = useSendTrial(webhook.id);
  const [draft, setDraft] = useState<WebhookDraft>({
    name: webhook.name,
    url: webhook.url,
    grades: webhook.grades,
  });
  const isPaused = webhook.state === 'paused';
  const isChanged =
    draft.name.trim() !== webhook.name ||
    draft.url.trim() !== webhook.url ||
    draft.grades.join() !== webhook.grades.join();
  const submit = (event: FormEvent) => {
    event.preventDefault();
    save.mutate(draft, {
      onSuccess: ({ name, url, grades }) => setDraft({ name, url, grades }),
    });
  };
  const isTold = webhookFieldNames.some((field) => findFieldError(save.error, field) !== undefined);
  return (
    <form className={settingsStyles.stack} onSubmit={submit} aria-label={webhook.name}>
      {save.isError && !isTold && <ProblemNote error={save.error} />}
      {trial.isError && <ProblemNote error={trial.error} />}
      <WebhookFields
        value={draft}
        error={save.error}
        onChange={(patch) => setDraft((before) => ({ ...before, ...patch }))}
      />
      {webhook.warning !== null && <p className={settingsStyles.warning}>{webhook.warning}</p>}
      <div className={styles.buttons}>
        <Button type="submit" disabled={!isChanged || save.isPending}>
          Save the change
        </Button>
        <Button disabled={trial.isPending} onClick={() => trial.mutate(null)}>
          Send a trial event
        </Button>
        <Button disabled={save.isPending} onClick={() => save.mutate({ paused: !isPaused })}>
          {isPaused ? 'Let it go on' : 'Pause it'}
        </Button>
        <Button kind="quiet" onClick={onEnd}>
          End it
        </Button>
        <span className={settingsStyles.small} role="status">
          {trial.isPending && 'The trial is being sent.'}
          {trial.isSuccess &&
            (trial.data.last_fault === null
              ? 'The trial was confirmed.'
              : `The trial was not confirmed. ${trial.data.last_fault}.`)}
        </span>
      </div>
    </form>
  );
}
