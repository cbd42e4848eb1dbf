/** How tables say whether a life ended with a failure. */
const failedWords = ['1', 'true', 't', 'yes', 'y', 'x', 'failed', 'failure', 'fail', 'dead', 'event', 'f'];
const runningWords = [
  ...['0', 'false', 'no', 'n', 'running', 'runs', 'ran on', 'censored', 'censor', 'cens', 'c', 's'],
  ...['suspended', 'suspension', 'alive', 'ok', 'survived', 'in service', 'right', 'right censored'],
];
/** Words that are short for both a failure and a false: they mean a failure beside an S or a C alone. */
const asFalse = new Set(['f']);

/** 1.0 and +1 are 1. */
const plainWord = (cell: string): string => {
  const word = cell.trim().toLowerCase().replaceAll(/\s+/g, ' ');
  return /^[+-]?\d+(\.0*)?$/.test(word) ? String(Number(word)) : word;
};

/** Reads the words of one column: its own words say what an F means. Null where a word is none of them. */
export function createEventReader(
  cells: Iterable<string>,
  isTurned: boolean,
): (cell: string) => boolean | null {
  const words = new Set<string>();
  for (const cell of cells) words.add(plainWord(cell));
  const isLogical = words.has('t') || words.has('true');
  return (cell) => {
    const word = plainWord(cell);
    const isFailed = failedWords.includes(word) && !(isLogical && asFalse.has(word));
    if (!isFailed && !runningWords.includes(word) && !asFalse.has(word)) return null;
    return isFailed !== isTurned;
  };
}

/** What stands in the column, and what each is taken for; the first of them where there are many. */
export function sayEventWords(
  cells: readonly string[],
  isTurned: boolean,
): { failed: string[]; running: string[] } {
  const read = createEventReader(cells, isTurned);
  const words = [...new Set(cells.map((cell) => cell.trim()))].filter((word) => word !== '');
  return {
    failed: words.filter((word) => read(word) === true).slice(0, 6),
    running: words.filter((word) => read(word) === false).slice(0, 6),
  };
}
