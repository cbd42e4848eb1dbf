import { findLineKind, type LineKind } from './line-kinds.ts';
import { createFrameParser, type Frame } from './parse-frame.ts';

const LF = 10;
/** A line of either form has at most some 250 bytes. */
const LINE_LIMIT_BYTES = 1024;
/** So much of the first of each kind is shown. */
const RAW_BYTES = 200;

export interface LineSink {
  takeFrame(frame: Frame): void;
  takeOther(kind: LineKind, line: number, raw: string): void;
}

/** Cuts a log into lines and hands on each frame, in the same object every time: nothing is made for a line. */
export function createLineScanner(sink: LineSink, firstOfKind: (kind: LineKind) => boolean) {
  const parser = createFrameParser();
  const { frame } = parser;
  /** the beginning of a line that the next chunk goes on with, and room for its end */
  const held = Buffer.alloc(LINE_LIMIT_BYTES + 1);
  let heldBytes = 0;
  let isTooLong = false;
  let line = 0;

  /** Lines of `bytes` from `from` on; the last byte before `to` is a line feed. */
  const scan = (bytes: Buffer, from: number, to: number): void => {
    let at = from;
    while (at < to) {
      line += 1;
      const end = parser.parse(bytes, at);
      if (end >= 0 && end - at <= LINE_LIMIT_BYTES) {
        frame.line = line;
        sink.takeFrame(frame);
        at = end + 1;
        continue;
      }
      const lineEnd = bytes.indexOf(LF, at);
      takeOther(bytes.subarray(at, lineEnd), end >= 0 ? 'broken' : parser.fault());
      at = lineEnd + 1;
    }
  };

  const takeOther = (bytes: Buffer, found: LineKind): void => {
    if (bytes.length > LINE_LIMIT_BYTES) tell('broken', bytes);
    else tell(found === 'broken' ? findLineKind(bytes) : found, bytes);
  };

  const tell = (kind: LineKind, bytes: Buffer): void =>
    sink.takeOther(kind, line, firstOfKind(kind) ? bytes.toString('latin1', 0, RAW_BYTES).trimEnd() : '');

  const hold = (bytes: Buffer): void => {
    if (isTooLong) return;
    isTooLong = heldBytes + bytes.length > LINE_LIMIT_BYTES;
    heldBytes += bytes.copy(held, heldBytes, 0, LINE_LIMIT_BYTES - heldBytes);
  };

  const finishHeld = (): void => {
    if (isTooLong) {
      line += 1;
      tell('broken', held.subarray(0, heldBytes));
    } else {
      held[heldBytes] = LF;
      scan(held, 0, heldBytes + 1);
    }
    heldBytes = 0;
    isTooLong = false;
  };

  return {
    push(chunk: Buffer): void {
      const last = chunk.lastIndexOf(LF);
      if (last < 0) {
        hold(chunk);
        return;
      }
      let from = 0;
      if (heldBytes > 0) {
        from = chunk.indexOf(LF) + 1;
        hold(chunk.subarray(0, from - 1));
        finishHeld();
      }
      scan(chunk, from, last + 1);
      hold(chunk.subarray(last + 1));
    },
    /** `whole`: the log ended here. Else it was cut off, and half a frame may look like a frame. */
    end(whole: boolean): void {
      if (heldBytes === 0) return;
      if (whole) {
        finishHeld();
        return;
      }
      line += 1;
      tell('cut_off', held.subarray(0, heldBytes));
      heldBytes = 0;
    },
    lines: (): number => line,
    busNames: parser.busNames,
  };
}
