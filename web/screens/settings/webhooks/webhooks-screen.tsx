import { getRouteApi } from '@tanstack/react-router';
import { useEffect, useState } from 'react';
import type { NewWebhook, Webhook } from '#server/contract/webhooks.ts';
import { useEndWebhook, useWebhooks } from '#web/api/use-webhooks.ts';
import styles from '#web/screens/settings/settings.module.css';
import { AskDialog } from '#web/ui/ask-dialog.tsx';
import { Button } from '#web/ui/button.tsx';
import { ProblemNote } from '#web/ui/problem-note.tsx';
import { NewWebhookNote } from './new-webhook-note.tsx';
import { WebhookForm } from './webhook-form.tsx';
import { parseWebhooksSearch } from './webhooks-search.ts';
import { WebhooksTable } from './webhooks-table.tsx';

const route = getRouteApi('/settings/webhooks');

/** Programs that are told when a grade worsens. */
export function WebhooksScreen() {
  const { open, page = 1 } = parseWebhooksSearch({ ...route.useSearch() });
  const navigate = route.useNavigate();
  const { data, isPending, isError, error, refetch } = useWebhooks();
  const end = useEndWebhook();
  const [isMaking, setMaking] = useState(false);
  const [made, setMade] = useState<NewWebhook | null>(null);
  const [asked, setAsked] = useState<Webhook | null>(null);
  useEffect(() => {
    document.title = 'Webhooks · Slipdrift';
  }, []);
  const toggle = (id: string) =>
    void navigate({
      to: '/settings/webhooks',
      search: open === id ? {} : { open: id },
      resetScroll: false,
    });
  return (
    <div className={styles.screen}>
      <header className={styles.head}>
        <div className={styles.words}>
          <h1>Webhooks</h1>
          <p>
            A program of yours is told when a vehicle worsens to watch, book or hold: one signed event for
            each change, sent again until it is confirmed.
          </p>
        </div>
        {!isMaking && (
          <Button
            kind="main"
            onClick={() => {
              setMade(null);
              setMaking(true);
            }}
          >
            New webhook
          </Button>
        )}
      </header>
      {isMaking && (
        <WebhookForm
          onMade={(next) => {
            setMade(next);
            setMaking(false);
          }}
          onLeave={() => setMaking(false)}
        />
      )}
      {made !== null && <NewWebhookNote made={made} onDone={() => setMade(null)} />}
      {end.isError && <ProblemNote error={end.error} />}
      {isError && data === undefined && <ProblemNote error={error} onRetry={() => void refetch()} />}
      {isPending && <p role="status">Loading the webhooks</p>}
      {data?.length === 0 && (
        <p className={styles.none}>No webhook yet. Nobody is told but those who look.</p>
      )}
      {data !== undefined && data.length > 0 && (
        <WebhooksTable webhooks={data} open={open} page={page} onToggle={toggle} onEnd={setAsked} />
      )}
      {asked !== null && (
        <AskDialog
          title={`End the webhook ${asked.name}?`}
          yes="End the webhook"
          onNo={() => setAsked(null)}
          onYes={() => {
            setAsked(null);
            end.mutate(asked.id);
          }}
        >
          <p>
            Nothing more is sent to it, also nothing that waits, and it cannot be brought back. Its log stays.
          </p>
        </AskDialog>
      )}
    </div>
  );
}
