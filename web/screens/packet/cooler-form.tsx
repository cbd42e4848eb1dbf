import { type FormEvent, useRef, useState } from 'react';
import type { Packet } from '#server/contract/packets.ts';
import type { CoolerRecord } from '#server/contract/repair.ts';
import { ChoiceLine } from '#web/ui/choice-lines.tsx';
import type { DraftFields } from '#web/ui/kept-drafts.ts';
import { RadioLines } from '#web/ui/radio-lines.tsx';
import { TextField } from '#web/ui/text-field.tsx';
import { readCooler, toCoolerDraft } from './cooler-draft.ts';
import { focusFault } from './focus-fault.ts';
import { SectionSend } from './section-send.tsx';
import { ticked } from './step-fields.ts';
import styles from './step-form.module.css';
import { Notes } from './step-inputs.tsx';
import { usePacketDraft } from './use-packet-draft.ts';
import { useReportSection } from './use-report-section.ts';

/** What was done about debris in cooler and lines. */
export function CoolerForm({ packet, onLook }: { packet: Packet; onLook: () => void }) {
  const { draft, keep, forget } = usePacketDraft(packet.id, 'repair-cooler');
  const section = useReportSection(packet, 'cooler');
  const form = useRef<HTMLFormElement>(null);
  const [faults, setFaults] = useState<DraftFields>({});
  const fields = draft ?? toCoolerDraft(packet.report.cooler);
  const change = (patch: DraftFields) => {
    section.begin();
    setFaults({});
    keep({ ...fields, ...patch });
  };
  const drop = () => {
    forget();
    section.end();
    setFaults({});
  };
  const send = () => {
    const { cooler, faults: found } = readCooler(fields);
    setFaults(found ?? {});
    if (cooler === undefined) return focusFault(form.current);
    section.save.mutate({ cooler }, { onSuccess: drop });
  };
  const submit = (event: FormEvent) => {
    event.preventDefault();
    send();
  };
  const figure = (name: string, label: string, hint?: string) => (
    <TextField
      label={label}
      inputMode="decimal"
      autoComplete="off"
      value={fields[name] ?? ''}
      hint={hint}
      error={faults[name]}
      onChange={(text) => change({ [name]: text })}
    />
  );
  const tick = (name: string, label: string) => (
    <ChoiceLine
      type="checkbox"
      label={label}
      checked={fields[name] === ticked}
      onChange={() => change({ [name]: fields[name] === ticked ? '' : ticked })}
    />
  );
  return (
    <form ref={form} className={styles.form} onSubmit={submit} aria-label="Cooler and lines" noValidate>
      <RadioLines
        legend="Cooler and lines"
        value={fields.done ?? ''}
        options={[
          { value: 'flushed', label: 'Flushed' },
          { value: 'replaced', label: 'Replaced' },
          { value: 'not_done', label: 'Nothing done' },
        ]}
        error={faults.done}
        onChange={(done) => change({ done })}
      />
      {fields.done === 'flushed' && (
        <>
          {figure('minutes', 'For how long, min')}
          <RadioLines
            legend="How"
            value={fields.method ?? ''}
            options={[
              { value: 'pumped_through_filter', label: 'Pumped through a filter' },
              { value: 'compressed_air', label: 'Compressed air', words: 'Alone it does not count.' },
              { value: 'spray_can', label: 'Spray can', words: 'It does not count.' },
              { value: 'other', label: 'Another way', words: 'Say which in the notes.' },
            ]}
            onChange={(method) => change({ method })}
          />
          {tick('both_directions', 'In both directions')}
          {tick('filter_clean', 'The catch filter stayed clean at the end')}
        </>
      )}
      {figure('flow_before_l_min', 'Flow before, L/min', 'from the return line, engine idling')}
      {figure('flow_after_l_min', 'Flow after, L/min')}
      <Notes label="Notes" value={fields.notes ?? ''} onChange={(notes) => change({ notes })} />
      <SectionSend
        label="Save the cooler record"
        section={section}
        isTyped={draft !== null}
        stored={<p>{sayCooler(packet.report.cooler)}</p>}
        onSend={send}
        onLook={onLook}
        onDrop={drop}
      />
    </form>
  );
}

const methodWords = {
  pumped_through_filter: 'pumped through a filter',
  compressed_air: 'with compressed air',
  spray_can: 'with a spray can',
  other: 'in another way',
} as const;

export function sayCooler(record: CoolerRecord | null): string {
  if (record === null) return 'Nothing is recorded.';
  const { done, minutes, method, both_directions, filter_clean, flow_before_l_min, flow_after_l_min, notes } =
    record;
  const flow = [
    ...(flow_before_l_min === null ? [] : [`flow before ${flow_before_l_min} L/min`]),
    ...(flow_after_l_min === null ? [] : [`flow after ${flow_after_l_min} L/min`]),
  ];
  const what =
    done === 'replaced'
      ? ['Replaced']
      : done === 'not_done'
        ? ['Nothing done']
        : [
            `Flushed${minutes === null ? '' : ` for ${minutes} min`}`,
            ...(method === null ? [] : [methodWords[method]]),
            ...(both_directions ? ['in both directions'] : []),
            ...(filter_clean ? ['catch filter clean at the end'] : []),
          ];
  return `${[...what, ...flow].join(', ')}.${notes === '' ? '' : ` ${notes}`}`;
}
