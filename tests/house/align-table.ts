/** As the format of the documents has tables: every column as wide as its widest cell. */
export function alignTable([head = [], ...rows]: readonly string[][]): string[] {
  const widths = head.map((_, i) => Math.max(3, ...[head, ...rows].map((row) => row[i]?.length ?? 0)));
  const write = (cells: readonly string[]) =>
    `| ${cells.map((cell, i) => cell.padEnd(widths[i] ?? 0)).join(' | ')} |`;
  return [write(head), write(widths.map((width) => '-'.repeat(width))), ...rows.map(write)];
}
