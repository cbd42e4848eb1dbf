import { useState } from 'react';
import type { SetUpFile } from '#server/contract/set-up-files/set-up-files.ts';
import type { Role } from '#server/contract/words.ts';
import { ProblemError } from '#web/api/problem-error.ts';
import { seesSettings } from '#web/api/role-rights.ts';
import { type KeptFile, useSetUpFile } from '#web/api/use-set-up-file.ts';
import { Step } from '#web/screens/intake/bring/step.tsx';
import { Button } from '#web/ui/button.tsx';
import { ProblemNote } from '#web/ui/problem-note.tsx';
import { ColumnsTable } from './columns-table.tsx';
import { DoneLinks } from './done-links.tsx';
import { FaultsPart } from './faults-part.tsx';
import { OutcomePart } from './outcome-part.tsx';
import styles from './set-up.module.css';
import { SetUpDrop } from './set-up-drop.tsx';

/** One file of one kind: tried as it comes, done when somebody says so. */
export function SetUpWork({ file, role }: { file: SetUpFile; role: Role }) {
  const { kind } = file;
  const [kept, setKept] = useState<KeptFile | null>(null);
  const trial = useSetUpFile(kind, true);
  const deed = useSetUpFile(kind, false);
  const isBusy = trial.isPending || deed.isPending;
  const isAllowed = file.access === 'plan' || seesSettings(role);
  const take = async (chosen: File) => {
    // What is done later is what was tried, whatever becomes of the file meanwhile.
    const next = { name: chosen.name, bytes: await chosen.arrayBuffer() };
    setKept(next);
    deed.reset();
    trial.mutate(next);
  };
  return (
    <>
      <Step number={2} title="The file">
        <p className={styles.links}>
          <a href={`/api/set-up/${kind}/template`} download>
            File to begin with
          </a>
          <a href={`/api/set-up/${kind}`} download>
            What is on record, as such a file
          </a>
        </p>
        {isAllowed ? (
          <SetUpDrop hasFile={kept !== null} isBusy={isBusy} onFile={(chosen) => void take(chosen)} />
        ) : (
          <p className={styles.sentence}>
            Only an admin sets up {kind}: limits, costs and bays concern the whole fleet. Give the file to
            one.
          </p>
        )}
        <ColumnsTable file={file} />
      </Step>
      {kept !== null && deed.data === undefined && (
        <Step number={3} title="What it would come to">
          {trial.isPending && <p role="status">{kept.name} is tried …</p>}
          {trial.error !== null && <Refusal name={kept.name} error={trial.error} />}
          {trial.data !== undefined && (
            <>
              <OutcomePart name={kept.name} reply={trial.data} />
              {trial.data.created + trial.data.changed > 0 && (
                <div className={styles.act}>
                  <Button kind="main" disabled={isBusy} onClick={() => deed.mutate(kept)}>
                    {deed.isPending ? 'Being done …' : 'Do it'}
                  </Button>
                  <span className={styles.soft}>
                    All of it or, should anything have changed meanwhile, nothing.
                  </span>
                </div>
              )}
              {deed.error !== null && <Refusal name={kept.name} error={deed.error} />}
            </>
          )}
        </Step>
      )}
      {kept !== null && deed.data !== undefined && (
        <Step number={3} title="Done">
          <OutcomePart name={kept.name} reply={deed.data} />
          <DoneLinks kind={kind} role={role} />
        </Step>
      )}
    </>
  );
}

const Refusal = ({ name, error }: { name: string; error: Error }) =>
  error instanceof ProblemError && error.errors.length > 0 ? (
    <FaultsPart name={name} faults={error.errors} />
  ) : (
    <ProblemNote error={error} />
  );
