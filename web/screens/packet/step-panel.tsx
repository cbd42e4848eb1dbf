import { useId, useRef, useState } from 'react';
import type { Packet, PacketStep } from '#server/contract/packets.ts';
import { Button } from '#web/ui/button.tsx';
import { CautionList } from './caution-list.tsx';
import { FindingView } from './finding-view.tsx';
import { leadTo } from './lead-to.ts';
import { StepForm } from './step-form.tsx';
import styles from './step-panel.module.css';
import { TraceForm } from './trace-form.tsx';
import { usePacketDraft } from './use-packet-draft.ts';

interface Props {
  packet: Packet;
  step: PacketStep;
  number: number;
  isOpen: boolean;
  next: PacketStep | null;
  onNext: (step: PacketStep['step']) => void;
  onLook: () => void;
}

/** One test step: what it is for, how it is done, what to look out for, and what it showed. Printed with all others. */
export function StepPanel({ packet, step, number, isOpen, next, onNext, onLook }: Props) {
  const id = useId();
  const { draft } = usePacketDraft(packet.id, step.step);
  const [again, setAgain] = useState(false);
  const [told, setTold] = useState('');
  const ground = useRef<HTMLElement>(null);
  const lead = (title: 'h3' | 'h4') =>
    leadTo(() => ground.current?.querySelector<HTMLElement>(`${title}[tabindex]`));
  const { finding } = step;
  const mayRecord = packet.may_report && packet.state === 'open';
  // What is half typed is never out of sight.
  const showsForm = mayRecord && (finding === null || again || (draft !== null && !told));
  const onStored = () => {
    setAgain(false);
    setTold('Recorded.');
    lead('h3');
  };
  return (
    <section
      ref={ground}
      className={styles.panel}
      data-open={isOpen}
      aria-labelledby={`${id}-title`}
      data-step={step.step}
    >
      <h3 id={`${id}-title`} tabIndex={-1} className={styles.title}>
        <span className={styles.number}>Step {number}</span> {step.title}
      </h3>
      {step.why !== null && step.state === 'not_needed' && (
        <p className={styles.why}>
          <strong>Not needed.</strong> {step.why}
        </p>
      )}
      {step.why !== null && step.state === 'next' && <p className={styles.why}>{step.why}</p>}
      {finding !== null && <FindingView packet={packet} finding={finding} />}
      <p className={styles.told} role="status">
        {told}
      </p>
      {finding !== null && !showsForm && mayRecord && (
        <div className={styles.buttons}>
          {next !== null && next.step !== step.step && (
            <Button kind="main" onClick={() => onNext(next.step)}>
              Next: {next.title}
            </Button>
          )}
          <Button
            onClick={() => {
              setAgain(true);
              lead('h4');
            }}
          >
            Do it again
          </Button>
        </div>
      )}
      <How step={step} isFolded={finding !== null && !showsForm} />
      {showsForm && (
        <div className={styles.record}>
          <h4 tabIndex={-1}>{finding === null ? 'What it showed' : 'What it shows now'}</h4>
          {step.step === 'road_test' && (
            <>
              <div className={styles.onScreen}>
                <TraceForm packet={packet.id} onStored={onStored} onLook={onLook} />
              </div>
              <h4>Or read off an instrument</h4>
            </>
          )}
          <StepForm packet={packet} step={step.step} title={step.title} onStored={onStored} onLook={onLook} />
          {again && (
            <p>
              <Button
                kind="quiet"
                onClick={() => {
                  setAgain(false);
                  lead('h3');
                }}
              >
                Leave the finding as it is
              </Button>
            </p>
          )}
        </div>
      )}
      {step.earlier.length > 0 && (
        <details className={styles.earlier}>
          <summary>
            {step.earlier.length === 1 ? 'One earlier finding' : `${step.earlier.length} earlier findings`}
          </summary>
          {step.earlier.map((one) => (
            <FindingView key={one.id} packet={packet} finding={one} />
          ))}
        </details>
      )}
    </section>
  );
}

function How({ step, isFolded }: { step: PacketStep; isFolded: boolean }) {
  const words = (
    <>
      <p className={styles.purpose}>{step.what_for}</p>
      <CautionList cautions={step.cautions} />
      <ol className={styles.how}>
        {step.how.map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ol>
      {step.expected !== null && <p className={styles.expected}>{step.expected}</p>}
    </>
  );
  if (!isFolded) return <div className={styles.words}>{words}</div>;
  return (
    <details className={styles.earlier}>
      <summary>How it is done</summary>
      <div className={styles.words}>{words}</div>
    </details>
  );
}
