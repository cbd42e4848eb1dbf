import { type CodeBook, nameCode } from '#server/services/codes/code-book.ts';
import { dayWords } from './day-words.ts';

/** 'Trouble code P0741 (converter clutch stuck off)'. */
export const codeWords = (book: CodeBook, code: string): string => `Trouble code ${nameCode(book, code)}`;

/** '7 times, last on 3 May 2026'. */
export const sightWords = (n: number, lastMs: number): string =>
  `${n === 1 ? 'once' : `${n} times`}, ${n === 1 ? 'on' : 'last on'} ${dayWords(lastMs)}`;
