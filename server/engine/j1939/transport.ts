/** SAE J1939-21, section 5.10: messages longer than a frame. */
export const MOST_MESSAGE_BYTES = 1785;
export const PACKET_BYTES = 7;
/** T1, the longest pause between two packets. */
export const PACKET_PAUSE_US = 750_000;
/** Far more than the addresses of one bus ever hold open at a time. */
export const MOST_SESSIONS = 1024;
/** Control byte of TP.CM. */
export const control = {
  request: 0x10,
  clear: 0x11,
  acknowledge: 0x13,
  announce: 0x20,
  abort: 0xff,
} as const;

export interface TransportSession {
  pgn: number;
  bytes: number;
  packets: number;
  /** sequence number that comes next */
  next: number;
  data: Uint8Array;
  lastUs: number;
}

/** Sessions that are open, by bus, source and destination together. */
export type TransportSessions = Map<number, TransportSession>;

/** A frame of TP.CM or TP.DT: who speaks to whom, and when. */
export interface TransportFrame {
  pgn: number;
  bus: number;
  source: number;
  destination: number;
  data: Uint8Array;
  length: number;
  atUs: number;
}

export interface TransportMessage {
  pgn: number;
  data: Uint8Array;
}

/** Why a session was dropped, and its message lost. */
export type TransportLoss = 'gap' | 'pause' | 'abort' | 'size' | 'replaced' | 'crowded';

export interface TransportAnswer {
  /** a message that is whole now */
  message: TransportMessage | null;
  lost: TransportLoss | null;
}
