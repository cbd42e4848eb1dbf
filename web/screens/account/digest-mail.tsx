import type { DigestState } from '#server/contract/digest.ts';
import { useChooseDigestMail, useDigestMail } from '#web/api/use-digest.ts';
import { useWordUnits } from '#web/api/use-word-units.ts';
import { formatMoment } from '#web/format/format-date.ts';
import { Button } from '#web/ui/button.tsx';
import { ChoiceLine, ChoiceLines } from '#web/ui/choice-lines.tsx';
import formStyles from '#web/ui/form.module.css';
import { ProblemNote } from '#web/ui/problem-note.tsx';
import styles from './account-screen.module.css';

/** Whether the week comes by e-mail, and what became of the last one. */
export function DigestMail({ email }: { email: string }) {
  const { data, isPending, isError, error, refetch } = useDigestMail();
  return (
    <section className={styles.part} aria-labelledby="digest-title">
      <h2 id="digest-title">The week by e-mail</h2>
      {isPending && <p role="status">Loading</p>}
      {isError && data === undefined && <ProblemNote error={error} onRetry={() => void refetch()} />}
      {data !== undefined && <Choice state={data} email={email} />}
    </section>
  );
}

const unitWords = { metric: 'kilometres', imperial: 'miles' };

function Choice({ state, email }: { state: DigestState; email: string }) {
  const choose = useChooseDigestMail();
  const units = useWordUnits();
  const isOn = choose.isPending ? choose.variables : state.by_mail;
  return (
    <>
      {choose.isError && <ProblemNote error={choose.error} />}
      <ChoiceLines legend={`To ${email}`}>
        <ChoiceLine
          type="checkbox"
          label="Send me the week by e-mail on Mondays"
          words={`From 06:00 UTC, about your depots, worded in ${unitWords[isOn ? state.units : units]}.`}
          checked={isOn}
          onChange={() => choose.mutate(!isOn)}
        />
      </ChoiceLines>
      {isOn && state.units !== units && (
        <p>
          <Button kind="quiet" disabled={choose.isPending} onClick={() => choose.mutate(true)}>
            Word it in {unitWords[units]}, as you read here
          </Button>
        </p>
      )}
      {!state.can_mail && (
        <p className={styles.note}>
          No mail server is set here yet, so nothing is sent. What you tick is kept until an admin sets one
          with SLIPDRIFT_SMTP_URL.
        </p>
      )}
      <div role="status">
        {state.problem !== null && <p className={formStyles.wrong}>{state.problem}</p>}
        {state.last_sent_at !== null && <p>Last sent {formatMoment(state.last_sent_at)}.</p>}
      </div>
    </>
  );
}
