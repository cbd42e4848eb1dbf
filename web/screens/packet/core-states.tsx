import { coreWords, partWords } from '#server/contract/packet-words.ts';
import type { Packet } from '#server/contract/packets.ts';
import type { CoreState } from '#server/contract/words.ts';
import { useNoteCore } from '#web/api/use-packet.ts';
import { RadioLines } from '#web/ui/radio-lines.tsx';
import { optionsOf } from './packet-words.ts';
import styles from './repair-section.module.css';
import { SendProblem } from './send-problem.tsx';

const states: readonly CoreState[] = ['to_return', 'returned', 'kept'];
const options = optionsOf(coreWords).filter(({ value }) => states.includes(value));

/** What became of old units is often known only after the job was closed. */
export function CoreStates({ packet, onLook }: { packet: Packet; onLook: () => void }) {
  const note = useNoteCore(packet.id);
  if (!packet.may_share) return null;
  const held = packet.report.parts.flatMap((part, i) => (part.core === 'none' ? [] : [{ part, i }]));
  return held.map(({ part, i }) => (
    <div key={i} className={styles.part}>
      <RadioLines
        legend={`Old unit: ${partWords[part.kind]}${part.what === '' ? '' : ` ${part.what}`}`}
        value={note.isPending && note.variables.part === i ? note.variables.core : part.core}
        options={options}
        onChange={(core) => note.mutate({ part: i, core })}
      />
      {note.isError && note.variables.part === i && (
        <SendProblem
          error={note.error}
          what="What you chose"
          onAgain={() => note.mutate(note.variables)}
          onLook={onLook}
        />
      )}
    </div>
  ));
}
