import { type FormEvent, useRef, useState } from 'react';
import { outcomeWords } from '#server/contract/packet-words.ts';
import type { Packet } from '#server/contract/packets.ts';
import type { StepQuestion } from '#server/contract/test-steps.ts';
import { holdsConverter, lifeSources } from '#server/contract/words.ts';
import { ProblemError } from '#web/api/problem-error.ts';
import { useClosePacket } from '#web/api/use-packet.ts';
import { formatMoment } from '#web/format/format-date.ts';
import { formatOdometer, toReaderDistance } from '#web/format/format-km.ts';
import { formatWhole } from '#web/format/format-number.ts';
import { Button } from '#web/ui/button.tsx';
import { type DraftFields, useKeptNames } from '#web/ui/kept-drafts.ts';
import { RadioLines } from '#web/ui/radio-lines.tsx';
import { TextField } from '#web/ui/text-field.tsx';
import { useUnits } from '#web/ui/use-units.ts';
import { focusFault } from './focus-fault.ts';
import { optionsOf, outcomeHints } from './packet-words.ts';
import { QuestionsNote } from './questions-note.tsx';
import { readClose, usualCalmKm } from './read-close.ts';
import { leadsOn, SendProblem } from './send-problem.tsx';
import styles from './step-form.module.css';
import { Notes } from './step-inputs.tsx';
import { draftKey, usePacketDraft } from './use-packet-draft.ts';

const nothing: DraftFields = {};
const shownBy = [
  'outcome',
  'odometer_km',
  'work_at',
  'ended',
  'reason',
  'calm_km',
  'without_cooler',
  'old_fitted_km',
  'old_source',
];

/** How the job ended. Closing is what makes a new converter life begin, so the server checks and may ask first. */
export function CloseForm({ packet, onLook }: { packet: Packet; onLook: () => void }) {
  const units = useUnits();
  const { draft, keep, forget } = usePacketDraft(packet.id, 'close');
  const close = useClosePacket(packet);
  const form = useRef<HTMLFormElement>(null);
  const [faults, setFaults] = useState<DraftFields>(nothing);
  const [questions, setQuestions] = useState<readonly StepQuestion[] | null>(null);
  const unsaved = useKeptNames(
    (['repair-parts', 'repair-cooler', 'repair-teardown'] as const).map((part) => draftKey(packet.id, part)),
  );
  const fields = draft ?? nothing;
  const { outcome } = fields;
  const isReplaced = packet.report.parts.some(({ kind }) => holdsConverter(kind));
  const isOldUnknown = !packet.lives.some(({ removed_km, source }) => removed_km === null && source !== null);
  const lacksCooler = packet.cooler_due.due && packet.cooler_due.lacks !== '';
  const isCalm = outcome === 'no_fault_found' || outcome === 'declined';

  const change = (patch: DraftFields) => {
    setQuestions(null);
    setFaults(nothing);
    keep({ ...fields, ...patch });
  };
  const send = async (typed: DraftFields, asMeasured: boolean) => {
    const { input, faults: found } = readClose(typed, units, { isReplaced, isOldUnknown, lacksCooler });
    setFaults(found ?? nothing);
    if (input === undefined) {
      return focusFault(form.current);
    }
    setQuestions(null);
    const answer = await close.mutateAsync({ ...input, as_measured: asMeasured }).catch((error: unknown) => {
      setFaults(faultsOf(error));
      focusFault(form.current);
    });
    if (answer === undefined) return;
    if (answer.kind === 'asked') return setQuestions(answer.questions);
    forget();
  };
  const submit = (event: FormEvent) => {
    event.preventDefault();
    if (unsaved.length === 0) void send(fields, false);
  };
  const text = (name: string) => ({
    value: fields[name] ?? '',
    error: faults[name],
    onChange: (typed: string) => change({ [name]: typed }),
  });
  const rest = Object.entries(faults).filter(([name]) => !shownBy.includes(name));
  const last = packet.now;
  return (
    <form ref={form} className={styles.form} onSubmit={submit} aria-label="Close the job" noValidate>
      <RadioLines
        legend="How the job ended"
        value={outcome ?? ''}
        options={optionsOf(outcomeWords).map((one) => ({ ...one, words: outcomeHints[one.value] }))}
        error={faults.outcome}
        onChange={(value) => change({ outcome: value })}
      />
      <TextField
        label={`Mileage of the instrument, ${units.distance}`}
        inputMode="decimal"
        autoComplete="off"
        hint={
          last.odometer_km === null
            ? 'no reading has one yet'
            : `last reading ${formatOdometer(last.odometer_km, units)}${last.last_reading_at === null ? '' : `, ${formatMoment(last.last_reading_at)}`}`
        }
        {...text('odometer_km')}
      />
      <TextField
        label="When the work was done"
        type="datetime-local"
        hint="now, where left empty"
        {...text('work_at')}
      />
      {isReplaced && outcome === 'repaired' && (
        <>
          <RadioLines
            legend="How the old converter ended"
            value={fields.ended ?? ''}
            options={[
              { value: 'failed', label: 'Failed', words: 'It slipped, leaked or broke.' },
              { value: 'preventive', label: 'Preventive', words: 'Taken out before it failed.' },
            ]}
            error={faults.ended}
            onChange={(ended) => change({ ended })}
          />
          {isOldUnknown && (
            <>
              <TextField
                label={`Old converter fitted at, ${units.distance}, if known`}
                inputMode="decimal"
                autoComplete="off"
                hint="nobody has registered it; 0 where it is the original"
                {...text('old_fitted_km')}
              />
              {(fields.old_fitted_km ?? '') !== '' && (
                <RadioLines
                  legend="What it was"
                  value={fields.old_source ?? ''}
                  options={lifeSources.map((value) => ({ value, label: value }))}
                  error={faults.old_source}
                  onChange={(old_source) => change({ old_source })}
                />
              )}
            </>
          )}
        </>
      )}
      <Notes
        label={outcome === 'declined' ? 'Who declined it, and why' : 'What came of it'}
        value={fields.reason ?? ''}
        error={faults.reason}
        onChange={(reason) => change({ reason })}
      />
      {isCalm && (
        <TextField
          label={`Keep the list calm for, ${units.distance}`}
          inputMode="decimal"
          autoComplete="off"
          placeholder={formatWhole(toReaderDistance(usualCalmKm, units))}
          hint="unless slip rises before"
          {...text('calm_km')}
        />
      )}
      {lacksCooler && (
        <div className={styles.other}>
          <p>
            <strong>The cooler record is due.</strong> {packet.cooler_due.lacks}
          </p>
          <Notes
            label="Why it is closed without; this stays visible"
            value={fields.without_cooler ?? ''}
            error={faults.without_cooler}
            onChange={(without_cooler) => change({ without_cooler })}
          />
        </div>
      )}
      {rest.length > 0 && (
        <ul className={styles.other} role="alert">
          {rest.map(([name, message]) => (
            <li key={name}>
              {fieldWords[name] ?? name} {message}.
            </li>
          ))}
        </ul>
      )}
      {close.isError && rest.length === 0 && !Object.keys(faults).length && (
        <SendProblem
          error={close.error}
          onAgain={() => void send(fields, false)}
          onLook={() => {
            close.reset();
            onLook();
          }}
        />
      )}
      {questions !== null && (
        <QuestionsNote
          questions={questions}
          isPending={close.isPending}
          asMeasured="It is as I read it"
          onTake={(suggestion) => {
            const km = suggestion.odometer_km;
            const taken =
              typeof km === 'number'
                ? { ...fields, odometer_km: String(Math.round(toReaderDistance(km, units))) }
                : fields;
            keep(taken);
            void send(taken, false);
          }}
          onAsMeasured={() => void send(fields, true)}
          onBack={() => {
            setQuestions(null);
            form.current?.querySelector<HTMLElement>('input[inputmode]')?.focus();
          }}
        />
      )}
      {unsaved.length > 0 && (
        <p className={styles.other}>
          Something typed under Repair is not saved yet. Save it, or leave it as it was, before the job is
          closed.
        </p>
      )}
      {questions === null && (
        <div className={styles.send}>
          {!leadsOn(close.error) && (
            <Button type="submit" kind="main" disabled={close.isPending || unsaved.length > 0}>
              {close.isPending ? 'Closing' : 'Close the job'}
            </Button>
          )}
          {draft !== null && !close.isPending && !close.isError && (
            <span className={styles.unsent}>Kept on this device, not sent yet</span>
          )}
        </div>
      )}
    </form>
  );
}

const fieldWords: Readonly<Record<string, string>> = {
  'teardown.cause': 'The cause under What was wrong',
  parts: 'The list of parts',
  cooler: 'The cooler',
  'old_converter.fitted_km': 'The mileage of the old converter',
};

function faultsOf(error: unknown): DraftFields {
  if (!(error instanceof ProblemError) || error.status === 409) return nothing;
  return Object.fromEntries(error.errors.map(({ field, message }) => [field, message]));
}
