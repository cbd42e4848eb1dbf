import type { Packet } from '#server/contract/packets.ts';
import { usePacketAccess } from '#web/api/packet-access.ts';
import { type PaperSize, pdfPath, useSavePdf } from '#web/api/use-packet-files.ts';
import { useWordUnits } from '#web/api/use-word-units.ts';
import { Button } from '#web/ui/button.tsx';
import { ProblemNote } from '#web/ui/problem-note.tsx';
import styles from './paper-buttons.module.css';

const sizes: readonly { size: PaperSize; label: string }[] = [
  { size: 'a4', label: 'PDF, A4' },
  { size: 'letter', label: 'PDF, Letter' },
];

/** The packet on paper: a file in either size, or the page as it is. */
export function PaperButtons({ packet }: { packet: Packet }) {
  const isOwn = usePacketAccess().secret === null;
  const units = useWordUnits();
  const save = useSavePdf(packet.id, `packet-${packet.id}.pdf`);
  return (
    <>
      {sizes.map(({ size, label }) =>
        isOwn ? (
          <a key={size} className={styles.paper} href={`/api${pdfPath(packet.id, size, units)}`}>
            {label}
          </a>
        ) : (
          <Button key={size} disabled={save.isPending} onClick={() => save.mutate({ size, units })}>
            {label}
          </Button>
        ),
      )}
      <Button onClick={() => window.print()}>Print</Button>
      {save.isError && <ProblemNote error={save.error} />}
    </>
  );
}
