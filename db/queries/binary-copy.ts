/** "PGCOPY\n\377\r\n\0", no flags, no header extension (PostgreSQL manual, COPY, Binary Format). */
export const COPY_HEADER = Buffer.from('5047434f50590aff0d0a000000000000000000', 'hex');
export const TEXT_OID = 25;
export const EPOCH_2000_MS = 946_684_800_000;
const TWO_32 = 4_294_967_296;

/**
 * Writes rows in COPY's binary format: numbers go as they are, which spares both ends turning them into text and back,
 * a tenth of the time here. Each call writes the next column; `row` begins a row and says how many follow.
 */
export function createBinaryCopy(expectedBytes: number) {
  let buffer = Buffer.allocUnsafe(Math.max(expectedBytes, 4096));
  let view = new DataView(buffer.buffer, buffer.byteOffset, buffer.length);
  let at = COPY_HEADER.copy(buffer);

  const ensure = (bytes: number): void => {
    if (at + bytes <= buffer.length) return;
    const larger = Buffer.allocUnsafe(Math.max(buffer.length * 2, at + bytes));
    buffer.copy(larger, 0, 0, at);
    buffer = larger;
    view = new DataView(buffer.buffer, buffer.byteOffset, buffer.length);
  };
  const begin = (bytes: number): void => {
    ensure(bytes + 4);
    view.setInt32(at, bytes);
    at += 4;
  };
  const none = (): void => {
    ensure(4);
    view.setInt32(at, -1);
    at += 4;
  };
  const raw32 = (value: number): void => {
    view.setInt32(at, value);
    at += 4;
  };

  return {
    row(columns: number): void {
      ensure(2);
      view.setInt16(at, columns);
      at += 2;
    },
    integer(value: number): void {
      begin(4);
      raw32(value);
    },
    smallint(value: number | null): void {
      if (value === null) {
        none();
        return;
      }
      begin(2);
      view.setInt16(at, value);
      at += 2;
    },
    real(value: number | null): void {
      if (value === null) {
        none();
        return;
      }
      begin(4);
      view.setFloat32(at, value);
      at += 4;
    },
    boolean(value: boolean | null): void {
      if (value === null) {
        none();
        return;
      }
      begin(1);
      view.setInt8(at, value ? 1 : 0);
      at += 1;
    },
    /** Microseconds since 2000, in two halves. */
    instant(value: Date): void {
      const micros = (value.getTime() - EPOCH_2000_MS) * 1000;
      const high = Math.floor(micros / TWO_32);
      begin(8);
      raw32(high);
      view.setUint32(at, micros - high * TWO_32);
      at += 4;
    },
    texts(values: readonly string[] | null): void {
      if (values === null) {
        none();
        return;
      }
      const items = values.map((value) => Buffer.from(value));
      begin(items.reduce((sum, item) => sum + 4 + item.length, 20));
      for (const head of [1, 0, TEXT_OID, items.length, 1]) raw32(head);
      for (const item of items) {
        raw32(item.length);
        at += item.copy(buffer, at);
      }
    },
    finish(): Buffer {
      ensure(2);
      view.setInt16(at, -1);
      return buffer.subarray(0, at + 2);
    },
  };
}
