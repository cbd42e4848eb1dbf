/** Rows by their vehicle, each vehicle's in their order. */
export function groupByVehicle<Row extends { vehicle: number }>(rows: readonly Row[]): Map<number, Row[]> {
  const groups = new Map<number, Row[]>();
  for (const row of rows) {
    const group = groups.get(row.vehicle);
    if (group === undefined) groups.set(row.vehicle, [row]);
    else group.push(row);
  }
  return groups;
}
