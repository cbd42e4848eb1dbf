import { isCanLog } from '#server/contract/can-log.ts';
import type { DeliveryFormat } from './receive-delivery.ts';

const EXTENSIONS: Record<string, DeliveryFormat> = { csv: 'csv', ndjson: 'ndjson', jsonl: 'ndjson' };

/** The format of a file by its name, else by how its text begins. A CAN log has any name, and no other file looks like one. */
export function sniffFormat(name: string, beginning: string): DeliveryFormat {
  if (isCanLog(beginning)) return 'can';
  const extension = /\.([a-z]+)(?:\.gz)?$/i.exec(name)?.[1]?.toLowerCase() ?? '';
  return EXTENSIONS[extension] ?? sniffText(beginning.replace(/^\ufeff/, '').trimStart());
}

/** One object a line is NDJSON; an array, or an object that holds one, is JSON. */
function sniffText(text: string): DeliveryFormat {
  if (text.startsWith('[')) return 'json';
  if (!text.startsWith('{')) return 'csv';
  const [first = ''] = text.split('\n', 1);
  try {
    return 'readings' in JSON.parse(first) ? 'json' : 'ndjson';
  } catch {
    return /^\{\s*"readings"\s*:|^\{\s*$/.test(first) ? 'json' : 'ndjson';
  }
}
