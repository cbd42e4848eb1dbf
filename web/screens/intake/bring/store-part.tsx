import { useId, useState } from 'react';
import type { Look } from '#server/contract/looks.ts';
import type { Mapping, StoredMapping } from '#server/contract/mappings.ts';
import { useSaveMapping } from '#web/api/use-mappings.ts';
import type { Query } from '#web/api/write-query.ts';
import { Button } from '#web/ui/button.tsx';
import { findFieldError } from '#web/ui/find-field-error.ts';
import { ProblemNote } from '#web/ui/problem-note.tsx';
import { TextField } from '#web/ui/text-field.tsx';
import { useKeptFocus } from '#web/ui/use-kept-focus.ts';
import styles from './bring.module.css';
import { type BroughtFile, type GivenToAll, toGiven } from './brought-files.ts';
import { FateLine } from './fate-line.tsx';
import type { useSending } from './use-sending.ts';

interface Props {
  files: readonly BroughtFile[];
  all: GivenToAll;
  look: Look;
  /** the answer in sight is that of what is chosen */
  isOld: boolean;
  /** null where files need none */
  mapping: Mapping | null;
  /** the stored mapping it comes from; null for one that was made here */
  base: string | null;
  /** it differs from the stored one */
  isChanged: boolean;
  proposedName: string;
  stored: readonly StoredMapping[];
  sending: ReturnType<typeof useSending>;
  onSaved: (name: string) => void;
}

/** Names the mapping, stores the files one after the other, and says what came of each. */
export function StorePart(props: Props) {
  const { files, all, look, isOld, mapping, base, isChanged, proposedName, stored, sending, onSaved } = props;
  const id = useId();
  const [typedName, setName] = useState<string | null>(null);
  const save = useSaveMapping();
  const name = (typedName ?? base ?? proposedName).trim();
  const isToSave = mapping !== null && (base === null || isChanged);
  const left = files.filter((one) => sending.fates.get(one.id)?.phase !== 'stored');
  const isReady = !isOld && look.lacks.length === 0 && left.length > 0 && !save.isPending;
  const replaced = isToSave && name !== base && stored.some((one) => one.name === name);

  async function send(isTrial: boolean): Promise<void> {
    if (isToSave) {
      const saved = await save.mutateAsync({ name, mapping }).catch(() => null);
      if (saved === null) return;
      setName(null);
      onSaved(saved.name);
    }
    const readWith = JSON.stringify(mapping);
    const toQuery = (one: BroughtFile): Query => ({
      ...(mapping === null ? {} : { mapping: isToSave ? name : (base ?? name) }),
      ...toGiven(one, all),
    });
    await sending.run(
      left.map((one) => ({ one, format: look.format, query: toQuery(one), readWith })),
      isTrial,
    );
  }

  const what = left.length === 1 ? 'the file' : `${left.length} files`;
  const results = useKeptFocus<HTMLUListElement>(sending.isBusy);
  const told = files.filter(({ id: one }) => sending.fates.has(one));
  return (
    <>
      {isToSave && (
        <div className={styles.name}>
          <TextField
            label="How the file is read is kept as"
            hint={
              replaced || (base !== null && name === base)
                ? `'${name}' is there already and changes for everybody who reads with it.`
                : 'Next time, and with ?mapping= or --mapping, files of this form are read the same way.'
            }
            error={findFieldError(save.error, 'name')}
            list={`${id}-names`}
            autoComplete="off"
            maxLength={64}
            value={typedName ?? base ?? proposedName}
            onChange={setName}
          />
          <datalist id={`${id}-names`}>
            {stored.map((one) => (
              <option key={one.name} value={one.name} />
            ))}
          </datalist>
        </div>
      )}
      {save.error !== null && <ProblemNote error={save.error} title="How the file is read was not kept" />}
      <div className={styles.buttons}>
        {sending.isBusy ? (
          <Button onClick={sending.stop}>Stop</Button>
        ) : left.length === 0 ? null : (
          <>
            <Button
              kind="main"
              disabled={!isReady || (isToSave && name === '')}
              onClick={() => void send(false)}
            >
              {isToSave ? `Keep it and store ${what}` : `Store ${what}`}
            </Button>
            {(!look.whole || left.length > 1) && (
              <Button disabled={!isReady || (isToSave && name === '')} onClick={() => void send(true)}>
                {isToSave ? 'Keep it and read all, storing nothing' : 'Read all, storing nothing'}
              </Button>
            )}
          </>
        )}
      </div>
      {told.length > 0 && (
        <ul className={styles.fates} aria-live="polite" ref={results} tabIndex={-1}>
          {told.map(({ id: one, file }) => {
            const fate = sending.fates.get(one);
            return (
              fate !== undefined && (
                <li key={one}>
                  <p className={styles.fileName}>{file.name}</p>
                  <FateLine name={file.name} size={file.size} fate={fate} />
                </li>
              )
            );
          })}
        </ul>
      )}
    </>
  );
}
