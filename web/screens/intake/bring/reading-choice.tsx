import { useState } from 'react';
import type { StoredMapping } from '#server/contract/mappings.ts';
import { useDeleteMapping } from '#web/api/use-mappings.ts';
import { AskDialog } from '#web/ui/ask-dialog.tsx';
import { Button } from '#web/ui/button.tsx';
import { ProblemNote } from '#web/ui/problem-note.tsx';
import { SelectField } from '#web/ui/select-field.tsx';
import styles from './bring.module.css';
import type { Reading } from './use-reading.ts';

/** By which of the stored mappings files are read, or as proposed. */
export function ReadingChoice({ reading, stored }: { reading: Reading; stored: readonly StoredMapping[] }) {
  const { base, mapping, by } = reading;
  const [asked, setAsked] = useState<string | null>(null);
  const remove = useDeleteMapping();
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
      {base !== null && names.includes(base) && (
        <Button kind="quiet" onClick={() => setAsked(base)}>
          Delete '{base}'
        </Button>
      )}
      {asked !== null && (
        <AskDialog
          title={`Delete '${asked}'?`}
          yes="Delete it"
          onNo={() => setAsked(null)}
          onYes={() => {
            setAsked(null);
            remove.mutate(asked, { onSuccess: reading.startAnew });
          }}
        >
          <p>Files can then no longer be read as '{asked}', by nobody. What was stored with it stays.</p>
        </AskDialog>
      )}
      {remove.error !== null && <ProblemNote error={remove.error} />}
    </div>
  );
}

function say(by: Reading['by'], base: string | null, isChanged: boolean): string {
  if (by === 'draft') return 'As you had begun it on this device.';
  if (isChanged) return 'With changes that are not kept yet, except on this device.';
  if (by === 'fit' && base !== null) return `All that '${base}' takes is in this file.`;
  return base === null ? 'Look through it: a proposal can be wrong.' : 'As it is kept.';
}
