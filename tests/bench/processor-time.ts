import { readdirSync, readFileSync } from 'node:fs';

/** Of this kernel's `/proc`: hundredths of a second. */
const TICKS_A_SECOND = 100;

interface Entry {
  parent: number;
  ticks: number;
  /** of children that have ended */
  endedTicks: number;
}

/** Seconds of processor time so far of these processes, all that descend from them, and those of these that have ended. */
export function readProcessorSeconds(roots: readonly number[]): number {
  const entries = new Map<number, Entry>();
  for (const name of readdirSync('/proc')) {
    if (!/^\d+$/.test(name)) continue;
    const entry = readEntry(Number(name));
    if (entry !== null) entries.set(Number(name), entry);
  }
  const belongs = (pid: number): boolean => {
    for (let at = pid; at > 1; at = entries.get(at)?.parent ?? 0) if (roots.includes(at)) return true;
    return false;
  };
  let ticks = 0;
  for (const [pid, entry] of entries) if (belongs(pid)) ticks += entry.ticks + entry.endedTicks;
  return ticks / TICKS_A_SECOND;
}

export function readParent(pid: number): number {
  const entry = readEntry(pid);
  if (entry === null) throw new Error(`there is no process ${pid}`);
  return entry.parent;
}

function readEntry(pid: number): Entry | null {
  try {
    const stat = readFileSync(`/proc/${pid}/stat`, 'utf8');
    // The name, in brackets, may hold anything; the fields after it begin with the third.
    const fields = stat.slice(stat.lastIndexOf(')') + 2).split(' ');
    const field = (number: number) => Number(fields[number - 3]);
    return { parent: field(4), ticks: field(14) + field(15), endedTicks: field(16) + field(17) };
  } catch {
    return null;
  }
}
