import { useCallback, useEffect, useRef } from 'react';
import type { Packet } from '#server/contract/packets.ts';
import type { TestStep } from '#server/contract/words.ts';
import { DecisionTree } from './decision-tree.tsx';
import { stepNames } from './packet-words.ts';
import { StepList } from './step-list.tsx';
import { StepPanel } from './step-panel.tsx';
import styles from './tests-section.module.css';

interface Props {
  packet: Packet;
  /** from the address; the next one where it names none */
  step: TestStep | undefined;
  onStep: (step: TestStep) => void;
  onLook: () => void;
}

/** The test steps, one at a time, beside the tree that says which comes next. */
export function TestsSection({ packet, step, onStep, onLook }: Props) {
  const { steps } = packet;
  const next = steps.find(({ state }) => state === 'next') ?? null;
  // Held while nobody chooses: recording a finding makes another step the next, and the finding is to be read first.
  const first = useRef(next?.step ?? steps[0]?.step ?? 'fluid');
  const open = step ?? first.current;
  const ground = useRef<HTMLDivElement>(null);
  const moves = useRef(false);
  const go = useCallback(
    (to: TestStep) => {
      moves.current = true;
      onStep(to);
    },
    [onStep],
  );
  // Reading goes on in the step that was opened.
  useEffect(() => {
    if (!moves.current) return;
    moves.current = false;
    const title = ground.current?.querySelector<HTMLElement>(`[data-step="${open}"] h3`);
    title?.focus({ preventScroll: true });
    title?.scrollIntoView({ block: 'start' });
  }, [open]);
  return (
    <>
      <div className={styles.tests}>
        <StepList steps={steps} open={open} onOpen={go} />
        <div ref={ground} className={styles.open}>
          {steps.map((one, i) => (
            <StepPanel
              key={one.step}
              packet={packet}
              step={one}
              number={i + 1}
              isOpen={one.step === open}
              next={next}
              onNext={go}
              onLook={onLook}
            />
          ))}
        </div>
      </div>
      {packet.also_found.length > 0 && (
        <div className={styles.aside}>
          <h3>Also found, off the way through the tree</h3>
          <ul>
            {packet.also_found.map(({ step: found, words }) => (
              <li key={found}>
                {stepNames[found]}: {words}
              </li>
            ))}
          </ul>
        </div>
      )}
      <DecisionTree tree={packet.tree} />
    </>
  );
}
