export function judgeAdvisories(
  report: unknown,
  accepted: Record<string, { reason: string; until: string }>,
  today: string,
): { faults: string[]; absent: string | null };
