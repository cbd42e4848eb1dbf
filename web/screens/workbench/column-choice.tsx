import type { WorkbenchChoice } from '#server/contract/workbench.ts';
import type { WorkbenchKind, WorkbenchPart } from '#server/contract/workbench-words.ts';
import { ChoiceGroup } from '#web/ui/choice-group.tsx';
import { SelectField } from '#web/ui/select-field.tsx';
import type { Preview } from './reading/messages.ts';
import styles from './workbench.module.css';
import { confidences, joinNames, type WorkbenchSearch } from './workbench-search.ts';

interface PartWords {
  part: WorkbenchPart;
  label: string;
  /** what it means that no column is chosen; null where one is needed */
  without: string | null;
}

const parts: Record<WorkbenchKind, readonly PartWords[]> = {
  series: [
    { part: 'x', label: 'x: where', without: 'number of the row' },
    { part: 'y', label: 'y: the values', without: null },
  ],
  lives: [
    { part: 'exit', label: 'Exit: last seen or failed at', without: null },
    { part: 'event', label: 'Event: did it fail?', without: 'all failed' },
    { part: 'entry', label: 'Entry: first seen at', without: 'all from 0' },
    { part: 'mode', label: 'Mode: what failed', without: 'not known' },
    { part: 'group', label: 'Group', without: 'one group' },
    { part: 'count', label: 'Count of like lives', without: 'one a row' },
  ],
};
const mostCovariates = 10;

interface Props {
  preview: Preview;
  choice: WorkbenchChoice;
  confidence: number;
  onChange: (patch: Partial<WorkbenchSearch>) => void;
}

/** Says what each column stands for; every choice goes into the address. */
export function ColumnChoice({ preview, choice, confidence, onChange }: Props) {
  const taken = new Set(Object.values(choice.columns));
  const free = preview.columns.filter(
    (name) => !taken.has(name) && (preview.figureColumns.includes(name) || choice.covariates.includes(name)),
  );
  return (
    <div className={styles.choice}>
      <div className={styles.options}>
        <ChoiceGroup
          legend="Table of"
          name="kind"
          options={[
            { value: 'series', label: 'a series' },
            { value: 'lives', label: 'lives' },
          ]}
          value={choice.kind}
          onChoose={(kind) => onChange({ kind })}
        />
        <ChoiceGroup
          legend="First line"
          name="header"
          options={[
            { value: 'yes', label: 'names' },
            { value: 'no', label: 'a row' },
          ]}
          value={preview.hasHeader ? 'yes' : 'no'}
          onChoose={(header) => onChange({ header })}
        />
        <ChoiceGroup
          legend="Decimals after"
          name="decimal"
          options={[
            { value: 'point', label: 'a point' },
            { value: 'comma', label: 'a comma' },
          ]}
          value={preview.decimal}
          onChoose={(decimal) => onChange({ decimal })}
        />
      </div>
      <div className={styles.fields}>
        {parts[choice.kind].map(({ part, label, without }) => (
          <SelectField
            key={part}
            label={label}
            value={choice.columns[part] ?? ''}
            options={[
              ...(without === null && choice.columns[part] !== undefined
                ? []
                : [{ value: '', label: without ?? 'choose a column' }]),
              ...preview.columns.map((name) => ({ value: name, label: name })),
            ]}
            onChange={(name) => onChange({ [part]: name })}
          />
        ))}
        <SelectField
          label="Bounds hold"
          value={String(confidence)}
          options={confidences.map((one) => ({ value: String(one), label: `${Math.round(one * 100)} %` }))}
          onChange={(value) => onChange({ confidence: Number(value) })}
        />
      </div>
      {choice.kind === 'lives' && free.length > 0 && (
        <fieldset className={styles.covariates}>
          <legend>Exposures for the Cox regression</legend>
          {free.map((name) => {
            const isOn = choice.covariates.includes(name);
            return (
              <label key={name}>
                <input
                  type="checkbox"
                  checked={isOn}
                  disabled={!isOn && choice.covariates.length >= mostCovariates}
                  onChange={() =>
                    onChange({
                      covariates: joinNames(
                        isOn ? choice.covariates.filter((one) => one !== name) : [...choice.covariates, name],
                      ),
                    })
                  }
                />{' '}
                {name}
              </label>
            );
          })}
        </fieldset>
      )}
    </div>
  );
}
