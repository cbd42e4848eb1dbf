import { Link } from '@tanstack/react-router';
import { useState } from 'react';
import type { OdometerAnswer, OdometerQuestion } from '#server/contract/intake.ts';
import { useAnswerOdometer, useOdometerQuestions } from '#web/api/use-intake.ts';
import { formatMoment } from '#web/format/format-date.ts';
import { formatOdometer } from '#web/format/format-km.ts';
import type { Units } from '#web/format/units.ts';
import styles from '#web/screens/intake/intake.module.css';
import settingsStyles from '#web/screens/settings/settings.module.css';
import { Button } from '#web/ui/button.tsx';
import { ChoiceGroup } from '#web/ui/choice-group.tsx';
import { ProblemNote } from '#web/ui/problem-note.tsx';
import { TextField } from '#web/ui/text-field.tsx';
import { useUnits } from '#web/ui/use-units.ts';

interface Props {
  isAnswered: boolean;
  onAnswered: (isAnswered: boolean) => void;
}

const answerWords: Record<OdometerAnswer, string> = {
  changed: 'the instrument was changed or set',
  misread: 'the figures were wrong for a while',
};

/** Odometers that jumped, and what somebody says of it. */
export function OdometerPart({ isAnswered, onAnswered }: Props) {
  const { data, isPending, isError, error, refetch } = useOdometerQuestions(isAnswered);
  return (
    <section className={settingsStyles.stack}>
      <h2>Odometer questions</h2>
      <p className={settingsStyles.small}>
        Where the figures of an odometer jump, Slipdrift joins both tracks. Say what it was, so that nobody
        has to ask again.
      </p>
      <div className={settingsStyles.tools}>
        <ChoiceGroup
          legend="Questions"
          name="answered"
          options={[
            { value: 'open', label: 'open' },
            { value: 'answered', label: 'answered' },
          ]}
          value={isAnswered ? 'answered' : 'open'}
          onChoose={(value) => onAnswered(value === 'answered')}
        />
      </div>
      {isError && data === undefined && <ProblemNote error={error} onRetry={() => void refetch()} />}
      {isPending && <p role="status">Loading the questions</p>}
      {data?.rows.length === 0 && (
        <p className={settingsStyles.none}>
          {isAnswered ? 'No question was answered yet.' : 'No odometer has jumped without an explanation.'}
        </p>
      )}
      <ul className={styles.questions} aria-label="Odometer questions">
        {data?.rows.map((question) => (
          <Question key={`${question.vehicle} ${question.at}`} question={question} />
        ))}
      </ul>
    </section>
  );
}

function Question({ question }: { question: OdometerQuestion }) {
  const { vehicle, at, answer } = question;
  const units = useUnits();
  const [note, setNote] = useState('');
  const send = useAnswerOdometer();
  const say = (said: OdometerAnswer | null) => send.mutate({ vehicle, at, answer: said, note });
  return (
    <li className={styles.question}>
      <p>
        <Link to="/vehicles/$vehicle" params={{ vehicle }}>
          {vehicle}
        </Link>{' '}
        {sayJump(question, units)}
      </p>
      {answer === null ? (
        <div className={styles.answer}>
          <TextField label={`Note on ${vehicle}`} maxLength={500} value={note} onChange={setNote} />
          <Button disabled={send.isPending} onClick={() => say('changed')}>
            It was changed or set
          </Button>
          <Button disabled={send.isPending} onClick={() => say('misread')}>
            It read wrong
          </Button>
        </div>
      ) : (
        <p>
          {answer.answered_by} says on {formatMoment(answer.answered_at)}: {answerWords[answer.answer]}
          {answer.note === '' ? '.' : `. ${answer.note}`}{' '}
          <Button kind="quiet" disabled={send.isPending} onClick={() => say(null)}>
            Take it back
          </Button>
        </p>
      )}
      {send.isError && <ProblemNote error={send.error} />}
    </li>
  );
}

function sayJump(
  { at, before_km: before, after_km: after, jump_km, offset_km }: OdometerQuestion,
  units: Units,
): string {
  const figures =
    before === null || after === null
      ? `by ${formatOdometer(Math.abs(jump_km), units)} ${jump_km < 0 ? 'back' : 'ahead'}`
      : `from ${formatOdometer(before, units)} to ${formatOdometer(after, units)}`;
  const offset = `${formatOdometer(Math.abs(offset_km), units)} ${offset_km < 0 ? 'are taken off' : 'are added'}`;
  return `jumped ${figures} on ${formatMoment(at)}; ${offset} from there on.`;
}
