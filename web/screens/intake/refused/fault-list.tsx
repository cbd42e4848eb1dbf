import { Link } from '@tanstack/react-router';
import type { FaultGroup } from '#server/contract/intake.ts';
import { formatMoment } from '#web/format/format-date.ts';
import { formatWhole } from '#web/format/format-number.ts';
import styles from '#web/screens/intake/intake.module.css';
import { saySender } from '#web/screens/intake/say-sender.ts';
import { patchRefusedSearch, type RefusedSearch } from './refused-search.ts';

interface Props {
  groups: readonly FaultGroup[];
  search: RefusedSearch;
}

/** What is wrong with lines, and with how many. */
export function FaultList({ groups, search }: Props) {
  return (
    <ul className={styles.faults} aria-label="Faults">
      {groups.map((group) => (
        <li key={group.fault}>
          <Link
            to="/intake/refused"
            search={patchRefusedSearch(search, { fault: group.fault })}
            className={styles.fault}
            data-chosen={group.fault === search.fault}
            resetScroll={false}
          >
            <strong>{group.fault}</strong>
            <span>{formatWhole(group.lines)}</span>
            <small>
              {sayWho(group)}, {saySpanOf(group)}
            </small>
          </Link>
        </li>
      ))}
    </ul>
  );
}

function sayWho({ senders, receipts }: FaultGroup): string {
  const [first, second] = senders;
  const names =
    senders.length > 2
      ? `${formatWhole(senders.length)} senders`
      : [first, second].flatMap((one) => (one === undefined ? [] : [saySender(one)])).join(' and ');
  return `from ${names === '' ? 'nobody known' : names} in ${receipts === 1 ? 'one delivery' : `${formatWhole(receipts)} deliveries`}`;
}

const saySpanOf = ({ first_at: first, newest_at: newest }: FaultGroup): string =>
  formatMoment(first) === formatMoment(newest)
    ? formatMoment(newest)
    : `${formatMoment(first)} to ${formatMoment(newest)}`;
