import type { AccessKey } from '#server/contract/keys.ts';
import { formatDate, formatMoment } from '#web/format/format-date.ts';
import { formatWhole } from '#web/format/format-number.ts';
import styles from '#web/screens/settings/settings.module.css';
import { Button } from '#web/ui/button.tsx';
import { rightWords, sayExpiry, sayKeyState } from './key-words.ts';

interface Props {
  keys: readonly AccessKey[];
  onRevoke: (key: AccessKey) => void;
}

export function KeysTable({ keys, onRevoke }: Props) {
  return (
    <table className={styles.table}>
      <caption className="only-spoken">Keys</caption>
      <thead>
        <tr>
          <th scope="col">Name</th>
          <th scope="col">Right</th>
          <th scope="col">State</th>
          <th scope="col">Last use</th>
          <th scope="col">Works until</th>
          <th scope="col">At most</th>
          <th scope="col" className={styles.last}>
            <span className="only-spoken">Revoke</span>
          </th>
        </tr>
      </thead>
      <tbody>
        {keys.map((key) => (
          <tr key={key.id} data-off={key.state !== 'active'}>
            <td>
              {key.name}
              <small>
                begins {key.begins}; made {formatDate(key.created_at)} by {key.created_by}
              </small>
            </td>
            <td data-name="Right">
              <span>
                {key.right}
                <small>{rightWords[key.right]}</small>
              </span>
            </td>
            <td data-name="State">{sayKeyState(key)}</td>
            <td data-name="Last use">
              <span>
                {key.used_at === null ? 'never' : formatMoment(key.used_at)}
                {key.used_from !== null && <small>from {key.used_from}</small>}
              </span>
            </td>
            <td data-name="Works until">{sayExpiry(key)}</td>
            <td data-name="At most">
              <span>
                {formatWhole(key.requests_per_minute)} calls a minute
                {key.max_body_mib !== null && <small>{formatWhole(key.max_body_mib)} MiB a delivery</small>}
              </span>
            </td>
            <td className={styles.last}>
              {key.state === 'active' && (
                <Button
                  kind="quiet"
                  onClick={() => onRevoke(key)}
                  aria-label={`Revoke the key of ${key.name}`}
                >
                  Revoke
                </Button>
              )}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
