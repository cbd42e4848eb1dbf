import { Link } from '@tanstack/react-router';
import { type FormEvent, useRef, useState } from 'react';
import { useDeleteSavedFilter, useSavedFilters, useSaveFilter } from '#web/api/use-saved-filters.ts';
import { Button } from '#web/ui/button.tsx';
import { findFieldError } from '#web/ui/find-field-error.ts';
import { ProblemNote } from '#web/ui/problem-note.tsx';
import { TextField } from '#web/ui/text-field.tsx';
import { useCloseOutside } from '#web/ui/use-close-outside.ts';
import type { ListSearch } from './list-search.ts';
import { keepChoice, readSaved, sameFilter, writeFilter } from './saved-filter-text.ts';
import styles from './saved-filters.module.css';

/** The person's filters: choose one, keep the present one under a name, give it another name, delete it. */
export function SavedFilters({ search }: { search: ListSearch }) {
  const menu = useRef<HTMLDetailsElement>(null);
  useCloseOutside(menu);
  const saved = useSavedFilters();
  const remove = useDeleteSavedFilter();
  const [said, say] = useState('');
  const filters = saved.data ?? [];
  const current = filters.find((one) => sameFilter(readSaved(one.search), search)) ?? null;
  return (
    <details className={styles.menu} ref={menu}>
      <summary className={styles.summary}>
        {current === null ? 'Saved filters' : `Saved filter: ${current.name}`}
      </summary>
      <div className={styles.panel}>
        {saved.isError && <ProblemNote error={saved.error} onRetry={() => void saved.refetch()} />}
        {filters.length > 0 && (
          <ul className={styles.list} aria-label="Saved filters">
            {filters.map((one) => (
              <li key={one.id}>
                <Link
                  to="/"
                  search={(before) => keepChoice(before, readSaved(one.search))}
                  resetScroll={false}
                  aria-current={one.id === current?.id ? 'true' : undefined}
                  onClick={() => menu.current?.removeAttribute('open')}
                >
                  {one.name}
                </Link>
                <Button
                  kind="quiet"
                  aria-label={`Delete the filter ${one.name}`}
                  disabled={remove.isPending}
                  onClick={() => remove.mutate(one.id, { onSuccess: () => say(`${one.name} was deleted.`) })}
                >
                  Delete
                </Button>
              </li>
            ))}
          </ul>
        )}
        {remove.isError && <ProblemNote error={remove.error} />}
        <SaveForm key={current?.id ?? 'new'} search={search} current={current} say={say} />
        <p className={styles.said} role="status">
          {said}
        </p>
      </div>
    </details>
  );
}

interface FormProps {
  search: ListSearch;
  current: { id: number; name: string } | null;
  say: (words: string) => void;
}

function SaveForm({ search, current, say }: FormProps) {
  const save = useSaveFilter();
  const [name, setName] = useState(current?.name ?? '');
  const text = writeFilter(search);
  const submit = (event: FormEvent) => {
    event.preventDefault();
    save.mutate(
      { name: name.trim(), search: text, instead: current?.id ?? null },
      { onSuccess: (one) => say(`Saved as ${one.name}.`) },
    );
  };
  if (text === '')
    return <p className={styles.hint}>Narrow or order the list, and it can be saved here under a name.</p>;
  const problem = findFieldError(save.error, 'name');
  return (
    <form className={styles.form} onSubmit={submit} noValidate>
      <TextField
        label={current === null ? 'Save this filter as' : 'Name of this filter'}
        value={name}
        maxLength={60}
        autoComplete="off"
        onChange={setName}
        error={problem}
      />
      <Button type="submit" disabled={save.isPending || name.trim() === '' || name.trim() === current?.name}>
        {current === null ? 'Save this filter' : 'Rename'}
      </Button>
      {save.isError && problem === undefined && <ProblemNote error={save.error} />}
    </form>
  );
}
