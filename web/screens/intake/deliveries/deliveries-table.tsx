import { Link } from '@tanstack/react-router';
import type { ListedReceipt } from '#server/contract/intake.ts';
import { formatMoment } from '#web/format/format-date.ts';
import { formatWhole } from '#web/format/format-number.ts';
import styles from '#web/screens/intake/intake.module.css';
import { formatWords, saySender } from '#web/screens/intake/say-sender.ts';
import { saySpan } from '#web/screens/intake/say-span.ts';
import settingsStyles from '#web/screens/settings/settings.module.css';
import { OpenedDelivery } from './opened-delivery.tsx';

interface Props {
  rows: readonly ListedReceipt[];
  open: string | undefined;
  isWaiting: boolean;
  onOpen: (receipt: string | undefined) => void;
}

const columns = ['lines', 'stored', 'there already', 'refused', 'took'];

export function DeliveriesTable({ rows, open, isWaiting, onOpen }: Props) {
  return (
    <table className={`${settingsStyles.table} ${styles.table}`} data-waiting={isWaiting}>
      <thead>
        <tr>
          <th scope="col">began</th>
          <th scope="col">from</th>
          <th scope="col">form</th>
          {columns.map((name) => (
            <th key={name} scope="col" className={styles.number}>
              {name}
            </th>
          ))}
        </tr>
      </thead>
      {rows.map((row) => (
        <DeliveryRows
          key={row.receipt}
          row={row}
          isOpen={row.receipt === open}
          onToggle={() => onOpen(row.receipt === open ? undefined : row.receipt)}
        />
      ))}
    </table>
  );
}

function DeliveryRows({
  row,
  isOpen,
  onToggle,
}: {
  row: ListedReceipt;
  isOpen: boolean;
  onToggle: () => void;
}) {
  const figure = (name: string, words: string) => (
    <td data-name={name} className={styles.number}>
      <span>{words}</span>
    </td>
  );
  return (
    <tbody>
      <tr>
        <td>
          <button type="button" className={settingsStyles.opener} aria-expanded={isOpen} onClick={onToggle}>
            <span className={settingsStyles.openerName}>{formatMoment(row.at)}</span>
            {row.state !== 'whole' && (
              <small>{row.state === 'broke_off' ? 'broke off' : 'has not ended'}</small>
            )}
          </button>
        </td>
        <td data-name="from">
          <span>{saySender(row.sender)}</span>
        </td>
        <td data-name="form">
          <span>
            {formatWords[row.format]}
            {row.file !== null && <small>{row.file}</small>}
          </span>
        </td>
        {figure('lines', formatWhole(row.received))}
        {figure('stored', formatWhole(row.stored))}
        {figure('there already', formatWhole(row.duplicate))}
        <td data-name="refused" className={styles.number}>
          <span>
            {row.refused_open > 0 ? (
              <Link to="/intake/refused" search={{ receipt: row.receipt }}>
                {formatWhole(row.refused)}
                <span className="only-spoken"> refused lines of this delivery</span>
              </Link>
            ) : (
              formatWhole(row.refused)
            )}
          </span>
        </td>
        {figure('took', row.seconds === null ? 'not known' : saySpan(row.seconds))}
      </tr>
      {isOpen && (
        <tr data-kind="opened">
          <td className={settingsStyles.opened} colSpan={8}>
            <OpenedDelivery listed={row} />
          </td>
        </tr>
      )}
    </tbody>
  );
}
