const two = (value: number): string => String(value).padStart(2, '0');

/** So many months from that of a day on, as 2026-03. */
export function listMonths(from: string, months: number): string[] {
  const first = Number(from.slice(0, 4)) * 12 + Number(from.slice(5, 7)) - 1;
  return Array.from({ length: months }, (_, i) => {
    const month = first + i;
    return `${Math.floor(month / 12)}-${two((month % 12) + 1)}`;
  });
}

/** The weeks of a month from Monday to Sunday; null before the first and after the last day. */
export function listWeeks(month: string): (string | null)[][] {
  const [year = 0, number = 1] = month.split('-').map(Number);
  const days = new Date(Date.UTC(year, number, 0)).getUTCDate();
  const before = (new Date(Date.UTC(year, number - 1, 1)).getUTCDay() + 6) % 7;
  const cells: (string | null)[] = [
    ...Array.from({ length: before }, () => null),
    ...Array.from({ length: days }, (_, i) => `${month}-${two(i + 1)}`),
  ];
  while (cells.length % 7 > 0) cells.push(null);
  return Array.from({ length: cells.length / 7 }, (_, i) => cells.slice(i * 7, i * 7 + 7));
}
