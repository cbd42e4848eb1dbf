import { useState } from 'react';
import type { StepQuestion } from '#server/contract/test-steps.ts';
import { useRecordRoadTest } from '#web/api/use-findings.ts';
import { FieldFrame } from '#web/ui/field-frame.tsx';
import { QuestionsNote } from './questions-note.tsx';
import { SendProblem } from './send-problem.tsx';
import styles from './step-form.module.css';

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
      <FieldFrame
        label="Recorded trace, CSV"
        hint="time, engine and turbine speed or slip, command; a minute or two"
      >
        {(control) => (
          <input
            {...control}
            type="file"
            accept=".csv,.txt,.gz,text/csv"
            disabled={record.isPending}
            onChange={(event) => {
              const chosen = event.target.files?.[0];
              event.target.value = '';
              if (chosen !== undefined) void send(chosen, false);
            }}
          />
        )}
      </FieldFrame>
      {record.isPending && <p role="status">Reading {file?.name}</p>}
      {record.isError && file !== null && (
        <SendProblem
          error={record.error}
          what={`${file.name}, as long as this page is open,`}
          onAgain={() => void send(file, false)}
          onLook={onLook}
        />
      )}
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
