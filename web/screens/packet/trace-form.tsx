import { useState } from 'react';
import type { StepQuestion } from '#server/contract/test-steps.ts';
import { useRecordRoadTest } from '#web/api/use-findings.ts';
import { ProblemNote } from '#web/ui/problem-note.tsx';
import { FaultLines } from './fault-lines.tsx';
import { QuestionsNote } from './questions-note.tsx';
import { isFileFault, SendProblem } from './send-problem.tsx';
import styles from './step-form.module.css';
import { TraceDrop } from './trace-drop.tsx';

interface Props {
  packet: number;
  onStored: () => void;
  onLook: () => void;
}

/** A recorded road test, as a file of the scan tool. The file itself cannot be kept over a reload, and that is said. */
export function TraceForm({ packet, onStored, onLook }: Props) {
  const record = useRecordRoadTest(packet);
  const [file, setFile] = useState<File | null>(null);
  const [questions, setQuestions] = useState<readonly StepQuestion[] | null>(null);
  const send = async (chosen: File, asMeasured: boolean) => {
    setFile(chosen);
    setQuestions(null);
    const answer = await record.mutateAsync({ file: chosen, asMeasured }).catch(() => undefined);
    if (answer === undefined) return;
    if (answer.kind === 'asked') return setQuestions(answer.questions);
    setFile(null);
    onStored();
  };
  return (
    <div className={styles.way}>
      <TraceDrop
        onFile={(chosen) => void send(chosen, false)}
        progress={record.isPending ? `Reading ${file?.name ?? 'the trace'}` : null}
        problem={
          record.isError &&
          file !== null && (
            <>
              {isFileFault(record.error) ? (
                <ProblemNote error={record.error} title="The recording was not taken" />
              ) : (
                <SendProblem
                  error={record.error}
                  what={`${file.name}, as long as this page is open,`}
                  onAgain={() => void send(file, false)}
                  onLook={onLook}
                />
              )}
              <FaultLines error={record.error} />
            </>
          )
        }
      />
      {questions !== null && file !== null && (
        <QuestionsNote
          questions={questions}
          isPending={record.isPending}
          asMeasured="No, take it as it was recorded"
          onTake={() => void send(file, true)}
          onAsMeasured={() => void send(file, true)}
          onBack={() => {
            setQuestions(null);
            setFile(null);
          }}
        />
      )}
    </div>
  );
}
