import { type FormEvent, useRef, useState } from 'react';
import { coreWords, partWords } from '#server/contract/packet-words.ts';
import type { Packet } from '#server/contract/packets.ts';
import type { Part } from '#server/contract/repair.ts';
import { formatOdometer } from '#web/format/format-km.ts';
import { formatPrice } from '#web/format/format-money.ts';
import type { Units } from '#web/format/units.ts';
import { Button } from '#web/ui/button.tsx';
import type { DraftFields } from '#web/ui/kept-drafts.ts';
import { useUnits } from '#web/ui/use-units.ts';
import { focusFault } from './focus-fault.ts';
import { emptyPart, readPart, toPartDraft } from './part-draft.ts';
import { PartFields } from './part-fields.tsx';
import styles from './parts-form.module.css';
import { SectionSend } from './section-send.tsx';
import { usePacketListDraft } from './use-packet-draft.ts';
import { useReportSection } from './use-report-section.ts';

const mostParts = 40;

/** What was replaced, saved as the work goes on. */
export function PartsForm({ packet, onLook }: { packet: Packet; onLook: () => void }) {
  const units = useUnits();
  const { draft, keep, forget } = usePacketListDraft(packet.id, 'repair-parts');
  const section = useReportSection(packet, 'parts');
  const form = useRef<HTMLFormElement>(null);
  const [faults, setFaults] = useState<readonly DraftFields[]>([]);
  const parts = draft ?? packet.report.parts.map((part) => toPartDraft(part, units));
  const change = (next: readonly DraftFields[]) => {
    section.begin();
    setFaults([]);
    keep(next);
  };
  const add = () => {
    change([...parts, emptyPart]);
    requestAnimationFrame(() =>
      form.current?.querySelector<HTMLElement>('[data-part]:last-of-type select')?.focus(),
    );
  };
  const drop = () => {
    forget();
    section.end();
    setFaults([]);
  };
  const send = () => {
    const read = parts.map((part) => readPart(part, units));
    const wrong = read.map(({ faults: found }) => found ?? {});
    setFaults(wrong);
    if (read.some(({ faults: found }) => found !== undefined)) return focusFault(form.current);
    const list = read.flatMap(({ part }) => (part === undefined ? [] : [part]));
    section.save.mutate({ parts: list }, { onSuccess: drop });
  };
  const submit = (event: FormEvent) => {
    event.preventDefault();
    send();
  };
  return (
    <form ref={form} className={styles.form} onSubmit={submit} aria-label="Parts" noValidate>
      {parts.length === 0 && <p className={styles.soft}>Nothing is noted as replaced.</p>}
      {parts.map((part, i) => (
        <PartFields
          // biome-ignore lint/suspicious/noArrayIndexKey: a part has no name of its own before it is typed
          key={i}
          number={i + 1}
          fields={part}
          faults={faults[i] ?? {}}
          guide={packet.part_guide}
          onChange={(patch) => change(parts.map((one, at) => (at === i ? { ...one, ...patch } : one)))}
          onRemove={() => change(parts.filter((_, at) => at !== i))}
        />
      ))}
      {parts.length < mostParts && (
        <p className={styles.add}>
          <Button onClick={add}>Add a part</Button>
        </p>
      )}
      <SectionSend
        label="Save the parts"
        section={section}
        isTyped={draft !== null}
        stored={<PartLines parts={packet.report.parts} />}
        onSend={send}
        onLook={onLook}
        onDrop={drop}
      />
    </form>
  );
}

/** Parts as they are stored. */
export function PartLines({ parts }: { parts: readonly Part[] }) {
  const units = useUnits();
  if (parts.length === 0) return <p className={styles.soft}>Nothing was replaced.</p>;
  return (
    <ul className={styles.lines}>
      {parts.map((part, i) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: two may be alike
        <li key={i}>{sayPart(part, units)}</li>
      ))}
    </ul>
  );
}

function sayPart(
  { kind, what, source, supplier, run_km, price, core_deposit, core }: Part,
  units: Units,
): string {
  const parts = [
    `${partWords[kind]}${what === '' ? '' : ` ${what}`}, ${source}`,
    ...(supplier === '' ? [] : [`from ${supplier}`]),
    ...(run_km === null ? [] : [`had run ${formatOdometer(run_km, units)} before`]),
    ...(price === null ? [] : [`price ${formatPrice(price)}`]),
    ...(core_deposit === null ? [] : [`deposit ${formatPrice(core_deposit)}`]),
    ...(core === 'none' ? [] : [`old unit ${coreWords[core]}`]),
  ];
  return parts.join(', ');
}
