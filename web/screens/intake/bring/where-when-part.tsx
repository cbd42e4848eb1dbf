import type { Look } from '#server/contract/looks.ts';
import type { Mapping } from '#server/contract/mappings.ts';
import { SelectField } from '#web/ui/select-field.tsx';
import styles from './bring.module.css';
import type { GivenToAll } from './brought-files.ts';
import { setDay, setTime, setVehicle } from './change-mapping.ts';
import { doubtsAt, lacksAt } from './place-lack.ts';
import { sayDayOrder, sayTimeForm } from './say-time.ts';
import { Remarks } from './step.tsx';
import { ZoneChoice } from './zone-choice.tsx';

interface Props {
  look: Look;
  mapping: Mapping;
  all: GivenToAll;
  onChange: (mapping: Mapping) => void;
  onAll: (all: GivenToAll) => void;
}

const forms = ['text', 'unix_s', 'unix_ms', 'sheet_days', 'seconds'] as const;
const orders = ['ymd', 'dmy', 'mdy'] as const;

/** Where the vehicle and the moment of a row come from. */
export function WhereWhenPart({ look, mapping, all, onChange, onAll }: Props) {
  const { time } = mapping;
  const takes = new Set(mapping.columns.map((one) => one.takes));
  const isWritten = time.form === 'text';
  const hasDays = isWritten || time.form === 'sheet_days';
  const hasClockAlone = takes.has('clock') && !takes.has('date');
  return (
    <>
      <div className={styles.fields}>
        <SelectField
          label="The vehicle is named"
          value={mapping.vehicle}
          options={[
            { value: 'column', label: 'in a column' },
            { value: 'file_name', label: "in the file's name" },
            { value: 'given', label: 'here, for each file' },
          ]}
          onChange={(value) => onChange(setVehicle(mapping, value as Mapping['vehicle']))}
        />
        <SelectField
          label="Times are written as"
          value={time.form}
          options={forms.map((value) => ({ value, label: sayTimeForm(value) }))}
          onChange={(value) => onChange(setTime(mapping, { form: value as Mapping['time']['form'] }))}
        />
        {hasDays && (hasClockAlone || time.date !== 'column') && (
          <SelectField
            label="The day is"
            hint="a clock that falls back begins the next day"
            value={time.date}
            options={[
              { value: 'column', label: 'in a column' },
              { value: 'file_name', label: "in the file's name" },
              { value: 'given', label: 'said here, for each file' },
            ]}
            onChange={(value) => onChange(setDay(mapping, value as Mapping['time']['date']))}
          />
        )}
        {isWritten && time.date === 'column' && (
          <SelectField
            label="Figures of a day stand for"
            value={time.order}
            options={orders.map((value) => ({ value, label: sayDayOrder(value) }))}
            onChange={(value) => onChange(setTime(mapping, { order: value as Mapping['time']['order'] }))}
          />
        )}
        {hasDays && (
          <ZoneChoice
            kept={time.zone}
            given={all.zone}
            onChange={(kept, given) => {
              if (kept !== time.zone) onChange(setTime(mapping, { zone: kept }));
              if (given !== all.zone) onAll({ ...all, zone: given });
            }}
          />
        )}
      </div>
      <Remarks
        doubts={[...doubtsAt(look, 'vehicle'), ...doubtsAt(look, 'time')]}
        lacks={[...lacksAt(look, 'vehicle'), ...lacksAt(look, 'time')]}
      />
    </>
  );
}
