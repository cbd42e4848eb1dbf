import { formatWait } from '#web/format/format-wait.ts';

interface Mark {
  done: number;
  ms: number;
}

const shortestMs = 2500;

/** 'about 2 minutes left', from the way between two looks; null while that says too little. */
export function sayTimeLeft(first: Mark, now: Mark, of: number): string | null {
  const [way, ms] = [now.done - first.done, now.ms - first.ms];
  if (way <= 0 || ms < shortestMs) return null;
  const seconds = ((of - now.done) / way) * (ms / 1000);
  if (seconds < 10) return 'a few seconds left';
  if (seconds < 45) return `about ${Math.ceil(seconds / 10) * 10} seconds left`;
  return `about ${formatWait(seconds)} left`;
}
