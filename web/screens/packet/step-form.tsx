import { type FormEvent, useRef, useState } from 'react';
import type { Packet, PacketStep } from '#server/contract/packets.ts';
import type { StepQuestion } from '#server/contract/test-steps.ts';
import { ProblemError } from '#web/api/problem-error.ts';
import { useRecordFinding } from '#web/api/use-findings.ts';
import { Button } from '#web/ui/button.tsx';
import type { DraftFields } from '#web/ui/kept-drafts.ts';
import { focusFault } from './focus-fault.ts';
import { QuestionsNote } from './questions-note.tsx';
import { readStep, takeSuggestion } from './read-step.ts';
import { leadsOn, SendProblem } from './send-problem.tsx';
import { stepFields } from './step-fields.ts';
import styles from './step-form.module.css';
import { StepInputs } from './step-inputs.tsx';
import { usePacketDraft } from './use-packet-draft.ts';

interface Props {
  packet: Packet;
  step: PacketStep['step'];
  title: string;
  onStored: () => void;
  onLook: () => void;
}

const nothing: DraftFields = {};

/** What was seen or measured in one step. It stays on this device until the server has it. */
export function StepForm({ packet, step, title, onStored, onLook }: Props) {
  const { draft, keep, forget } = usePacketDraft(packet.id, step);
  const record = useRecordFinding(packet.id);
  const form = useRef<HTMLFormElement>(null);
  const [faults, setFaults] = useState<DraftFields>(nothing);
  const [questions, setQuestions] = useState<readonly StepQuestion[] | null>(null);
  const fields = draft ?? nothing;
  const isTyped = draft !== null;

  const change = (patch: DraftFields) => {
    setQuestions(null);
    setFaults((before) => without(before, Object.keys(patch)));
    keep({ ...fields, ...patch });
  };
  const send = async (typed: DraftFields, asMeasured: boolean) => {
    const { input, faults: found } = readStep(step, typed);
    setFaults(found ?? nothing);
    if (input === undefined) return focusFault(form.current);
    setQuestions(null);
    const answer = await record
      .mutateAsync(asMeasured ? { ...input, as_measured: true } : input)
      .catch((error: unknown) => {
        setFaults(faultsOf(error));
        focusFault(form.current);
      });
    if (answer === undefined) return;
    if (answer.kind === 'asked') return setQuestions(answer.questions);
    forget();
    onStored();
  };
  const submit = (event: FormEvent) => {
    event.preventDefault();
    void send(fields, false);
  };
  return (
    <form ref={form} className={styles.form} onSubmit={submit} aria-label={`Record: ${title}`} noValidate>
      <StepInputs list={stepFields[step]} fields={fields} faults={faults} onChange={change} />
      {record.isError && (
        <SendProblem
          error={record.error}
          onAgain={() => void send(fields, false)}
          onLook={() => {
            record.reset();
            onLook();
          }}
        />
      )}
      {questions !== null && (
        <QuestionsNote
          questions={questions}
          isPending={record.isPending}
          onTake={(suggestion) => {
            const taken = takeSuggestion(fields, suggestion);
            keep(taken);
            void send(taken, false);
          }}
          onAsMeasured={() => void send(fields, true)}
          onBack={() => {
            setQuestions(null);
            form.current?.querySelector<HTMLElement>('input, textarea')?.focus();
          }}
        />
      )}
      {questions === null && (
        <div className={styles.send}>
          {/* Beside 'Send again' it would be a second button for the same. */}
          {!leadsOn(record.error) && (
            <Button type="submit" kind="main" disabled={record.isPending}>
              {record.isPending ? 'Recording' : 'Record'}
            </Button>
          )}
          {isTyped && (
            <>
              {!record.isError && (
                <span className={styles.unsent}>
                  {record.isPending ? 'Being sent' : 'Kept on this device, not sent yet'}
                </span>
              )}
              <Button
                kind="quiet"
                disabled={record.isPending}
                onClick={() => {
                  forget();
                  setFaults(nothing);
                  record.reset();
                }}
              >
                Empty the fields
              </Button>
            </>
          )}
        </div>
      )}
    </form>
  );
}

const without = (faults: DraftFields, names: readonly string[]): DraftFields =>
  Object.fromEntries(Object.entries(faults).filter(([name]) => !names.includes(name)));

/** What the server says of single fields; anything else stands beside the button. */
const faultsOf = (error: unknown): DraftFields =>
  error instanceof ProblemError
    ? Object.fromEntries(error.errors.map(({ field, message }) => [field, message]))
    : nothing;
