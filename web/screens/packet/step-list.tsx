import type { PacketStep } from '#server/contract/packets.ts';
import { stepNames } from './packet-words.ts';
import styles from './step-list.module.css';
import { VerdictMark } from './verdict-mark.tsx';

interface Props {
  steps: readonly PacketStep[];
  open: PacketStep['step'];
  onOpen: (step: PacketStep['step']) => void;
}

/** The steps in their order with what each came to; one is open. */
export function StepList({ steps, open, onOpen }: Props) {
  return (
    <ol className={styles.list} aria-label="Test steps">
      {steps.map(({ step, state, finding }, i) => (
        <li key={step} data-state={state}>
          <button
            type="button"
            className={styles.step}
            aria-current={step === open ? 'step' : undefined}
            onClick={() => onOpen(step)}
          >
            <span className={styles.number}>{i + 1}</span>
            <span className={styles.name}>{stepNames[step]}</span>
            <span className={styles.state}>
              {finding !== null ? <VerdictMark verdict={finding.verdict} /> : stateWords[state]}
            </span>
          </button>
        </li>
      ))}
    </ol>
  );
}

const stateWords: Record<PacketStep['state'], string> = {
  next: 'next',
  open: 'to do',
  done: 'done',
  not_needed: 'not needed',
};
