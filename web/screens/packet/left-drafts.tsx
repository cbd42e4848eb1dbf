import type { Packet } from '#server/contract/packets.ts';
import { Button } from '#web/ui/button.tsx';
import { readFieldLists, readFields, useKeptNames, useKeptText } from '#web/ui/kept-drafts.ts';
import styles from './left-drafts.module.css';
import { stepNames } from './packet-words.ts';
import { type DraftPart, draftKey, draftParts } from './use-packet-draft.ts';

/** What was typed on this device before somebody else closed the job: not sent, and not lost either. */
export function LeftDrafts({ packet }: { packet: Packet }) {
  const names = useKeptNames(draftParts.map((part) => draftKey(packet.id, part)));
  const left = draftParts.filter((part) => names.includes(draftKey(packet.id, part)));
  if (left.length === 0) return null;
  return (
    <section id="section-left" tabIndex={-1} className={styles.left} aria-label="Not sent">
      <p>
        <strong>Typed on this device and not sent.</strong>{' '}
        {packet.state === 'closed' ? 'The job was closed before.' : 'You may not report here.'} Take from it
        what is needed.
      </p>
      {left.map((part) => (
        <LeftDraft key={part} packet={packet.id} part={part} />
      ))}
    </section>
  );
}

const names: Partial<Record<DraftPart, string>> = {
  ...stepNames,
  'repair-parts': 'Parts',
  'repair-cooler': 'Cooler and lines',
  'repair-teardown': 'What was wrong',
  close: 'Closing',
};

function LeftDraft({ packet, part }: { packet: number; part: DraftPart }) {
  const { kept, forget } = useKeptText(draftKey(packet, part));
  const fields = readFields(kept);
  const lists = fields === null ? readFieldLists(kept) : [fields];
  const lines = (lists ?? []).map((one) =>
    Object.entries(one)
      .filter(([, value]) => value !== '')
      .map(
        ([name, value]) =>
          `${name.replaceAll('_', ' ')}: ${/^[a-z_]+$/.test(value) ? value.replaceAll('_', ' ') : value}`,
      )
      .join(', '),
  );
  return (
    <div className={styles.draft}>
      <p>
        <strong>{names[part]}</strong>
      </p>
      {lines.map((line) => (
        <p key={line}>{line}</p>
      ))}
      <Button kind="quiet" onClick={forget}>
        Forget this
      </Button>
    </div>
  );
}
