import { useQueryClient } from '@tanstack/react-query';
import { type ReactNode, useCallback, useEffect, useRef } from 'react';
import type { Packet } from '#server/contract/packets.ts';
import type { TestStep } from '#server/contract/words.ts';
import { usePacketAccess } from '#web/api/packet-access.ts';
import { lookAtPacketAgain } from '#web/api/use-packet.ts';
import { BeforeSection } from './before-section.tsx';
import { CautionList } from './caution-list.tsx';
import { CloseForm } from './close-form.tsx';
import { ClosingView } from './closing-view.tsx';
import { leadTo } from './lead-to.ts';
import { LeftDrafts } from './left-drafts.tsx';
import { LinksSection } from './links-section.tsx';
import { PacketHead } from './packet-head.tsx';
import styles from './packet-view.module.css';
import { RepairSection } from './repair-section.tsx';
import { SectionJumps } from './section-jumps.tsx';
import { TestsSection } from './tests-section.tsx';
import { WhyFlagged } from './why-flagged.tsx';

interface Props {
  packet: Packet;
  step: TestStep | undefined;
  onStep: (step: TestStep) => void;
}

/** One packet, whoever opened it: the evidence, and the work that it leads to. */
export function PacketView({ packet, step, onStep }: Props) {
  const client = useQueryClient();
  const isOwn = usePacketAccess().secret === null;
  const onLook = useCallback(() => void lookAtPacketAgain(client), [client]);
  // The forms are gone, whoever closed it: what was typed in them and what came of the job stand at the head.
  const wasOpen = useRef(packet.state === 'open');
  useEffect(() => {
    if (wasOpen.current && packet.state === 'closed')
      leadTo(() => document.getElementById('section-left') ?? document.getElementById('section-closing'));
    wasOpen.current = packet.state === 'open';
  }, [packet.state]);
  const mayWrite = packet.may_report && packet.state === 'open';
  return (
    <div className={styles.page}>
      <PacketHead packet={packet} />
      {!mayWrite && <LeftDrafts packet={packet} />}
      {packet.closing !== null && (
        <Section name="closing" title="What came of it">
          <ClosingView packet={packet} closing={packet.closing} />
        </Section>
      )}
      <SectionJumps
        sections={[
          ['why', 'Why'],
          ['before', 'Before'],
          ['tests', 'Tests'],
          ['repair', 'Repair'],
          ...(mayWrite ? ([['close', 'Close']] as const) : []),
        ]}
      />
      <div className={styles.columns}>
        <div className={styles.column} data-kind="evidence">
          <Section name="why" title="Why flagged">
            <WhyFlagged packet={packet} />
          </Section>
          <Section name="before" title="Before">
            <BeforeSection packet={packet} />
          </Section>
        </div>
        <div className={styles.column} data-kind="work">
          <Section name="cautions" title="Cautions">
            <CautionList cautions={packet.cautions} />
          </Section>
          <Section name="tests" title="Tests">
            <TestsSection packet={packet} step={step} onStep={onStep} onLook={onLook} />
          </Section>
          <Section name="repair" title="Repair">
            <RepairSection packet={packet} onLook={onLook} />
          </Section>
          {mayWrite && (
            <Section name="close" title="Close">
              <CloseForm packet={packet} onLook={onLook} />
            </Section>
          )}
          {isOwn && packet.may_share && (
            <Section name="links" title="Links">
              <LinksSection packet={packet} />
            </Section>
          )}
        </div>
      </div>
      <p className={styles.caution}>
        Slipdrift advises; it never clears a vehicle as safe to drive. The maker’s service information, local
        codes and a licensed technician decide.
      </p>
    </div>
  );
}

const Section = ({ name, title, children }: { name: string; title: string; children: ReactNode }) => (
  <section className={styles.section} aria-labelledby={`section-${name}`} data-section={name}>
    <h2 id={`section-${name}`} tabIndex={-1}>
      {title}
    </h2>
    {children}
  </section>
);
