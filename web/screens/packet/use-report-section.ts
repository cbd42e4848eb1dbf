import type { Packet } from '#server/contract/packets.ts';
import type { ReportContent } from '#server/contract/repair.ts';
import { useSaveReport } from '#web/api/use-packet.ts';
import { useKeptText } from '#web/ui/kept-drafts.ts';
import { draftKey } from './use-packet-draft.ts';

export type ReportSection = keyof ReportContent;

/**
 * Sends one section of the report with the others as they are stored. It notes what was stored when the typing began: where
 * that is another now, somebody else changed the same section, and nothing is sent over it unseen.
 */
export function useReportSection(packet: Packet, section: ReportSection) {
  const base = useKeptText(`${draftKey(packet.id, `repair-${section}`)}.base`);
  const stored = JSON.stringify(packet.report[section]);
  const save = useSaveReport(packet);
  return {
    save,
    isOther: base.kept !== null && base.kept !== stored,
    begin: () => {
      if (base.kept === null) base.keep(stored);
    },
    /** what is stored now was seen, and may be replaced */
    takeSeen: () => base.keep(stored),
    /** nothing typed is left: it was stored, or dropped */
    end: () => {
      base.forget();
      save.reset();
    },
  };
}
