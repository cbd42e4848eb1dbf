/** Of COPY's binary format (PostgreSQL manual, COPY, Binary Format): "PGCOPY\n\377\r\n\0", no flags, no header extension. */
export const COPY_HEADER = Buffer.from('5047434f50590aff0d0a000000000000000000', 'hex');
/** Moments are microseconds since 2000. */
export const EPOCH_2000_MS = 946_684_800_000;
export const TEXT_OID = 25;
export const TWO_32 = 4_294_967_296;
