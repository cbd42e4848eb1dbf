import { useEffect, useId, useRef } from 'react';
import type { StepQuestion } from '#server/contract/test-steps.ts';
import { Button } from '#web/ui/button.tsx';
import styles from './questions-note.module.css';

interface Props {
  questions: readonly StepQuestion[];
  isPending: boolean;
  /** writes the suggestion into the fields and sends again */
  onTake: (suggestion: NonNullable<StepQuestion['suggestion']>) => void;
  onAsMeasured: () => void;
  /** back to the fields, nothing sent */
  onBack: () => void;
  asMeasured?: string;
}

/** What the server asks before it stores anything, in the place of the button that sent it. */
export function QuestionsNote({
  questions,
  isPending,
  onTake,
  onAsMeasured,
  onBack,
  asMeasured = 'No, that is what I measured',
}: Props) {
  const id = useId();
  const note = useRef<HTMLDivElement>(null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: another question takes the focus again
  useEffect(() => {
    note.current?.focus();
  }, [questions]);
  return (
    <div
      ref={note}
      className={styles.note}
      role="alertdialog"
      aria-labelledby={`${id}-title`}
      aria-describedby={`${id}-words`}
      tabIndex={-1}
      onKeyDown={(event) => {
        if (event.key === 'Escape') onBack();
      }}
    >
      <h4 id={`${id}-title`}>
        {questions.length === 1 ? 'A question before this is stored' : 'Questions before this is stored'}
      </h4>
      <div id={`${id}-words`} className={styles.words}>
        {questions.map(({ message }) => (
          <p key={message}>{message}</p>
        ))}
      </div>
      <div className={styles.buttons}>
        {questions.map(({ field, suggestion, suggestion_says }) =>
          suggestion === null ? null : (
            <Button
              key={`${field} ${suggestion_says}`}
              kind="main"
              disabled={isPending}
              onClick={() => onTake(suggestion)}
            >
              {suggestion_says ?? 'Yes'}
            </Button>
          ),
        )}
        <Button disabled={isPending} onClick={onAsMeasured}>
          {asMeasured}
        </Button>
        <Button kind="quiet" disabled={isPending} onClick={onBack}>
          Back to the fields
        </Button>
      </div>
    </div>
  );
}
