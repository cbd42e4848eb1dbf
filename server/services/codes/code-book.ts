import type { Database } from '#db/client.ts';
import { troubleCodes } from '#db/schema/fleet.ts';
import { type SpelledCode, spellCode } from '#server/contract/spell-code.ts';

export interface ListedCode {
  meaning: string;
  counts: boolean;
}

/** The listed codes by their canonical form. */
export type CodeBook = ReadonlyMap<string, ListedCode>;

export async function readCodeBook(db: Database): Promise<CodeBook> {
  const { code, meaning, counts } = troubleCodes;
  const rows = await db.select({ code, meaning, counts }).from(troubleCodes);
  return new Map(rows.map((row) => [row.code, { meaning: row.meaning, counts: row.counts }]));
}

/** What is listed for a code: itself before its family. */
export function findListed(book: CodeBook, { code, family }: SpelledCode): ListedCode | null {
  return book.get(code) ?? (family === null ? null : (book.get(family) ?? null));
}

/** 'P0741 (converter clutch stuck off)'; a code that is not listed stands alone, as it came if nobody can spell it. */
export function nameCode(book: CodeBook, text: string): string {
  const spelled = spellCode(text);
  if (spelled === null) return text;
  const listed = findListed(book, spelled);
  return listed === null ? spelled.code : `${spelled.code} (${listed.meaning})`;
}
