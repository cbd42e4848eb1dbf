import { PACKET_PAUSE_US, type TransportSessions } from './transport.ts';

/**
 * Ends all sessions where the log does.
 *
 * lost = number of sessions with atUs - last > 750 ms.
 *
 * @param sessions open sessions; empty afterwards
 * @param atUs     time of the last frame, microseconds
 * @returns how many had waited for a packet too long; the others were only cut off by the end
 * Source: SAE J1939-21, section 5.10, from transcriptions that agree. Edges: none open, none lost. Errors: none.
 * @example endSessions(new Map(), 0) // 0
 */
export function endSessions(sessions: TransportSessions, atUs: number): number {
  let lost = 0;
  for (const { lastUs } of sessions.values()) if (atUs - lastUs > PACKET_PAUSE_US) lost += 1;
  sessions.clear();
  return lost;
}
