import { Link } from '@tanstack/react-router';
import type { Webhook, WebhookPost } from '#server/contract/webhooks.ts';
import { postsPageSize, useSendAgain, useWebhookPosts } from '#web/api/use-webhooks.ts';
import { formatMoment } from '#web/format/format-date.ts';
import { formatWhole } from '#web/format/format-number.ts';
import settingsStyles from '#web/screens/settings/settings.module.css';
import { Button } from '#web/ui/button.tsx';
import { ProblemNote } from '#web/ui/problem-note.tsx';
import styles from './posts-log.module.css';
import { sayEvent, sayTries } from './say-webhook.ts';

/** What a webhook was told and how it went, newest first. */
export function PostsLog({ webhook, page }: { webhook: Webhook; page: number }) {
  const { data, isPending, isError, error, refetch } = useWebhookPosts(webhook.id, page);
  const again = useSendAgain(webhook.id);
  const rows = data?.rows ?? [];
  const total = data?.total ?? 0;
  return (
    <section className={settingsStyles.stack} aria-label={`Log of ${webhook.name}`}>
      <h2>Log</h2>
      {again.isError && <ProblemNote error={again.error} />}
      {isError && data === undefined && <ProblemNote error={error} onRetry={() => void refetch()} />}
      {isPending && <p role="status">Loading the log</p>}
      {data !== undefined && rows.length === 0 && (
        <p className={settingsStyles.small}>
          Nothing was sent yet. A trial event shows whether the other side is ready.
        </p>
      )}
      {rows.length > 0 && (
        <table className={settingsStyles.table}>
          <caption className="only-spoken">Events, newest first</caption>
          <thead>
            <tr>
              <th scope="col">Event</th>
              <th scope="col">Vehicle</th>
              <th scope="col">Grade</th>
              <th scope="col">Tries</th>
              <th scope="col">Last answer</th>
              <th scope="col" className={settingsStyles.last}>
                <span className="only-spoken">Try again</span>
              </th>
            </tr>
          </thead>
          <tbody>
            {rows.map((post) => (
              <tr key={post.id}>
                <td className={styles.event}>
                  {formatMoment(post.event.at)}
                  <small className={styles.id}>{post.id}</small>
                </td>
                <td data-name="Vehicle" className={styles.vehicle}>
                  {post.event.type === 'trial' ? (
                    'none'
                  ) : (
                    <Link to="/vehicles/$vehicle" params={{ vehicle: post.event.vehicle }}>
                      {post.event.vehicle}
                    </Link>
                  )}
                </td>
                <td data-name="Grade">{sayEvent(post)}</td>
                <td data-name="Tries">{sayTries(post)}</td>
                <td data-name="Last answer">{sayAnswer(post)}</td>
                <td className={settingsStyles.last}>
                  {post.state !== 'given' && webhook.state !== 'ended' && (
                    <Button
                      kind="quiet"
                      disabled={again.isPending}
                      onClick={() => again.mutate(post.id)}
                      aria-label={`Try again now: ${post.event.vehicle} of ${formatMoment(post.event.at)}`}
                    >
                      Try again now
                    </Button>
                  )}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      {total > postsPageSize && (
        <nav className={styles.pages} aria-label="Pages of the log">
          {page > 1 && (
            <Link
              to="/settings/webhooks"
              search={{ open: String(webhook.id), page: page - 1 }}
              resetScroll={false}
            >
              Newer events
            </Link>
          )}
          {page * postsPageSize < total && (
            <Link
              to="/settings/webhooks"
              search={{ open: String(webhook.id), page: page + 1 }}
              resetScroll={false}
            >
              Older events
            </Link>
          )}
          <span className={settingsStyles.small}>
            {formatWhole((page - 1) * postsPageSize + 1)} to{' '}
            {formatWhole((page - 1) * postsPageSize + rows.length)} of {formatWhole(total)}
          </span>
        </nav>
      )}
    </section>
  );
}

function sayAnswer({ last_at, last_status, last_fault }: WebhookPost): string {
  if (last_fault !== null) return last_fault;
  return last_at === null ? 'none yet' : `It answered ${last_status ?? ''}`;
}
