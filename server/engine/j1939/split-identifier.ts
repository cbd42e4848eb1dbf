/** PDU formats below this name a destination; from it on the PDU specific byte belongs to the group. */
const FIRST_BROADCAST_FORMAT = 0xf0;

export interface Identifier {
  priority: number;
  pgn: number;
  source: number;
  /** null where the group goes to everybody */
  destination: number | null;
}

/**
 * Parts of a 29-bit CAN identifier of SAE J1939.
 *
 * priority = id >> 26; PF = (id >> 16) & FF; PS = (id >> 8) & FF; source = id & FF; with the two page bits p = (id >> 24) & 3
 * the group is p * 65536 + PF * 256 + (PF < F0 ? 0 : PS).
 *
 * @param id identifier, 0 to 2^29 - 1
 * @returns priority, parameter group number, source address, destination address or null
 * Source: SAE J1939-21, section 5.2, from transcriptions that agree. Edges: PF below F0 makes PS the destination, which may
 * be FF, everybody. Errors: none; higher bits are left out.
 * @example splitIdentifier(0x18fef803) // { priority: 6, pgn: 65272, source: 3, destination: null }
 */
export function splitIdentifier(id: number): Identifier {
  const format = (id >>> 16) & 0xff;
  const specific = (id >>> 8) & 0xff;
  const page = (id >>> 24) & 3;
  const isBroadcast = format >= FIRST_BROADCAST_FORMAT;
  return {
    priority: (id >>> 26) & 7,
    pgn: (page << 16) | (format << 8) | (isBroadcast ? specific : 0),
    source: id & 0xff,
    destination: isBroadcast ? null : specific,
  };
}
