import type { StoredMapping } from '#server/contract/mappings.ts';
import { Button } from '#web/ui/button.tsx';
import { SelectField } from '#web/ui/select-field.tsx';
import styles from './bring.module.css';
import type { Reading } from './use-reading.ts';

/** By which of the stored mappings files are read, or as proposed. */
export function ReadingChoice({ reading, stored }: { reading: Reading; stored: readonly StoredMapping[] }) {
  const { base, mapping, by } = reading;
  if (stored.length === 0 && by !== 'draft' && mapping === null) return null;
  const names = stored.map(({ name }) => name);
  return (
    <div className={styles.choice}>
      <SelectField
        label="Read as"
        hint={say(by, base, mapping !== null)}
        value={base ?? ''}
        options={[
          { value: '', label: 'proposed for this file' },
          ...[...new Set([...names, ...(base === null ? [] : [base])])].map((name) => ({
            value: name,
            label: name,
          })),
        ]}
        onChange={(name) => (name === '' ? reading.startAnew() : reading.takeStored(name, 'choice'))}
      />
      {mapping !== null && (
        <Button
          kind="quiet"
          onClick={() => (base === null ? reading.startAnew() : reading.takeStored(base, 'choice'))}
        >
          {base === null ? 'Back to what was proposed' : `Back to '${base}' as it is kept`}
        </Button>
      )}
    </div>
  );
}

function say(by: Reading['by'], base: string | null, isChanged: boolean): string {
  if (by === 'draft') return 'As you had begun it on this device.';
  if (isChanged) return 'With changes that are not kept yet, except on this device.';
  if (by === 'fit' && base !== null) return `All that '${base}' takes is in this file.`;
  return base === null ? 'Look through it: a proposal can be wrong.' : 'As it is kept.';
}
