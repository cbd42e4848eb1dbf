/** What the shape of a Weibull life says, the interval deciding. */
export function sayShape({ low, high }: { low: number; high: number }): string {
  if (low > 1) return 'wearing out';
  if (high < 1) return 'failing early';
  return 'by chance, or too few to tell';
}

export const formatShape = (shape: number): string => (shape < 10 ? shape.toFixed(1) : shape.toFixed(0));
