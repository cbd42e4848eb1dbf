import { getRouteApi, Link } from '@tanstack/react-router';
import { useEffect } from 'react';
import { vehicleLacks } from '#server/contract/words.ts';
import { toCompletePageSize, useToComplete } from '#web/api/use-intake.ts';
import { formatWhole } from '#web/format/format-number.ts';
import styles from '#web/screens/intake/intake.module.css';
import { RestedField } from '#web/screens/settings/rested-field.tsx';
import settingsStyles from '#web/screens/settings/settings.module.css';
import { ProblemNote } from '#web/ui/problem-note.tsx';
import { SelectField } from '#web/ui/select-field.tsx';
import { lackWords } from './lack-words.ts';
import { OdometerPart } from './odometer-part.tsx';
import {
  parseToCompleteSearch,
  patchToCompleteSearch,
  type ToCompletePatch,
  type ToCompleteSearch,
} from './to-complete-search.ts';
import { VehiclesForm } from './vehicles-form.tsx';

const route = getRouteApi('/intake/vehicles');

/** Vehicles known from their readings alone or in part, and odometers that jumped. */
export function ToCompleteScreen() {
  const search = parseToCompleteSearch({ ...route.useSearch() });
  const navigate = route.useNavigate();
  const { lack, q, offset = 0 } = search;
  const { data, isPending, isError, error, refetch } = useToComplete(
    { ...(lack === undefined ? {} : { lack }), ...(q === undefined ? {} : { q }) },
    offset,
  );
  useEffect(() => {
    document.title = 'Vehicles to complete · Slipdrift';
  }, []);
  const change = (patch: ToCompletePatch) =>
    void navigate({
      to: '/intake/vehicles',
      search: (before: ToCompleteSearch) => patchToCompleteSearch(before, patch),
      resetScroll: false,
    });
  const isFiltered = lack !== undefined || q !== undefined;
  return (
    <div className={settingsStyles.screen}>
      <header className={settingsStyles.head}>
        <div className={settingsStyles.words}>
          <h1>Vehicles to complete</h1>
          <p>
            A vehicle is there from its first reading on. Without a platform it has no limit of its own,
            without a depot no bay.
          </p>
        </div>
      </header>
      <section className={settingsStyles.stack} aria-label="Vehicles">
        <search className={settingsStyles.tools} aria-label="Narrow the vehicles">
          <SelectField
            label="What is missing"
            value={lack ?? ''}
            options={[
              { value: '', label: 'anything' },
              ...vehicleLacks.map((value) => ({
                value,
                label: `${lackWords[value]}${data === undefined ? '' : ` (${formatWhole(data.by_lack[value])})`}`,
              })),
            ]}
            onChange={(value) => change({ lack: vehicleLacks.find((one) => one === value) })}
          />
          <RestedField
            label="Vehicle"
            placeholder="part of its number"
            value={q ?? ''}
            onChange={(text) => change({ q: text === '' ? undefined : text })}
          />
          <p className={settingsStyles.small} role="status">
            {data === undefined
              ? ''
              : `${formatWhole(data.total)} ${data.total === 1 ? 'vehicle' : 'vehicles'}`}
          </p>
        </search>
        {isError && data === undefined && <ProblemNote error={error} onRetry={() => void refetch()} />}
        {isPending && <p role="status">Loading the vehicles</p>}
        {data !== undefined && data.rows.length === 0 && (
          <p className={settingsStyles.none}>
            {isFiltered
              ? 'No vehicle matches.'
              : 'Nothing is missing. A vehicle that reports for the first time stands here until somebody says its depot and platform.'}
          </p>
        )}
        {data !== undefined && data.rows.length > 0 && <VehiclesForm rows={data.rows} />}
        {data !== undefined && (offset > 0 || data.total > toCompletePageSize) && (
          <nav className={styles.pages} aria-label="Pages">
            {offset > 0 && (
              <Link to="/intake/vehicles" search={patchToCompleteSearch(search, { offset: undefined })}>
                First vehicles
              </Link>
            )}
            {data !== undefined && data.total > offset + toCompletePageSize && (
              <Link
                to="/intake/vehicles"
                search={patchToCompleteSearch(search, { offset: offset + toCompletePageSize })}
              >
                More vehicles
              </Link>
            )}
          </nav>
        )}
      </section>
      <OdometerPart
        isAnswered={search.answered === true}
        onAnswered={(answered) => change({ answered: answered ? true : undefined })}
      />
    </div>
  );
}
