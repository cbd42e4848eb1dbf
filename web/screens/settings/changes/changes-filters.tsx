import { changeActions, changeSubjects } from '#server/contract/words.ts';
import { formatWhole } from '#web/format/format-number.ts';
import { RestedField } from '#web/screens/settings/rested-field.tsx';
import settingsStyles from '#web/screens/settings/settings.module.css';
import { Button } from '#web/ui/button.tsx';
import { SelectField } from '#web/ui/select-field.tsx';
import { TextField } from '#web/ui/text-field.tsx';
import { actionWords, subjectWords } from './change-words.ts';
import styles from './changes-screen.module.css';
import { type ChangesPatch, type ChangesSearch, parseChangesSearch } from './changes-search.ts';

interface Props {
  search: ChangesSearch;
  names: ReadonlyMap<string, string>;
  total: number | null;
  onChange: (patch: ChangesPatch) => void;
  onClear: () => void;
}

/** A choice that is empty is left out of the address. */
const take = <K extends keyof ChangesSearch>(key: K, value: string): ChangesPatch => ({
  [key]: parseChangesSearch({ [key]: value })[key],
});

export function ChangesFilters({ search, names, total, onChange, onClear }: Props) {
  const isNarrowed = Object.values({ ...search, before_id: undefined }).some((one) => one !== undefined);
  return (
    <search className={settingsStyles.tools} aria-label="Narrow the changes">
      <SelectField
        label="About"
        value={search.subject ?? ''}
        options={[
          { value: '', label: 'everything' },
          ...changeSubjects.map((value) => ({ value, label: subjectWords[value] })),
        ]}
        onChange={(value) => onChange({ ...take('subject', value), subject_id: undefined })}
      />
      <SelectField
        label="What"
        value={search.action ?? ''}
        options={[
          { value: '', label: 'any change' },
          ...changeActions.map((value) => ({ value, label: actionWords[value] })),
        ]}
        onChange={(value) => onChange(take('action', value))}
      />
      <RestedField
        label="Who"
        placeholder="part of the name"
        value={search.actor ?? ''}
        onChange={(actor) => onChange(take('actor', actor))}
      />
      <TextField
        label="Since"
        type="date"
        value={search.since ?? ''}
        onChange={(day) => onChange(take('since', day))}
      />
      <TextField
        label="Until"
        type="date"
        value={search.until ?? ''}
        onChange={(day) => onChange(take('until', day))}
      />
      {search.subject_id !== undefined && (
        <p className={styles.only}>
          Only about <span>{names.get(search.subject_id) ?? search.subject_id}</span>
        </p>
      )}
      {isNarrowed && (
        <Button kind="quiet" onClick={onClear}>
          Show all
        </Button>
      )}
      <p className={settingsStyles.small} role="status">
        {total === null ? '' : `${formatWhole(total)} ${total === 1 ? 'change' : 'changes'}`}
      </p>
    </search>
  );
}
