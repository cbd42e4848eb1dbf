import { Fragment } from 'react';
import type { Webhook } from '#server/contract/webhooks.ts';
import { formatDate, formatMoment } from '#web/format/format-date.ts';
import styles from '#web/screens/settings/settings.module.css';
import { sayCounts, sayLast, sayWebhookState } from './say-webhook.ts';
import { WebhookPanel } from './webhook-panel.tsx';

interface Props {
  webhooks: readonly Webhook[];
  open: string | undefined;
  page: number;
  onToggle: (id: string) => void;
  onEnd: (webhook: Webhook) => void;
}

export function WebhooksTable({ webhooks, open, page, onToggle, onEnd }: Props) {
  return (
    <table className={styles.table}>
      <caption className="only-spoken">
        Webhooks; a press on a name opens what can be changed, and the log
      </caption>
      <thead>
        <tr>
          <th scope="col">Name</th>
          <th scope="col">Told of</th>
          <th scope="col">State</th>
          <th scope="col">Last try</th>
          <th scope="col" className={styles.last}>
            Events
          </th>
        </tr>
      </thead>
      <tbody>
        {webhooks.map((one) => {
          const id = String(one.id);
          return (
            <Fragment key={one.id}>
              <tr data-off={one.state === 'ended'}>
                <td>
                  <button
                    type="button"
                    className={styles.opener}
                    aria-expanded={open === id}
                    onClick={() => onToggle(id)}
                  >
                    <span className={styles.openerName}>{one.name}</span>
                    <small>{one.url}</small>
                    <small>
                      made {formatDate(one.created_at)} by {one.created_by}
                    </small>
                  </button>
                </td>
                <td data-name="Told of">{one.grades.join(', ')}</td>
                <td data-name="State">{sayWebhookState(one)}</td>
                <td data-name="Last try">
                  <span>
                    {sayLast(one)}
                    {one.last_at !== null && <small>{formatMoment(one.last_at)}</small>}
                  </span>
                </td>
                <td data-name="Events" className={styles.last}>
                  {sayCounts(one)}
                </td>
              </tr>
              {open === id && (
                <tr data-kind="opened">
                  <td colSpan={5} className={styles.opened}>
                    <WebhookPanel key={one.id} webhook={one} page={page} onEnd={() => onEnd(one)} />
                  </td>
                </tr>
              )}
            </Fragment>
          );
        })}
      </tbody>
    </table>
  );
}
