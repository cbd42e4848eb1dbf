import { type RefObject, useEffect } from 'react';
import type { StoredMapping } from '#server/contract/mappings.ts';
import { useLook } from '#web/api/use-look.ts';
import { Button } from '#web/ui/button.tsx';
import { ProblemNote } from '#web/ui/problem-note.tsx';
import { useRoomBelow } from '#web/ui/use-room-below.ts';
import styles from './bring.module.css';
import { type BroughtFile, type GivenToAll, toGiven } from './brought-files.ts';
import { alignColumns, takeGuesses } from './change-mapping.ts';
import { findFitting, fits } from './fit-mapping.ts';
import { LookParts } from './look-parts.tsx';
import { proposeName } from './propose-name.ts';
import { sayCounts } from './say-look.ts';
import { Step } from './step.tsx';
import { StorePart } from './store-part.tsx';
import type { Reading } from './use-reading.ts';
import type { useSending } from './use-sending.ts';

interface Props {
  one: BroughtFile;
  files: readonly BroughtFile[];
  all: GivenToAll;
  reading: Reading;
  /** null until they have come */
  stored: readonly StoredMapping[] | null;
  sending: ReturnType<typeof useSending>;
  bar: RefObject<HTMLDivElement | null>;
  onFile: (id: number, patch: Partial<BroughtFile>) => void;
  onAll: (all: GivenToAll) => void;
}

/** One file as it would be read: what it is, its columns, its first rows, and storing it with the others. */
export function FileWork({ one, files, all, reading, stored, sending, bar, onFile, onAll }: Props) {
  const { mapping: changed, base } = reading;
  const { look, error, isOld, askAgain } = useLook(one.id, one.file, {
    ...(changed !== null ? { mapping: changed } : base !== null ? { mapping_name: base } : {}),
    given: toGiven(one, all),
  });
  useSettledReading(reading, isOld ? null : look, stored);
  useRoomBelow(bar);
  if (look === null)
    return (
      <Step number={2} title="What it is">
        {error === null ? (
          <p role="status">looking at {one.file.name}</p>
        ) : (
          <>
            <ProblemNote
              error={error}
              title="The file could not be read so"
              onRetry={() => void askAgain()}
            />
            {base !== null && (
              <div>
                <Button onClick={reading.startAnew}>Read it without '{base}'</Button>
              </div>
            )}
          </>
        )}
      </Step>
    );
  const read = look.own_form || look.format !== 'csv' ? null : (changed ?? look.mapping);
  const mapping =
    read === null
      ? null
      : alignColumns(
          read,
          look.columns.map(({ column }) => column),
        );
  const isLogOrOwn = mapping === null;
  return (
    <>
      <LookParts
        look={look}
        mapping={mapping}
        one={one}
        files={files}
        all={all}
        reading={reading}
        stored={stored ?? []}
        isOld={isOld}
        error={error}
        onFile={onFile}
        onAll={onAll}
      />
      <div className={styles.bar} ref={bar} role="status">
        <p>
          {error === null ? sayCounts(look) : 'It could not be read so; below stands what was read before.'}
        </p>
        <p className={styles.soft}>{isOld ? 'looking again' : ''}</p>
      </div>
      <Step number={isLogOrOwn && look.format !== 'can' ? 4 : 5} title="Store">
        <StorePart
          files={files}
          all={all}
          look={look}
          isOld={isOld || error !== null}
          mapping={mapping}
          base={base}
          isChanged={changed !== null}
          proposedName={proposeName(one.file.name)}
          stored={stored ?? []}
          sending={sending}
          onSaved={reading.saved}
        />
      </Step>
    </>
  );
}

/** Once a file is seen: what fits it is offered, once; and columns that were cut anew are guessed. */
function useSettledReading(
  reading: Reading,
  look: ReturnType<typeof useLook>['look'],
  stored: readonly StoredMapping[] | null,
): void {
  useEffect(() => {
    if (look === null || look.own_form || look.mapping === null) return;
    if (reading.isToGuess && reading.mapping !== null)
      return reading.guessed(takeGuesses(reading.mapping, look));
    if (reading.isOffered || stored === null || reading.base !== null) return;
    if (reading.draft !== null && fits(reading.draft.mapping, look)) return reading.takeDraft(reading.draft);
    const fitting = findFitting(stored, look);
    if (fitting === null) reading.offerNone();
    else reading.takeStored(fitting.name, 'fit');
  });
}
