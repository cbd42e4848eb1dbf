import type { Mapping } from '#server/contract/mappings.ts';

/** What stays on the device until it is kept on the server: how a file is read, half made. */
export interface BringDraft {
  mapping: Mapping;
  base: string | null;
}

export const draftPlace = 'bring-file';

export const writeDraft = (draft: BringDraft): string => JSON.stringify(draft);

/** A text of another shape is no draft. */
export function readDraft(text: string | null): BringDraft | null {
  if (text === null) return null;
  try {
    const found: unknown = JSON.parse(text);
    return isDraft(found) ? found : null;
  } catch {
    return null;
  }
}

function isDraft(found: unknown): found is BringDraft {
  if (typeof found !== 'object' || found === null || !('mapping' in found) || !('base' in found))
    return false;
  const { mapping, base } = found;
  if (base !== null && typeof base !== 'string') return false;
  return (
    typeof mapping === 'object' &&
    mapping !== null &&
    'columns' in mapping &&
    Array.isArray(mapping.columns) &&
    'names' in mapping &&
    Array.isArray(mapping.names) &&
    'time' in mapping &&
    typeof mapping.time === 'object' &&
    'missing' in mapping &&
    Array.isArray(mapping.missing)
  );
}
