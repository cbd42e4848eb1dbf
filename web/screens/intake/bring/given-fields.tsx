import type { FieldError } from '#server/contract/problems.ts';
import { TextField } from '#web/ui/text-field.tsx';
import styles from './bring.module.css';
import type { BroughtFile } from './brought-files.ts';
import type { Needs } from './list-needs.ts';

interface Props {
  files: readonly BroughtFile[];
  needs: Needs;
  /** the file that is looked at, whose lacks are known */
  shown: number;
  lacks: readonly FieldError[];
  vehicleHint: string | undefined;
  onFile: (id: number, patch: Partial<Pick<BroughtFile, 'vehicle' | 'date' | 'start'>>) => void;
}

/** What only whoever brings a file can say of it, for each file, and only where it is needed. */
export function GivenFields({ files, needs, shown, lacks, vehicleHint, onFile }: Props) {
  if (!needs.vehicle && !needs.date && !needs.start) return null;
  const errorOf = (id: number, field: string, value: string) =>
    id === shown && value !== ''
      ? lacks.find((lack) => lack.field === field || lack.field === `given.${field}`)?.message
      : undefined;
  return (
    <div className={styles.given}>
      {files.map(({ id, file, vehicle, date, start }) => (
        <fieldset key={id} className={styles.fields}>
          <legend className={files.length === 1 ? 'only-spoken' : styles.fileName}>{file.name}</legend>
          {needs.vehicle && (
            <TextField
              label="Vehicle"
              hint={vehicleHint}
              error={errorOf(id, 'vehicle', vehicle)}
              maxLength={64}
              autoComplete="off"
              spellCheck={false}
              value={vehicle}
              onChange={(text) => onFile(id, { vehicle: text })}
            />
          )}
          {needs.date && (
            <TextField
              label="Day of the first row"
              type="date"
              error={errorOf(id, 'date', date)}
              value={date}
              onChange={(text) => onFile(id, { date: text })}
            />
          )}
          {needs.start && (
            <TextField
              label="Its clock stood at 0 at, UTC"
              type="datetime-local"
              step={1}
              error={errorOf(id, 'start', start)}
              value={start}
              onChange={(text) => onFile(id, { start: text })}
            />
          )}
        </fieldset>
      ))}
    </div>
  );
}
