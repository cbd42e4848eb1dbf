import { getRouteApi, Link } from '@tanstack/react-router';
import { useEffect } from 'react';
import { changesFileAddress, changesPageSize, useChanges } from '#web/api/use-changes.ts';
import { formatWhole } from '#web/format/format-number.ts';
import settingsStyles from '#web/screens/settings/settings.module.css';
import { Button } from '#web/ui/button.tsx';
import { ProblemNote } from '#web/ui/problem-note.tsx';
import { ChangeLine } from './change-line.tsx';
import { ChangesFilters } from './changes-filters.tsx';
import styles from './changes-screen.module.css';
import {
  type ChangesPatch,
  type ChangesSearch,
  parseChangesSearch,
  patchChangesSearch,
  readFilter,
} from './changes-search.ts';
import { useFieldNames } from './use-field-names.ts';
import { useSubjectNames } from './use-subject-names.ts';

const route = getRouteApi('/settings/changes');

/** Who changed what, when, from where; nothing is ever taken out. */
export function ChangesScreen() {
  const search = parseChangesSearch({ ...route.useSearch() });
  const navigate = route.useNavigate();
  const names = useSubjectNames();
  const nameOf = useFieldNames();
  const filter = readFilter(search);
  const { data, isPending, isError, error, refetch, isPlaceholderData } = useChanges(
    filter,
    search.before_id,
  );
  useEffect(() => {
    document.title = 'Changes · Slipdrift';
  }, []);
  const change = (patch: ChangesPatch) =>
    void navigate({
      to: '/settings/changes',
      search: (before: ChangesSearch) => patchChangesSearch(before, patch),
      resetScroll: false,
    });
  const showAll = () => void navigate({ to: '/settings/changes', search: {} });
  const rows = data?.rows ?? [];
  const last = rows.at(-1);
  const isFiltered = Object.values({ ...search, before_id: undefined }).some((one) => one !== undefined);
  return (
    <div className={settingsStyles.screen}>
      <header className={settingsStyles.head}>
        <div className={settingsStyles.words}>
          <h1>Changes</h1>
          <p>Who changed what, when and from where, newest first. Nothing is ever taken out.</p>
        </div>
        <a href={changesFileAddress(filter)} download="changes.csv" className={styles.file}>
          Download CSV
        </a>
      </header>
      <div>
        <ChangesFilters
          search={search}
          names={names}
          total={data?.total ?? null}
          onChange={change}
          onClear={showAll}
        />
        {isError && data === undefined && <ProblemNote error={error} onRetry={() => void refetch()} />}
        {isPending && <p role="status">Loading the changes</p>}
        {data !== undefined && rows.length === 0 && (
          <div className={settingsStyles.none}>
            <p>{isFiltered ? 'No change matches.' : 'Nothing was changed yet.'}</p>
            {isFiltered && <Button onClick={showAll}>Show all changes</Button>}
          </div>
        )}
        {rows.length > 0 && (
          <ol className={styles.list} data-waiting={isPlaceholderData} aria-label="Changes">
            {rows.map((one) => (
              <ChangeLine key={one.id} change={one} names={names} nameOf={nameOf} />
            ))}
          </ol>
        )}
        <nav className={styles.pages} aria-label="Pages">
          {search.before_id !== undefined && (
            <Link to="/settings/changes" search={patchChangesSearch(search, {})}>
              Newest changes
            </Link>
          )}
          {last !== undefined && rows.length === changesPageSize && (
            <Link to="/settings/changes" search={patchChangesSearch(search, { before_id: last.id })}>
              Older changes
            </Link>
          )}
          {data !== undefined && rows.length > 0 && (
            <span className={settingsStyles.small}>
              {formatWhole(rows.length)} of {formatWhole(data.total)} shown
            </span>
          )}
        </nav>
      </div>
    </div>
  );
}
