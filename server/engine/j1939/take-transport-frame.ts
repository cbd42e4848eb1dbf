import { groups } from './signals.ts';
import {
  control,
  MOST_MESSAGE_BYTES,
  MOST_SESSIONS,
  PACKET_BYTES,
  PACKET_PAUSE_US,
  type TransportAnswer,
  type TransportFrame,
  type TransportLoss,
  type TransportSession,
  type TransportSessions,
} from './transport.ts';

const nothing: TransportAnswer = { message: null, lost: null };
const loses = (lost: TransportLoss | null): TransportAnswer =>
  lost === null ? nothing : { ...nothing, lost };

/**
 * Joins the packets of long messages, as somebody who listens on the bus.
 *
 * TP.CM: byte 1 says what it is (20 hex announces to everybody, 10 asks to send to one, 11 lets go on from packet byte 3, 13
 * has all, FF breaks off); bytes 2-3 bytes, byte 4 packets, bytes 6-8 the group. TP.DT: byte 1 the number of the packet from
 * 1, then 7 bytes, the last filled up with FF. packets = ceil(bytes / 7).
 *
 * @param sessions open sessions by bus, source and destination; brought up to date
 * @param frame    a frame of group TP.CM or TP.DT
 * @returns a message that is whole with this frame, and why a session was dropped by it; null each where there is none
 * Source: SAE J1939-21, section 5.10, from transcriptions that agree. Edges: a session is dropped by a packet that does not
 * follow, a pause of more than 750 ms, its breaking off by either side, a new one of the same two, and where 1,024 others
 * began since; an announcement of more than 1,785 bytes, or of packets that do not fit its bytes, opens none. The same
 * packet twice counts once; packets without a session are left out. Errors: none.
 * @example takeTransportFrame(new Map(), { pgn: 60416, bus: 0, source: 3, destination: 255, atUs: 0, length: 8, data })
 */
export function takeTransportFrame(sessions: TransportSessions, frame: TransportFrame): TransportAnswer {
  if (frame.pgn === groups.transportData) return takePacket(sessions, frame);
  if (frame.length < 8) return nothing;
  switch (frame.data[0]) {
    case control.announce:
    case control.request:
      return loses(open(sessions, frame));
    case control.clear:
      return loses(goOn(sessions, frame));
    case control.acknowledge:
      return loses(sessions.delete(keyOf(frame, true)) ? 'gap' : null);
    case control.abort: {
      const own = sessions.delete(keyOf(frame, false));
      return loses(sessions.delete(keyOf(frame, true)) || own ? 'abort' : null);
    }
    default:
      return nothing;
  }
}

/** `answered`: of the session that the other side holds with this one. */
const keyOf = ({ bus, source, destination }: TransportFrame, answered: boolean): number =>
  bus * 65_536 + (answered ? destination * 256 + source : source * 256 + destination);

const isLate = (session: TransportSession, atUs: number): boolean => atUs - session.lastUs > PACKET_PAUSE_US;

function open(sessions: TransportSessions, frame: TransportFrame): TransportLoss | null {
  const { data, atUs } = frame;
  const key = keyOf(frame, false);
  const before = sessions.get(key);
  sessions.delete(key);
  let lost: TransportLoss | null = null;
  if (before !== undefined) lost = isLate(before, atUs) ? 'pause' : 'replaced';
  const bytes = (data[1] ?? 0) | ((data[2] ?? 0) << 8);
  const packets = data[3] ?? 0;
  if (bytes > MOST_MESSAGE_BYTES || bytes <= PACKET_BYTES + 1 || packets !== Math.ceil(bytes / PACKET_BYTES))
    return 'size';
  const [oldest] = sessions.size < MOST_SESSIONS ? [] : sessions.keys();
  if (oldest !== undefined) {
    sessions.delete(oldest);
    lost = 'crowded';
  }
  const pgn = (data[5] ?? 0) | ((data[6] ?? 0) << 8) | ((data[7] ?? 0) << 16);
  sessions.set(key, { pgn, bytes, packets, next: 1, data: new Uint8Array(bytes), lastUs: atUs });
  return lost;
}

/** The receiver asks for packets, some of them perhaps again. */
function goOn(sessions: TransportSessions, frame: TransportFrame): TransportLoss | null {
  const key = keyOf(frame, true);
  const session = sessions.get(key);
  if (session === undefined) return null;
  const [, count = 0, from = 0] = frame.data;
  if (isLate(session, frame.atUs)) return drop(sessions, key, 'pause');
  session.lastUs = frame.atUs;
  if (count === 0) return null;
  if (from > session.next) return drop(sessions, key, 'gap');
  session.next = Math.max(1, from);
  return null;
}

function takePacket(sessions: TransportSessions, frame: TransportFrame): TransportAnswer {
  const key = keyOf(frame, false);
  const session = sessions.get(key);
  if (session === undefined) return nothing;
  if (isLate(session, frame.atUs)) return loses(drop(sessions, key, 'pause'));
  const sequence = frame.length > 0 ? (frame.data[0] ?? 0) : 0;
  if (sequence === session.next - 1 && sequence > 0) return nothing;
  if (sequence !== session.next) return loses(drop(sessions, key, 'gap'));
  const from = (sequence - 1) * PACKET_BYTES;
  const wanted = Math.min(PACKET_BYTES, session.bytes - from);
  if (frame.length < 1 + wanted) return loses(drop(sessions, key, 'size'));
  session.data.set(frame.data.subarray(1, 1 + wanted), from);
  session.next += 1;
  session.lastUs = frame.atUs;
  if (sequence < session.packets) return nothing;
  sessions.delete(key);
  return { message: { pgn: session.pgn, data: session.data }, lost: null };
}

function drop(sessions: TransportSessions, key: number, lost: TransportLoss): TransportLoss {
  sessions.delete(key);
  return lost;
}
