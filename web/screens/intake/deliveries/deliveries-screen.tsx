import { getRouteApi, Link } from '@tanstack/react-router';
import { useEffect } from 'react';
import { receiptsPageSize, useReceipts } from '#web/api/use-intake.ts';
import styles from '#web/screens/intake/intake.module.css';
import { saySender } from '#web/screens/intake/say-sender.ts';
import { RestedField } from '#web/screens/settings/rested-field.tsx';
import settingsStyles from '#web/screens/settings/settings.module.css';
import { ChoiceLine } from '#web/ui/choice-lines.tsx';
import { ProblemNote } from '#web/ui/problem-note.tsx';
import { SelectField } from '#web/ui/select-field.tsx';
import {
  type DeliveriesPatch,
  type DeliveriesSearch,
  parseDeliveriesSearch,
  patchDeliveriesSearch,
} from './deliveries-search.ts';
import { DeliveriesTable } from './deliveries-table.tsx';
import { ThroughputFigure } from './throughput-figure.tsx';

const route = getRouteApi('/intake/deliveries');

/** Everything that came in, and what became of it. */
export function DeliveriesScreen() {
  const search = parseDeliveriesSearch({ ...route.useSearch() });
  const navigate = route.useNavigate();
  const offset = search.offset ?? 0;
  const { data, isPending, isError, error, refetch, isPlaceholderData } = useReceipts(
    {
      sender: search.sender,
      q: search.q,
      with_refused: search.refused ? 'true' : undefined,
      incomplete: search.incomplete ? 'true' : undefined,
    },
    offset,
  );
  useEffect(() => {
    document.title = 'Deliveries · Slipdrift';
  }, []);
  const change = (patch: DeliveriesPatch) =>
    void navigate({
      to: '/intake/deliveries',
      search: (before: DeliveriesSearch) => patchDeliveriesSearch(before, patch),
      resetScroll: false,
    });
  const rows = data?.rows ?? [];
  const isFiltered = [search.sender, search.q, search.refused, search.incomplete].some(
    (one) => one !== undefined,
  );
  return (
    <div className={settingsStyles.screen}>
      <header className={settingsStyles.head}>
        <div className={settingsStyles.words}>
          <h1>Deliveries</h1>
          <p>What came in, from whom, and what became of it. Open one to see how it was read.</p>
        </div>
      </header>
      <ThroughputFigure
        span={search.span ?? 'hours'}
        onSpan={(span) => change({ span: span === 'days' ? 'days' : undefined })}
      />
      <section className={settingsStyles.stack} aria-label="List of deliveries">
        <search className={settingsStyles.tools} aria-label="Narrow the deliveries">
          <SelectField
            label="From"
            value={search.sender ?? ''}
            options={[
              { value: '', label: 'anybody' },
              ...(data?.senders ?? []).map((sender) => ({ value: sender.id, label: saySender(sender) })),
            ]}
            onChange={(sender) => change({ sender: sender === '' ? undefined : sender })}
          />
          <RestedField
            label="File or topic"
            placeholder="part of its name"
            value={search.q ?? ''}
            onChange={(q) => change({ q: q === '' ? undefined : q })}
          />
          <ChoiceLine
            type="checkbox"
            label="with refused lines"
            checked={search.refused === true}
            onChange={() => change({ refused: search.refused ? undefined : true })}
          />
          <ChoiceLine
            type="checkbox"
            label="not whole"
            checked={search.incomplete === true}
            onChange={() => change({ incomplete: search.incomplete ? undefined : true })}
          />
        </search>
        {isError && data === undefined && <ProblemNote error={error} onRetry={() => void refetch()} />}
        {isPending && <p role="status">Loading the deliveries</p>}
        {data !== undefined && rows.length === 0 && (
          <p className={settingsStyles.none}>
            {isFiltered
              ? 'No delivery matches.'
              : 'Nothing has come in yet. Each delivery of a gateway or a file stands here, the newest first.'}
          </p>
        )}
        {rows.length > 0 && (
          <DeliveriesTable
            rows={rows}
            open={search.open}
            isWaiting={isPlaceholderData}
            onOpen={(open) => change({ open })}
          />
        )}
        <nav className={styles.pages} aria-label="Pages">
          {offset > 0 && (
            <Link to="/intake/deliveries" search={patchDeliveriesSearch(search, { offset: undefined })}>
              Newest deliveries
            </Link>
          )}
          {data?.more && (
            <Link
              to="/intake/deliveries"
              search={patchDeliveriesSearch(search, { offset: offset + receiptsPageSize })}
            >
              Older deliveries
            </Link>
          )}
        </nav>
      </section>
    </div>
  );
}
