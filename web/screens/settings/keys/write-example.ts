import type { KeyRight } from '#server/contract/words.ts';

/** A line to try the key with. The key itself stays out of it, and so out of the history of a shell. */
export function writeExample(right: KeyRight, origin: string): string {
  const key = `-H "Authorization: Bearer $KEY"`;
  if (right === 'read') return `curl ${key} '${origin}/api/ranking?limit=5'`;
  const reading = `[{"vehicle": "B-1207", "at": "2026-03-04T05:06:07Z", "odometer_km": 187412, "slip_rpm": 12, "duty_pct": 85}]`;
  return `curl ${key} -H 'Content-Type: application/json' -d '${reading}' ${origin}/api/readings`;
}
