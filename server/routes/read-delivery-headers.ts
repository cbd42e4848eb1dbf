import { CAN_LOG_TYPE } from '#server/contract/can-log.ts';
import { SlipdriftError } from '#server/errors.ts';
import type { DeliveryFormat } from '#server/services/intake/receive-delivery.ts';

const FORMATS: Record<string, DeliveryFormat> = {
  'application/json': 'json',
  'application/x-ndjson': 'ndjson',
  'text/csv': 'csv',
  [CAN_LOG_TYPE]: 'can',
};
/** The format that a content type names; null where it names none that is understood. */
export const formatOf = (contentType: string): DeliveryFormat | null =>
  FORMATS[contentType.split(';')[0]?.trim().toLowerCase() ?? ''] ?? null;

const UTF_8 = /^(utf-?8|us-ascii)$/i;

/**
 * What the headers of a delivery say of its body; a body that is not understood is declined before it is read. Where a
 * mapping says the encoding, the charset of the headers does not count.
 */
export function readDeliveryHeaders(
  header: (name: string) => string | undefined,
  { anyCharset }: { anyCharset: boolean },
) {
  const contentType = header('Content-Type') ?? '';
  const [media = '', ...parameters] = contentType.split(';').map((part) => part.trim());
  const format = FORMATS[media.toLowerCase()];
  const accepted = `Send ${Object.keys(FORMATS).join(', ')}, each also with Content-Encoding: gzip. Nothing was stored.`;
  if (format === undefined)
    throw declined('Content-Type', media === '' ? 'is missing' : `${media} is not understood`, accepted);
  for (const parameter of parameters) {
    const charset = /^charset="?([^"]*)"?$/i.exec(parameter)?.[1];
    if (charset !== undefined && !UTF_8.test(charset) && !anyCharset)
      throw declined('Content-Type', `has the charset ${charset}, but only UTF-8 is understood`, accepted);
  }
  const encoding = (header('Content-Encoding') ?? 'identity').trim().toLowerCase();
  if (!['identity', 'gzip', 'x-gzip'].includes(encoding))
    throw declined('Content-Encoding', `${encoding} is not understood`, accepted);
  return {
    format,
    contentType: contentType.slice(0, 200),
    gzip: encoding !== 'identity',
    idempotencyKey: header('Idempotency-Key') ?? null,
  };
}

function declined(field: string, message: string, accepted: string): SlipdriftError {
  return new SlipdriftError('unsupported_content_type', `${field} ${message}. ${accepted}`, {
    errors: [{ field, message }],
  });
}
