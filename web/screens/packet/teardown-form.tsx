import type { FormEvent } from 'react';
import { causeWords } from '#server/contract/packet-words.ts';
import type { Packet } from '#server/contract/packets.ts';
import type { Teardown } from '#server/contract/repair.ts';
import { causes } from '#server/contract/words.ts';
import { ChoiceLine } from '#web/ui/choice-lines.tsx';
import type { DraftFields } from '#web/ui/kept-drafts.ts';
import { SelectField } from '#web/ui/select-field.tsx';
import { optionsOf } from './packet-words.ts';
import { SectionSend } from './section-send.tsx';
import { ticked } from './step-fields.ts';
import styles from './step-form.module.css';
import { Notes } from './step-inputs.tsx';
import { usePacketDraft } from './use-packet-draft.ts';
import { useReportSection } from './use-report-section.ts';

const toDraft = ({ cause, cut_open, notes }: Teardown): DraftFields => ({
  cause: cause ?? '',
  cut_open: cut_open ? ticked : '',
  notes,
});

/** What turned out to be wrong. */
export function TeardownForm({ packet, onLook }: { packet: Packet; onLook: () => void }) {
  const { draft, keep, forget } = usePacketDraft(packet.id, 'repair-teardown');
  const section = useReportSection(packet, 'teardown');
  const fields = draft ?? toDraft(packet.report.teardown);
  const change = (patch: DraftFields) => {
    section.begin();
    keep({ ...fields, ...patch });
  };
  const drop = () => {
    forget();
    section.end();
  };
  const send = () => {
    const teardown: Teardown = {
      cause: causes.find((one) => one === fields.cause) ?? null,
      cut_open: fields.cut_open === ticked,
      notes: (fields.notes ?? '').trim(),
    };
    section.save.mutate({ teardown }, { onSuccess: drop });
  };
  const submit = (event: FormEvent) => {
    event.preventDefault();
    send();
  };
  return (
    <form className={styles.form} onSubmit={submit} aria-label="What was wrong" noValidate>
      <SelectField
        label="What turned out to be wrong"
        value={fields.cause ?? ''}
        options={[{ value: '', label: 'not known yet' }, ...optionsOf(causeWords)]}
        onChange={(cause) => change({ cause })}
      />
      <ChoiceLine
        type="checkbox"
        label="The old unit was cut open"
        checked={fields.cut_open === ticked}
        onChange={() => change({ cut_open: fields.cut_open === ticked ? '' : ticked })}
      />
      <Notes
        label="What was seen"
        value={fields.notes ?? ''}
        rows={3}
        longest={2000}
        onChange={(notes) => change({ notes })}
      />
      <SectionSend
        label="Save what was wrong"
        section={section}
        isTyped={draft !== null}
        stored={<p>{sayTeardown(packet.report.teardown)}</p>}
        onSend={send}
        onLook={onLook}
        onDrop={drop}
      />
    </form>
  );
}

export function sayTeardown({ cause, cut_open, notes }: Teardown): string {
  const what = cause === null ? 'The cause is not known' : causeWords[cause];
  return `${what}${cut_open ? '; the old unit was cut open' : ''}.${notes === '' ? '' : ` ${notes}`}`;
}
