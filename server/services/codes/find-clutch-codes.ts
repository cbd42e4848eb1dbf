import { spellCode } from '#server/contract/spell-code.ts';
import { type CodeBook, findListed } from './code-book.ts';
import { type CodeSight, joinSpellings } from './join-spellings.ts';

/** Codes that count as evidence against the converter clutch, the most frequent first. */
export function findClutchCodes(book: CodeBook, sights: Iterable<CodeSight>): CodeSight[] {
  return joinSpellings(sights)
    .filter(({ code }) => {
      const spelled = spellCode(code);
      return spelled !== null && findListed(book, spelled)?.counts === true;
    })
    .sort((a, b) => b.n - a.n);
}
