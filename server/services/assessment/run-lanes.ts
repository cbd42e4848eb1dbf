/** Does `work` so many times at once. Where one fails the others are told, and it fails when they have ended. */
export async function runLanes(lanes: number, work: (failed: () => boolean) => Promise<void>): Promise<void> {
  const failures: unknown[] = [];
  const lane = async () => {
    try {
      await work(() => failures.length > 0);
    } catch (error) {
      failures.push(error);
    }
  };
  await Promise.all(Array.from({ length: lanes }, lane));
  if (failures.length > 0) throw failures[0];
}
