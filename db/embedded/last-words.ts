import { readFileSync } from 'node:fs';

/** Answers to our own knocking, many a second, while a killed program's server goes away or a new one comes up. */
const NOT_YET = /the database system is (shutting down|starting up|not yet accepting)/;

/** What PostgreSQL said last, for the sentence that explains why it does not run. */
export function lastWords(logFile: string): string {
  try {
    const said = readFileSync(logFile, 'utf8').trim().split('\n');
    const lines = said.filter((line) => !NOT_YET.test(line)).slice(-20);
    const telling = lines.filter((line) => /FATAL|PANIC|could not|error/i.test(line));
    return (telling.at(-1) ?? lines.at(-1) ?? 'it said nothing').replace(/^.*?(FATAL|PANIC): */, '');
  } catch {
    return 'it left no log';
  }
}
