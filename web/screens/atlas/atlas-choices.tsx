import { ChoiceGroup } from '#web/ui/choice-group.tsx';
import { SelectField } from '#web/ui/select-field.tsx';
import styles from './atlas.module.css';
import { type AtlasPatch, type AtlasSearch, periods, usualDays } from './atlas-search.ts';

interface Props {
  search: AtlasSearch;
  choices: readonly string[];
  onChange: (patch: AtlasPatch) => void;
}

/** Which period, and which vehicle on top. */
export function AtlasChoices({ search, choices, onChange }: Props) {
  const { vehicle } = search;
  const units = vehicle === undefined || choices.includes(vehicle) ? choices : [vehicle, ...choices];
  return (
    <div className={styles.choices}>
      <ChoiceGroup
        legend="Period"
        name="period"
        options={periods.map(({ days, label }) => ({ value: String(days), label }))}
        value={String(search.days ?? usualDays)}
        onChoose={(days) => onChange({ days: Number(days) })}
      />
      <SelectField
        label="Vehicle on top"
        value={vehicle ?? ''}
        options={[{ value: '', label: 'none' }, ...units.map((unit) => ({ value: unit, label: unit }))]}
        onChange={(unit) => onChange({ vehicle: unit === '' ? undefined : unit })}
      />
    </div>
  );
}
