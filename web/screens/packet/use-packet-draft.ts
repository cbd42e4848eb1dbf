import { useMemo } from 'react';
import { type DraftFields, readFieldLists, readFields, useKeptText } from '#web/ui/kept-drafts.ts';

export const draftParts = [
  'fluid',
  'road_test',
  'solenoid_current',
  'pressure',
  'pan',
  'cooler',
  'repair-parts',
  'repair-cooler',
  'repair-teardown',
  'close',
] as const;
/** A test step, a section of the repair, or the closing. */
export type DraftPart = (typeof draftParts)[number];

export const draftKey = (packet: number, part: DraftPart): string => `packet.${packet}.${part}`;

/** Half-typed fields of one form of a packet, kept on this device until the server has them. */
export function usePacketDraft(packet: number, part: DraftPart) {
  const { kept, keep, forget } = useKeptText(draftKey(packet, part));
  const draft = useMemo(() => readFields(kept), [kept]);
  return { draft, keep: (fields: DraftFields) => keep(JSON.stringify(fields)), forget };
}

/** The same for a list of things with fields each. */
export function usePacketListDraft(packet: number, part: DraftPart) {
  const { kept, keep, forget } = useKeptText(draftKey(packet, part));
  const draft = useMemo(() => readFieldLists(kept), [kept]);
  return { draft, keep: (list: readonly DraftFields[]) => keep(JSON.stringify(list)), forget };
}
