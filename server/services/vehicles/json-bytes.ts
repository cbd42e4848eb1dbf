const ZERO = 48;
const [COLON, DASH, DOT, QUOTE, TEE, ZED] = [...Buffer.from(':-."TZ')] as [
  number,
  number,
  number,
  number,
  number,
  number,
];
const DAY_MS = 86_400_000;
/** Longest number or moment that is written by digits. */
const ROOM = 32;
/** Numbers below this are written by their digits, as JSON writes them. */
const MOST = 1e14;
/** 1970 to 9999: the years that are written by four digits. */
const END_MS = Date.UTC(10_000, 0, 1);

/**
 * JSON with many numbers in it, written as bytes: the same bytes as `JSON.stringify` makes, without an object for each row
 * and a text for each number. `take` hands out what was written, and begins anew.
 */
export class JsonBytes {
  private bytes = new Uint8Array(65_536);
  private at = 0;

  /** Bytes that are JSON as they stand. */
  plain(text: Uint8Array): void {
    this.makeRoom(text.length);
    const { bytes } = this;
    let { at } = this;
    for (let i = 0; i < text.length; i++) bytes[at++] = text[i] ?? 0;
    this.at = at;
  }

  /** Anything, as `JSON.stringify` writes it. */
  value(value: unknown): void {
    this.plain(Buffer.from(JSON.stringify(value)));
  }

  /** Rounded to tenths. */
  tenth(value: number): void {
    const tenths = Math.round(value * 10);
    if (!(Math.abs(tenths) < MOST)) {
      this.value(tenths / 10);
      return;
    }
    this.makeRoom(ROOM);
    if (tenths < 0) this.bytes[this.at++] = DASH;
    const whole = Math.floor(Math.abs(tenths) / 10);
    this.digits(whole, 1);
    const rest = Math.abs(tenths) - 10 * whole;
    if (rest === 0) return;
    this.bytes[this.at++] = DOT;
    this.bytes[this.at++] = ZERO + rest;
  }

  /** Rounded to a whole number. */
  whole(value: number): void {
    const rounded = Math.round(value);
    if (!(Math.abs(rounded) < MOST)) {
      this.value(rounded);
      return;
    }
    this.makeRoom(ROOM);
    if (rounded < 0) this.bytes[this.at++] = DASH;
    this.digits(Math.abs(rounded), 1);
  }

  /** A moment as ISO 8601 in UTC, to the millisecond. */
  moment(exactMs: number): void {
    const ms = Math.trunc(exactMs);
    if (!(ms >= 0 && ms < END_MS)) {
      this.value(new Date(exactMs).toISOString());
      return;
    }
    this.makeRoom(ROOM);
    const days = Math.floor(ms / DAY_MS);
    const left = ms - days * DAY_MS;
    this.mark(QUOTE);
    this.day(days);
    this.mark(TEE);
    this.digits(Math.floor(left / 3_600_000), 2);
    this.mark(COLON);
    this.digits(Math.floor(left / 60_000) % 60, 2);
    this.mark(COLON);
    this.digits(Math.floor(left / 1000) % 60, 2);
    this.mark(DOT);
    this.digits(left % 1000, 3);
    this.mark(ZED);
    this.mark(QUOTE);
  }

  take(): Uint8Array<ArrayBuffer> {
    const taken = this.bytes.slice(0, this.at);
    this.at = 0;
    return taken;
  }

  /** The calendar from the days since 1970, counted in years that begin in March. */
  private day(days: number): void {
    const since = days + 719_468;
    const era = Math.floor(since / 146_097);
    const ofEra = since - era * 146_097;
    const year = Math.floor(
      (ofEra - Math.floor(ofEra / 1460) + Math.floor(ofEra / 36_524) - Math.floor(ofEra / 146_096)) / 365,
    );
    const ofYear = ofEra - (365 * year + Math.floor(year / 4) - Math.floor(year / 100));
    const march = Math.floor((5 * ofYear + 2) / 153);
    const month = march < 10 ? march + 3 : march - 9;
    this.digits(year + era * 400 + (month <= 2 ? 1 : 0), 4);
    this.mark(DASH);
    this.digits(month, 2);
    this.mark(DASH);
    this.digits(ofYear - Math.floor((153 * march + 2) / 5) + 1, 2);
  }

  private mark(byte: number): void {
    this.bytes[this.at++] = byte;
  }

  /** A whole number of 0 or more, with so many digits at the least. */
  private digits(value: number, least: number): void {
    let length = 1;
    for (let next = 10; value >= next; next *= 10) length++;
    length = Math.max(length, least);
    const { bytes } = this;
    let left = value;
    for (let i = this.at + length - 1; i >= this.at; i--) {
      const rest = Math.floor(left / 10);
      bytes[i] = ZERO + (left - 10 * rest);
      left = rest;
    }
    this.at += length;
  }

  private makeRoom(length: number): void {
    if (this.at + length <= this.bytes.length) return;
    const larger = new Uint8Array(2 * (this.at + length));
    larger.set(this.bytes.subarray(0, this.at));
    this.bytes = larger;
  }
}
